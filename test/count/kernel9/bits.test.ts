import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bitCount, boxesWithAny, boxesWithOne, lowestBit } from './bits.js'
import { FULL } from './plain-layout.js'

const boxes = (word: number) => [0, 10, 20].map((shift) => (word >> shift) & 511)
const ones = (bits: number) => [...bits.toString(2)].filter((bit) => bit === '1').length
const wordOf = (parts: readonly number[]) => parts.reduce((word, box, i) => word | (box << (10 * i)), 0)
const word = (least: number) =>
  fc.array(fc.oneof(fc.constantFrom(1, 2, 256), fc.integer({ min: least, max: 511 })), {
    minLength: 3,
    maxLength: 3,
  })

describe('words of three boxes', () => {
  it('boxesWithOne marks the boxes with exactly one bit', () => {
    fc.assert(
      fc.property(word(1), (parts) => {
        expect(boxes(boxesWithOne(wordOf(parts)))).toEqual(parts.map((box) => (ones(box) === 1 ? 511 : 0)))
        expect(boxesWithOne(wordOf(parts)) & ~FULL).toBe(0)
      }),
      { seed: 4_711 },
    )
  })

  it('boxesWithAny marks the boxes that are not empty', () => {
    fc.assert(
      fc.property(word(0), (parts) => {
        expect(boxesWithAny(wordOf(parts))).toBe(wordOf(parts.map((box) => (box ? 511 : 0))))
      }),
      { seed: 4_711 },
    )
  })

  it('bitCount and lowestBit take all 32 bits', () => {
    fc.assert(
      fc.property(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }), (bits) => {
        const text = (bits >>> 0).toString(2)
        expect(bitCount(bits)).toBe(ones(bits >>> 0))
        if (bits !== 0) expect(lowestBit(bits)).toBe(text.length - 1 - text.lastIndexOf('1'))
      }),
      { seed: 4_711 },
    )
    expect(bitCount(0)).toBe(0)
    expect(bitCount(-1)).toBe(32)
  })
})
