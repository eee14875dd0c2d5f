import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ridgeMap } from '../../../src/photo/find/ridges.js'
import { strokeMap } from '../../../src/photo/find/strokes.js'
import type { GrayImage } from '../../../src/photo/image.js'
import { GENERATED, generateMapsBytes } from './compile-maps.js'

const SEED = 20261125

it('ships the WebAssembly that pixel-maps.as compiles to', async () => {
  expect(readFileSync(GENERATED, 'utf8')).toBe(await generateMapsBytes())
})

/** Paper in uneven light with some ink: pictures of any size, those too narrow for a lane among them. */
const pictures = fc
  .record({ width: fc.integer({ min: 2, max: 60 }), height: fc.integer({ min: 1, max: 50 }), seed: fc.nat() })
  .map(({ width, height, seed }): GrayImage => {
    let state = seed | 1
    const data = Uint8Array.from({ length: width * height }, (_, i) => {
      state = (Math.imul(state, 1664525) + 1013904223) | 0
      const ink = (state >>> 8) % 5 === 0 ? 120 : 0
      return 235 - (i % width) - ink - ((state >>> 20) % 24)
    })
    return { width, height, data }
  })

/** Slow and plain: what the docstrings of `ridgeMap` and `strokeMap` say, pixel by pixel. */
function plainMaps(image: GrayImage) {
  const { width, height, data } = image
  const clamp = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high)
  const sum = (x: number, y: number) => {
    const column = width < 3 ? clamp(x, 0, width - 1) : clamp(clamp(x, 0, width - 1), 1, width - 2)
    let total = 0
    for (let v = y - 1; v <= y + 1; v++) {
      for (let u = column - 1; u <= column + 1; u++) {
        total += data[clamp(v, 0, height - 1) * width + u] ?? 0
      }
    }
    return total
  }
  const at = (x: number, y: number) => sum(clamp(x, 0, width - 1), clamp(y, 0, height - 1))
  const brightest = (bx: number, by: number) => {
    let most = 0
    for (let y = by * 16; y < Math.min(height, by * 16 + 16); y++) {
      for (let x = bx * 16; x < Math.min(width, bx * 16 + 16); x++) most = Math.max(most, at(x, y))
    }
    return most
  }
  const paper = (x: number, y: number) => {
    const values: number[] = []
    for (let by = (y >> 4) - 1; by <= (y >> 4) + 1; by++) {
      for (let bx = (x >> 4) - 1; bx <= (x >> 4) + 1; bx++) {
        if (bx >= 0 && by >= 0 && bx * 16 < width && by * 16 < height) values.push(brightest(bx, by))
      }
    }
    return Math.max(90, values.reduce((total, value) => total + value, 0) / values.length)
  }
  const depth = (here: number, pairs: readonly (readonly [number, number])[]) =>
    Math.max(0, Math.max(...pairs.map((pair) => Math.min(...pair))) - here)
  const ridge = (x: number, y: number) => {
    const reaches = [3, 6].flatMap((far) => {
      const slant = far === 3 ? 2 : 4
      return [
        [far, 0],
        [0, far],
        [slant, slant],
        [slant, -slant],
      ] as const
    })
    const here = at(x, y)
    const level = paper(x, y)
    if (here > level * 0.985) return 0
    const pairs = reaches.map(([dx, dy]) => [at(x - dx, y - dy), at(x + dx, y + dy)] as const)
    return Math.min(1000, (depth(here, pairs) * 1000) / level)
  }
  /** Dark line, light line and edge of one direction. */
  const stroke = (x: number, y: number, angle: number) => {
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)]
    const stride = Math.max(Math.abs(dx), Math.abs(dy))
    const mean = (u: number, v: number) => {
      let total = 0
      for (let k = -6; k <= 6; k++) {
        total += at(u + Math.round((dx * k) / stride), v + Math.round((dy * k) / stride))
      }
      return total / 13
    }
    const here = mean(x, y)
    const pair = (reach: number) => {
      const [u, v] = [Math.round(-dy * reach), Math.round(dx * reach)]
      return [mean(x - u, y - v), mean(x + u, y + v)] as const
    }
    const negative = ([a, b]: readonly [number, number]) => [-a, -b] as const
    const [before, after] = pair(2)
    return [
      depth(here, [pair(3), pair(6)]),
      depth(-here, [negative(pair(3)), negative(pair(6))]),
      Math.abs(before - after),
    ].map((value) => Math.min(1000, (value * 1000) / paper(x, y)))
  }
  return { ridge, stroke, dark: (x: number, y: number) => at(x, y) < paper(x, y) * 0.55 }
}

describe(`maps of a picture (seed ${SEED})`, () => {
  it('say how deep ridges are', () => {
    fc.assert(
      fc.property(pictures, (image) => {
        const plain = plainMaps(image)
        const strength = ridgeMap(image)
        for (let i = 0; i < strength.length; i++) {
          const [x, y] = [i % image.width, Math.floor(i / image.width)]
          const expected = plain.dark(x, y) ? 1000 : Math.floor(plain.ridge(x, y))
          expect(Math.abs(strength[i]! - expected)).toBeLessThanOrEqual(1)
        }
      }),
      { seed: SEED, numRuns: 25 },
    )
  })

  it('say how far straight strokes stand out, and leave a frame out', () => {
    fc.assert(
      fc.property(pictures, fc.nat(), (image, pick) => {
        const { width, height } = image
        const strokes = strokeMap(image)
        const plain = plainMaps(image)
        const inner = width >= 20 && height > 12
        for (let k = 0; k < 40; k++) {
          const [x, y] = [(pick + 7 * k) % width, (pick + 11 * k) % height]
          const framed = !inner || x < 6 || y < 6 || x >= width - 6 || y >= height - 6
          const each = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => plain.stroke(x, y, (n * Math.PI) / 8))
          ;[strokes.dark, strokes.light, strokes.edge].forEach((map, which) => {
            const expected = framed ? 0 : Math.max(...each.map((shares) => shares[which]!))
            expect(Math.abs(map[y * width + x]! - Math.floor(expected))).toBeLessThanOrEqual(1)
          })
        }
      }),
      { seed: SEED, numRuns: 25 },
    )
  })

  it('do not depend on the pictures before', () => {
    const [large, small] = fc.sample(pictures, { seed: SEED, numRuns: 2 })
    // another object, or the map made before would be handed out
    const maps = () => [ridgeMap({ ...small! }), strokeMap(small!)]
    const before = maps()
    strokeMap(large!)
    expect(maps()).toEqual(before)
  })
})
