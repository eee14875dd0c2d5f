import { digitSymbol } from './text/symbols.js'

/** How digits above nine are shown: as letters (`A` is 10, as in the text formats) or as numbers. */
export const DIGIT_STYLES = ['letters', 'numbers'] as const
export type DigitStyle = (typeof DIGIT_STYLES)[number]

/**
 * A digit as people read it. Up to nine both styles are the same.
 *
 * @throws RangeError for a digit that is none, or a style that does not exist
 */
export function digitName(digit: number, style: DigitStyle = 'letters'): string {
  if (!DIGIT_STYLES.includes(style))
    throw new RangeError(`There is no digit style "${style}"; choose one of ${DIGIT_STYLES.join(', ')}.`)
  if (!Number.isInteger(digit) || digit < 1 || digit > 16)
    throw new RangeError(`${digit} is not a digit; digits are whole numbers from 1 to 16.`)
  return style === 'numbers' ? `${digit}` : digitSymbol(digit)
}

/** All digits of an order in a few characters: `1 to 9`, `1 to 16`, `1 to 9 and A to G`. */
export function digitRange(order: number, style: DigitStyle = 'letters'): string {
  if (order <= 9 || style === 'numbers') return `1 to ${order}`
  return order === 10 ? '1 to 9 and A' : `1 to 9 and A to ${digitSymbol(order)}`
}
