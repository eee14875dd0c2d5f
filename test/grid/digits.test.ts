import { describe, expect, it } from 'vitest'
import {
  allDigits,
  digitBit,
  digitCount,
  digitSet,
  digitsOf,
  firstDigit,
  hasDigit,
  onlyDigit,
} from '../../src/grid/digits.js'

const SIXTEEN = Array.from({ length: 16 }, (_, i) => i + 1)

describe('a set of digits', () => {
  it('holds each digit in a bit of its own', () => {
    expect(SIXTEEN.map(digitBit)).toEqual(SIXTEEN.map((digit) => 2 ** (digit - 1)))
    expect([4, 9, 16].map(allDigits)).toEqual([15, 511, 65535])
    expect(digitSet([1, 3, 16])).toBe(1 + 4 + 32768)
    expect(digitSet([])).toBe(0)
    expect(digitsOf(digitSet([16, 3, 1, 3]))).toEqual([1, 3, 16])
    expect(digitsOf(0)).toEqual([])
  })

  it('is counted and asked', () => {
    expect([0, 1, 5, 511, 65535].map(digitCount)).toEqual([0, 1, 2, 9, 16])
    expect([1, 6, 32768, 32776].map(firstDigit)).toEqual([1, 2, 16, 4])
    expect([0, 1, 6, 32768].map(onlyDigit)).toEqual([0, 1, 0, 16])
    expect(SIXTEEN.filter((digit) => hasDigit(digitSet([2, 9, 16]), digit))).toEqual([2, 9, 16])
  })

  it.each([0, 17, -1, 1.5, Number.NaN, '3'])('has no digit %s', (digit) => {
    expect(() => digitSet([1, digit as number])).toThrow(/`digit` must be a whole number from 1 to 16/)
  })
})
