import { iterable, whole } from '../check-arguments.js'
/**
 * Sets of digits as one integer: digit d (1-based) is bit d - 1. Orders up to 16 fit with room to spare.
 * The names are those of set algebra; a set of digits is called `DigitSet`, and so is a set of positions in a house.
 */
export type DigitSet = number

export const EMPTY_SET: DigitSet = 0

export function digitBit(digit: number): DigitSet {
  return 1 << (digit - 1)
}

/** All digits 1..order. */
export function allDigits(order: number): DigitSet {
  return (1 << order) - 1
}

const checkDigit = whole(1, 16)

/**
 * A set of digits, as a number: bit 0 stands for the 1.
 *
 * @throws InputError `argument` for what is no digit of any grid, 1 to 16
 *
 * @example
 * digitSet([1, 2]) // → 3
 */
export function digitSet(digits: Iterable<number>): DigitSet {
  iterable(digits, 'digits')
  let set = 0
  for (const digit of digits) {
    checkDigit(digit, 'digit')
    set |= digitBit(digit)
  }
  return set
}

export function hasDigit(set: DigitSet, digit: number): boolean {
  return (set & (1 << (digit - 1))) !== 0
}

/** How many digits the set holds. */
export function digitCount(set: DigitSet): number {
  let x = set - ((set >>> 1) & 0x55555555)
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333)
  return Math.imul((x + (x >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
}

/** Is there one digit in the set, and no other? */
export function holdsOne(set: DigitSet): boolean {
  return set !== 0 && (set & (set - 1)) === 0
}

/** The smallest digit of a set that is not empty. */
export function firstDigit(set: DigitSet): number {
  return 32 - Math.clz32(set & -set)
}

/** The number of the lowest bit of a set that is not empty: a position in a house, or a place of a word of bits. */
export function lowestBit(set: number): number {
  return 31 - Math.clz32(set & -set)
}

/** The digits of a set, ascending. */
export function digitsOf(set: DigitSet): number[] {
  const digits: number[] = []
  for (let rest = set; rest !== 0; rest &= rest - 1) digits.push(firstDigit(rest))
  return digits
}

/** The one digit of a one-digit set, or 0. */
export function onlyDigit(set: DigitSet): number {
  return (set & (set - 1)) === 0 ? 32 - Math.clz32(set) : 0
}
