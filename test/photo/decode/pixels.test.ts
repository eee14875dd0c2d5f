import fc from 'fast-check'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { fromPixels, inColour } from '../../../src/photo/decode/pixels.js'
import { decodePicture } from '../../../src/photo.js'
import { SEED } from '../../grid/arbitraries.js'

describe('raw pixels', () => {
  it('are put on white where they are transparent', () => {
    const data = Uint8Array.of(10, 20, 30, 255, 10, 20, 30, 0, 0, 100, 200, 128)
    const { data: colour } = inColour({ width: 3, height: 1, channels: 4, data })
    expect([...colour]).toEqual([10, 20, 30, 255, 255, 255, 127, 177, 227])
    const grey = inColour({ width: 2, height: 1, channels: 2, data: Uint8Array.of(0, 255, 7, 0) })
    expect([...grey.data]).toEqual([0, 0, 0, 255, 255, 255])
  })

  it('come out as the decoder gives them, to one level', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(1, 2, 3, 4),
        fc.uint8Array({ minLength: 48, maxLength: 48 }),
        async (channels, bytes) => {
          const data = bytes.subarray(0, 12 * channels)
          const { data: own } = inColour({ width: 4, height: 3, channels: channels as 1, data })
          const { data: decoded } = await sharp(data, {
            raw: { width: 4, height: 3, channels: channels as 1 },
          })
            .flatten({ background: '#ffffff' })
            .toColourspace('srgb')
            .raw()
            .toBuffer({ resolveWithObject: true })
          const theirs =
            decoded.length === own.length ? [...decoded] : [...decoded].flatMap((grey) => [grey, grey, grey])
          expect(theirs.length).toBe(own.length)
          for (const [i, value] of own.entries()) expect(Math.abs(value - theirs[i]!)).toBeLessThanOrEqual(1)
        },
      ),
      { seed: SEED, numRuns: 40 },
    )
  })

  it('are shrunk to means of whole blocks where they are many', () => {
    const [width, height] = [5202, 9]
    const data = new Uint8Array(width * height).map(
      (_, i) => ((i % width) * 7 + Math.floor(i / width) * 31) % 256,
    )
    const { colour, fullWidth, fullHeight } = fromPixels({ width, height, channels: 1, data })
    expect([colour.width, colour.height, fullWidth, fullHeight]).toEqual([1734, 3, 5202, 9])
    for (const [x, y] of [
      [0, 0],
      [17, 1],
      [1733, 2],
    ] as const) {
      let sum = 0
      for (let j = 0; j < 3; j++) for (let i = 0; i < 3; i++) sum += data[(y * 3 + j) * width + x * 3 + i]!
      expect(colour.data[3 * (y * colour.width + x) + 1]).toBe(Math.floor((sum + 4) / 9))
    }
  })

  it('a pixel wide and very long are a picture, too', () => {
    const { colour } = fromPixels({ width: 1, height: 8000, channels: 1, data: new Uint8Array(8000).fill(9) })
    expect([colour.width, colour.height, colour.data[0]]).toEqual([1, 2000, 9])
  })

  it('tell their channels by their number', async () => {
    const data = new Uint8ClampedArray(4 * 20 * 10).fill(255)
    data.set([0, 0, 0, 255])
    const { colour } = await decodePicture({ width: 20, height: 10, data })
    expect([...colour.data.subarray(0, 6)]).toEqual([0, 0, 0, 255, 255, 255])
  })
})
