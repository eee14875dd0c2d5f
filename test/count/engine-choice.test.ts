import { afterEach, describe, expect, it, onTestFinished, vi } from 'vitest'
import { createSearch } from '../../src/count/engine.js'
import { GeneralSearch } from '../../src/count/general-search.js'
import { WasmKernel9 } from '../../src/count/kernel9/wasm.js'
import { boxedGeometry, STANDARD } from '../../src/index.js'
import { JIGSAW_9 } from './geometries.js'

describe('createSearch', () => {
  afterEach(() => {
    vi.unstubAllGlobals()
  })

  it('takes the WebAssembly kernel for the standard grid and the general search for all others', () => {
    expect(createSearch(STANDARD)).toBeInstanceOf(WasmKernel9)
    for (const geometry of [JIGSAW_9, boxedGeometry(2, 3)])
      expect(createSearch(geometry)).toBeInstanceOf(GeneralSearch)
  })

  it('takes the general search where there is no WebAssembly', () => {
    vi.stubGlobal('WebAssembly', undefined)
    expect(createSearch(STANDARD)).toBeInstanceOf(GeneralSearch)
  })

  it('takes the general search where the module is refused', async () => {
    vi.stubGlobal('WebAssembly', {
      Module: class {
        constructor() {
          throw new Error('refused by policy')
        }
      },
    })
    // fresh modules, in which nothing has been compiled yet; and again for whatever comes after
    vi.resetModules()
    onTestFinished(() => {
      vi.resetModules()
    })
    const fresh = await import('../../src/count/engine.js')
    const grid = await import('../../src/grid/geometry.js')
    const general = await import('../../src/count/general-search.js')
    expect(fresh.createSearch(grid.STANDARD)).toBeInstanceOf(general.GeneralSearch)
  })
})
