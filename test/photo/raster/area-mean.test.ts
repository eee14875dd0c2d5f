import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { areaMean } from '../../../src/photo/raster/area-mean.js'

const SEED = 7061

describe('areaMean', () => {
  it(`is the mean over the area of each pixel, held against a sum over every overlap (seed ${SEED})`, () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 29 }),
        fc.infiniteStream(fc.integer({ min: 0, max: 255 })),
        (width, height, longest, greys) => {
          const data = Uint8Array.from({ length: width * height }, () => greys.next().value as number)
          const { image, scale } = areaMean({ width, height, data }, longest)
          if (longest >= Math.max(width, height)) {
            expect(scale).toBe(1)
            expect(image.data).toEqual(data)
            return
          }
          expect(Math.max(image.width, image.height)).toBe(longest)
          for (let y = 0; y < image.height; y++) {
            for (let x = 0; x < image.width; x++) {
              let sum = 0
              let area = 0
              for (let j = 0; j < height; j++) {
                for (let i = 0; i < width; i++) {
                  const share = overlap(i * scale, scale, x) * overlap(j * scale, scale, y)
                  sum += share * data[j * width + i]!
                  area += share
                }
              }
              expect(Math.abs(image.data[y * image.width + x]! - sum / area)).toBeLessThan(0.501)
            }
          }
        },
      ),
      { seed: SEED, numRuns: 60 },
    )
  })
})

/** How much of a stretch lies on the unit interval that begins at `pixel`. */
function overlap(start: number, length: number, pixel: number): number {
  return Math.max(0, Math.min(start + length, pixel + 1) - Math.max(start, pixel))
}
