import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { FigureNet } from '../../../src/photo/print-or-hand/figure-net.js'
import { PageContext } from '../../../src/photo/print-or-hand/page-context.js'
import { packedBytes as figureBytes } from '../../../src/photo/weights/figure-net.js'
import { packedBytes as pageBytes } from '../../../src/photo/weights/page-context.js'

/** What PyTorch computes with the shipped weights (`fixtures/train/train_written.py`). */
const reference = JSON.parse(readFileSync(new URL('./reference.json', import.meta.url), 'utf8')) as {
  readonly cells: readonly string[]
  readonly logits: readonly (readonly number[])[]
  readonly features: readonly (readonly number[])[]
  readonly outputs: readonly (readonly number[])[]
}

describe('the network of written figures', () => {
  it('computes what PyTorch computes', async () => {
    const net = new FigureNet(await figureBytes())
    for (const [i, cell] of reference.cells.entries()) {
      const { logits } = net.run(new Uint8Array(Buffer.from(cell, 'base64')))
      reference.logits[i]!.forEach((expected, k) => {
        // layers hand on whole numbers of 16 bits
        expect(Math.abs(logits[k]! - expected)).toBeLessThan(0.02 + 0.002 * Math.abs(expected))
      })
    }
  })
})

describe('the page network', () => {
  it('computes what PyTorch computes', async () => {
    const net = new PageContext(await pageBytes())
    const outputs = net.run(Float32Array.from(reference.features.flat()))
    const expected = reference.outputs.flat()
    expect(outputs.length).toBe(expected.length)
    expected.forEach((value, k) => {
      expect(outputs[k]!).toBeCloseTo(value, 2)
    })
  })

  it('does not mind in which order cells come', async () => {
    const net = new PageContext(await pageBytes())
    const forwards = net.run(Float32Array.from(reference.features.flat()))
    const backwards = net.run(Float32Array.from([...reference.features].reverse().flat()))
    const rows = (all: Float32Array) =>
      reference.features.map((_, cell) => [...all.subarray(cell * net.outputs, (cell + 1) * net.outputs)])
    rows(forwards).forEach((row, cell) => {
      row.forEach((value, k) => {
        expect(rows(backwards)[reference.features.length - 1 - cell]![k]!).toBeCloseTo(value, 4)
      })
    })
  })

  it('refuses a damaged file', async () => {
    const bytes = Uint8Array.from(await pageBytes())
    bytes[200] = bytes[200]! ^ 1
    expect(() => new PageContext(bytes)).toThrow(/checksum/)
    expect(() => new PageContext(bytes.subarray(4))).toThrow(/begin/)
  })
})
