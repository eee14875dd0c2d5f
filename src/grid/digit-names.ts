import { oneOf, whole } from '../check-arguments.js'
import { digitSymbol } from './text/symbols.js'

/** How digits above nine are shown: as letters (`A` is 10, as in the text formats) or as numbers. */
export const DIGIT_STYLES = ['letters', 'numbers'] as const
/** Names of digits above nine: letters, or numbers. */
export type DigitStyle = (typeof DIGIT_STYLES)[number]

export const checkStyle = oneOf(DIGIT_STYLES)
const checkDigit = whole(1, 16)

/**
 * A digit as people read it. Up to nine both styles are the same.
 *
 * @throws InputError `argument` for a digit that is none, or a style that does not exist
 *
 * @example
 * digitName(12) // → 'C'
 * digitName(12, 'numbers') // → '12'
 */
export function digitName(digit: number, style: DigitStyle = 'letters'): string {
  checkStyle(style, 'digits')
  checkDigit(digit, 'digit')
  return style === 'numbers' ? `${digit}` : digitSymbol(digit)
}

/** All digits of an order in a few characters: `1 to 9`, `1 to 16`, `1 to 9 and A to G`. */
export function digitRange(order: number, style: DigitStyle = 'letters'): string {
  if (order <= 9 || style === 'numbers') return `1 to ${order}`
  return order === 10 ? '1 to 9 and A' : `1 to 9 and A to ${digitSymbol(order)}`
}
