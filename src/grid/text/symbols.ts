/**
 * One character a digit: `1`..`9`, then `A` = 10, `B` = 11 … `G` = 16 for orders above 9 (common practice; lower case
 * is read too). An empty cell is `0`, `.`, `_` or `*`.
 */
const DIGIT_SYMBOLS = '123456789ABCDEFG'

export const EMPTY_SYMBOLS = ['.', '0', '_', '*'] as const
export type EmptySymbol = (typeof EMPTY_SYMBOLS)[number]

export function isEmptySymbol(symbol: string): boolean {
  return symbol === '.' || symbol === '0' || symbol === '_' || symbol === '*'
}

/** Marks for empty cells that are taken where a grid has no other: `x o - ?`, in either case. */
export function isOtherEmptySymbol(symbol: string): boolean {
  return symbol.length === 1 && 'xXoO-?'.includes(symbol)
}

/** The character for a digit, 1 to 16. */
export function digitSymbol(digit: number): string {
  return DIGIT_SYMBOLS[digit - 1]!
}

/** character code -> digit, 0 for characters that are none */
const DIGIT_OF_CODE = new Uint8Array(128)
for (let i = 0; i < DIGIT_SYMBOLS.length; i++) {
  DIGIT_OF_CODE[DIGIT_SYMBOLS.charCodeAt(i)] = i + 1
  DIGIT_OF_CODE[DIGIT_SYMBOLS.toLowerCase().charCodeAt(i)] = i + 1
}

/** The digit a character stands for, or 0 when it stands for none up to `order`. */
export function symbolDigit(symbol: string, order: number): number {
  const digit = symbol.length === 1 ? (DIGIT_OF_CODE[symbol.charCodeAt(0)] ?? 0) : 0
  return digit <= order ? digit : 0
}

/** The number a text of one symbol or of decimal digits stands for: 0 for an empty cell, undefined for neither. */
export function cellNumber(text: string, order: number): number | undefined {
  if (text === '' || isEmptySymbol(text)) return 0
  if (text.length === 1) return symbolDigit(text, order) || undefined
  if (!/^[1-9][0-9]$/.test(text)) return undefined
  const number = Number(text)
  return number <= order ? number : undefined
}

/** `1 to 9`, `1 to 9 and A to C`: what a cell may hold, for messages. */
export function symbolRange(order: number): string {
  return order <= 9 ? `1 to ${order}` : `1 to 9 and A to ${digitSymbol(order)}`
}

/** A piece of input as a message shows it: short, and with characters that do not print spelt out. */
export function quoteFound(text: string): string {
  const short = text.length > 24 ? `${text.slice(0, 24)}…` : text
  const visible = short.replace(
    /[^\x20-\x7e\u00a1-\u024f\u2010-\u205e\u2500-\u259f…]/g,
    (c) => `<U+${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}>`,
  )
  return `"${visible}"`
}
