/** `!` is a cell with no candidate left, `+5` a digit that a solver placed: neither is a given. */
const MARKS: ReadonlySet<string> = new Set(['', '.', '0', '_', '*', 'x', 'X', 'o', 'O', '-', '?', '!'])
const SYMBOLS = '123456789ABCDEFG'

/** Is the grid one word of the line, and is nothing else on the line a grid, or most of one, but its solution? */
export function isOnLine(line: string, cells: readonly number[]): boolean {
  const order = Math.sqrt(cells.length)
  const words = line.split(/[\s,;:="|]+/).filter((word) => word !== '')
  const fits = (word: string) =>
    word.length === cells.length && [...word].every((symbol, i) => digitOf(symbol, order) === cells[i])
  if (!words.some(fits)) return false
  const rest = words.filter(
    (word) => !fits(word) && /^[0-9._*xXoO?-]+$/.test(word) && word.length * 2 > cells.length,
  )
  return rest.every(
    (word) =>
      word.length === cells.length &&
      [...word].every((symbol, i) => cells[i] === 0 || digitOf(symbol, order) === cells[i]),
  )
}

function digitOf(symbol: string, order: number): number | undefined {
  if (MARKS.has(symbol)) return 0
  const digit = SYMBOLS.indexOf(symbol.toUpperCase()) + 1
  return digit > 0 && digit <= order ? digit : undefined
}
