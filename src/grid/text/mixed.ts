import type { TextLine } from './lines.js'
import type { Part } from './part.js'

/**
 * The first row that is written in another way than those before it. Nobody changes from `1,2` to `1, 2` within a grid,
 * nor from a dot to a zero for empty cells: such rows are of two grids, of which one has a row too few.
 */
export function oddRow({ lines, roles, cut }: Pick<Part, 'lines' | 'roles' | 'cut'>): TextLine | undefined {
  const rows = lines.filter((_, i) => roles[i] === 'row')
  for (const stylesOf of [partingsOf, (text: string) => marksOf(text, cut)]) {
    let first: Set<string> | undefined
    for (const row of rows) {
      const styles = stylesOf(row.text)
      if (styles.size === 0) continue
      first ??= styles
      if (![...styles].some((style) => first!.has(style))) return row
    }
  }
  return undefined
}

/** What stands between the values of a line: each separator with the space after it. */
function partingsOf(text: string): Set<string> {
  return new Set(text.trim().match(/[,;\t] ?/g))
}

/** The marks for empty cells on a line; pencil marks such as `5?` hold none. */
function marksOf(text: string, cut: Part['cut']): Set<string> {
  const cells = cut === 'symbols' ? [...text] : text.split(/[\s,;|]+/)
  return new Set(cells.filter((cell) => /^[.0_*xo?-]$/i.test(cell)).map((cell) => cell.toLowerCase()))
}
