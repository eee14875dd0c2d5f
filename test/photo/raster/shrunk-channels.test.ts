import fc from 'fast-check'
import { expect, it } from 'vitest'
import { shrink } from '../../../src/photo/raster/shrink.js'
import { shrunkChannels } from '../../../src/photo/raster/shrunk-channels.js'

it('makes the same pixels of a part as of the whole picture', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 8, max: 30 }),
      fc.integer({ min: 8, max: 30 }),
      fc.array(fc.double({ min: -5, max: 35, noNaN: true }), { minLength: 4, maxLength: 4 }),
      fc.integer({ min: 0, max: 255 }),
      (factor, width, height, [a, b, c, d], seed) => {
        const data = Uint8Array.from({ length: 3 * width * height }, (_, k) => (k * 37 + seed * k * k) & 255)
        const frame = {
          left: Math.min(a!, b!),
          right: Math.max(a!, b!),
          top: Math.min(c!, d!),
          bottom: Math.max(c!, d!),
        }
        const { channels, left, top } = shrunkChannels({ width, height, data }, frame, factor)
        channels.forEach((part, channel) => {
          const plane = Uint8Array.from({ length: width * height }, (_, k) => data[3 * k + channel]!)
          const whole = shrink({ width, height, data: plane }, factor)
          for (let y = 0; y < part.height; y++) {
            for (let x = 0; x < part.width; x++) {
              expect(part.data[y * part.width + x]).toBe(whole.data[(top + y) * whole.width + left + x])
            }
          }
          // all of the frame that lies on the picture is there
          if (frame.right >= 0 && frame.left < width)
            expect((left + part.width) * factor).toBeGreaterThanOrEqual(
              Math.min(frame.right, whole.width * factor),
            )
        })
      },
    ),
  )
})
