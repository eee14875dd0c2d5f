import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { GrayImage } from '../../../src/photo/image.js'
import { LineSamples } from '../../../src/photo/raster/line-samples.js'
import { GENERATED, generateLineSampleBytes } from './compile-line-samples.js'

const SEED = 20261126

it('ships the WebAssembly that line-samples.as compiles to', async () => {
  expect(readFileSync(GENERATED, 'utf8')).toBe(await generateLineSampleBytes())
})

const pictures = fc
  .record({ width: fc.integer({ min: 2, max: 70 }), height: fc.integer({ min: 2, max: 50 }), seed: fc.nat() })
  .map(({ width, height, seed }): GrayImage => {
    let state = seed | 1
    const data = Uint8Array.from({ length: width * height }, () => {
      state = (Math.imul(state, 1664525) + 1013904223) | 0
      return state >>> 24
    })
    return { width, height, data }
  })

/** Places inside the picture and around it. */
const place = fc.double({ min: -20, max: 90, noNaN: true })
const step = fc.double({ min: -2, max: 2, noNaN: true })

/** Slow and plain: between the four pixels around a place, as at the edge beyond it. */
function plain({ width, height, data }: GrayImage, x: number, y: number): number {
  const u = Math.min(Math.max(x, 0), width - 1.001)
  const v = Math.min(Math.max(y, 0), height - 1.001)
  const [column, row] = [Math.floor(u), Math.floor(v)]
  const at = (dx: number, dy: number) => data[(row + dy) * width + column + dx]!
  const top = at(0, 0) + (at(1, 0) - at(0, 0)) * (u - column)
  const low = at(0, 1) + (at(1, 1) - at(0, 1)) * (u - column)
  return top + (low - top) * (v - row)
}

/** Places are known to a few millionths of a picture's side; neighbouring pixels here differ by up to 255. */
const NEAR = 0.05

describe('numbers along straight lines', () => {
  it('are what lies between the pixels there, averaged over neighbouring lines', () => {
    const samples = new LineSamples()
    fc.assert(
      fc.property(
        pictures,
        pictures,
        fc.tuple(place, place, step, step, step, step),
        fc.integer({ min: 1, max: 61 }),
        fc.constantFrom(1, 3),
        (one, other, [x, y, stepX, stepY, tapX, tapY], count, taps) => {
          samples.open([one, other], count + 4)
          samples.line(1, x, y, stepX, stepY, count, taps, tapX, tapY, 0)
          for (let k = 0; k < count; k++) {
            let sum = 0
            for (let tap = -(taps - 1) / 2; tap <= (taps - 1) / 2; tap++)
              sum += plain(other, x + k * stepX + tap * tapX, y + k * stepY + tap * tapY)
            expect(Math.abs(samples.numbers[k]! - sum / taps)).toBeLessThan(NEAR)
          }
        },
      ),
      { numRuns: 200, seed: SEED },
    )
  })

  it('fill a square whose lines turn and spread', () => {
    const samples = new LineSamples()
    const slight = fc.double({ min: -0.02, max: 0.02, noNaN: true })
    fc.assert(
      fc.property(
        pictures,
        fc.tuple(place, place, step, step, step, step, slight, slight),
        (picture, lines) => {
          const [x, y, stepX, stepY, nextX, nextY, twistX, twistY] = lines
          const side = 12
          samples.open([picture], 2 * side * side)
          samples.square(0, { x, y, stepX, stepY, nextX, nextY, twistX, twistY }, side, side * side)
          for (let j = 0; j < side; j++) {
            for (let i = 0; i < side; i++) {
              const u = x + nextX * j + (stepX + twistX * j) * i
              const v = y + nextY * j + (stepY + twistY * j) * i
              const number = samples.numbers[side * side + j * side + i]!
              expect(Math.abs(number - plain(picture, u, v))).toBeLessThan(NEAR)
            }
          }
        },
      ),
      { numRuns: 200, seed: SEED },
    )
  })

  it('see another picture once it is opened, and the first one again', () => {
    const samples = new LineSamples()
    const grey = (value: number) => ({ width: 8, height: 8, data: new Uint8Array(64).fill(value) })
    const [dark, light] = [grey(20), grey(200)]
    const seen = [dark, light, dark].map((picture) => {
      samples.open([picture], 8)
      samples.line(0, 2, 2, 1, 0, 4, 1, 0, 0, 0)
      return samples.numbers[0]
    })
    expect(seen).toEqual([20, 200, 20])
  })
})

describe('a square of brightness', () => {
  it('turns into darkness against slanted paper, and into grey values', () => {
    const samples = new LineSamples()
    const side = 8
    const number = fc.double({ min: 0, max: 255, noNaN: true })
    fc.assert(
      fc.property(
        fc.array(number, { minLength: side * side, maxLength: side * side }),
        fc.tuple(fc.double({ min: -50, max: 250, noNaN: true }), step, step),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (brightness, [paper, stepX, stepY], black) => {
          samples.open([], side * side)
          samples.numbers.set(brightness)
          samples.darken(0, side, paper, stepX, stepY, 12)
          const dark = brightness.map((value, k) => {
            const here = paper + stepX * (k % side) + stepY * Math.floor(k / side)
            return 1 - value / Math.max(12, here)
          })
          for (const [k, value] of dark.entries()) expect(samples.numbers[k]!).toBeCloseTo(value, 3)
          const grey = samples.toGrey(0, side * side, black)
          for (const [k, value] of samples.numbers.subarray(0, side * side).entries()) {
            const exact = Math.min(255, Math.max(0, 255.5 - (value * 255) / black))
            expect(Math.abs(grey[k]! - Math.floor(exact))).toBeLessThanOrEqual(
              Math.abs(exact % 1) < 1e-3 ? 1 : 0,
            )
          }
        },
      ),
      { numRuns: 200, seed: SEED },
    )
  })
})
