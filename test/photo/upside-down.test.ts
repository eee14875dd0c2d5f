import { describe, expect, it } from 'vitest'
import type { CellScores } from '../../src/photo/digits/digit-reader.js'
import { speaksForUpright } from '../../src/photo/upside-down.js'

function seen(digit: number, share = 0.99): CellScores {
  const digits = new Float32Array(10).fill((1 - share) / 9)
  digits[digit] = share
  return { digits, handwritten: 0 }
}

describe('speaksForUpright', () => {
  it('tells a 3 from an 8 by what it looks like upside down', () => {
    expect(speaksForUpright(seen(3), seen(8))).toBeGreaterThan(2)
  })

  it('says as much against a turn as for the opposite one', () => {
    for (let one = 1; one <= 9; one++) {
      for (let other = 1; other <= 9; other++) {
        expect(speaksForUpright(seen(one), seen(other))).toBeCloseTo(
          -speaksForUpright(seen(other), seen(one)),
          9,
        )
      }
    }
  })

  it('says nothing of figures that look the same either way, or of none', () => {
    expect(speaksForUpright(seen(8), seen(8))).toBe(0)
    expect(Math.abs(speaksForUpright(seen(6), seen(9)))).toBeLessThan(0.1)
    expect(speaksForUpright(seen(3), seen(0))).toBe(0)
    expect(speaksForUpright(seen(3), seen(8, 0.6))).toBe(0)
  })
})
