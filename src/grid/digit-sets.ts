import { whole } from '../check-arguments.js'
import { digitCount as countOf, type DigitSet, digitsOf as listOf } from './digits.js'

// What apps call. Within the package `digits.ts` is called directly, millions of times a second.

const checkSet = whole(0, 0xffff)

/**
 * How many digits the set holds.
 *
 * @throws InputError `argument` for what is no set of digits
 *
 * @example
 * digitCount(digitSet([1, 2])) // → 2
 */
export function digitCount(set: DigitSet): number {
  checkSet(set, 'set')
  return countOf(set)
}

/**
 * The digits of a set, ascending.
 *
 * @throws InputError `argument` for what is no set of digits
 *
 * @example
 * digitsOf(3) // → [1, 2]
 */
export function digitsOf(set: DigitSet): number[] {
  checkSet(set, 'set')
  return listOf(set)
}
