import { below, pick, type Random } from './random-choice.js'

/** A grid and what else a way of writing it may need. */
export interface Shape {
  readonly order: number
  /** Of a box. */
  readonly rows: number
  readonly columns: number
  readonly solution: readonly number[]
}

/** The choices that a layout leaves open, by name: the mark for empty cells, the separator and so on. */
export type Style = Readonly<Record<string, string>>

/** A way to write a grid, a line each. */
export interface Layout {
  /** All styles; one that should be chosen more often stands there more often. */
  styles(shape: Shape, random: Random): readonly Style[]
  write(cells: readonly number[], shape: Shape, style: Style): string[]
}

const SYMBOLS = '.123456789ABCDEFG'
const ALL_MARKS = ['.', '.', '0', '0', '_', '*', 'x', 'o', '-', '?', 'X']

const chunks = <T>(items: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(items.length / size) }, (_, i) => items.slice(i * size, (i + 1) * size))
const symbols = (cells: readonly number[], mark: string) =>
  cells.map((digit) => (digit === 0 ? mark : SYMBOLS[digit]!))
const rowsOf = (cells: readonly number[], { order }: Shape, mark: string) =>
  chunks(symbols(cells, mark), order)
const grouped = (row: readonly string[], { columns }: Shape, inner: string, outer: string) =>
  chunks(row, columns)
    .map((group) => group.join(inner))
    .join(outer)
const values = (cells: readonly number[], mark: string) =>
  cells.map((digit) => (digit ? String(digit) : mark))
const frame = ({ order, columns }: Shape) => `+${`${'-'.repeat(columns * 2 + 1)}+`.repeat(order / columns)}`
const columnNumbers = ({ order }: Shape) => Array.from({ length: order }, (_, c) => String(c + 1))

/** Every choice of one value for each name. */
function combined(choices: Readonly<Record<string, readonly string[]>>): Style[] {
  let styles: Style[] = [{}]
  for (const [name, options] of Object.entries(choices))
    styles = styles.flatMap((style) => options.map((option) => ({ ...style, [name]: option })))
  return styles
}

/** A layout whose choices are free of each other. */
function layout(choices: Readonly<Record<string, readonly string[]>>, write: Layout['write']): Layout {
  const styles = combined(choices)
  return { styles: () => styles, write }
}

/** Rows that are written one by one, all alike. */
function rowLayout(
  choices: Readonly<Record<string, readonly string[]>>,
  writeRow: (row: readonly string[], shape: Shape, style: Style) => string,
): Layout {
  return layout(choices, (cells, shape, style) =>
    rowsOf(cells, shape, style.mark!).map((row) => writeRow(row, shape, style)),
  )
}

const separatedStyles = [',', ';', '\t', ', '].flatMap((separator) =>
  combined({ separator: [separator], mark: ['', '', '0', ...ALL_MARKS] }),
)

function framed(marks: readonly string[]): Layout {
  return layout({ mark: marks }, (cells, shape, { mark }) => {
    const rule = frame(shape)
    const rows = rowsOf(cells, shape, mark!).map((row) => `| ${grouped(row, shape, ' ', ' | ')} |`)
    return [rule, ...rows.flatMap((row, r) => ((r + 1) % shape.rows === 0 ? [row, rule] : [row]))]
  })
}

const line = (cells: readonly number[], { mark }: Style) => symbols(cells, mark!).join('')

export const LAYOUTS: Readonly<Record<string, Layout>> = {
  line: layout({ mark: ALL_MARKS }, (cells, _, style) => [line(cells, style)]),
  'numbered line': layout(
    {
      before: ['1. ', '17 ', '3) ', 'No. 5: ', '12,', '7;', '0042\t'],
      mark: ALL_MARKS,
      after: ['', ' 3.5', ' hard', ',2.4', '  # easy'],
    },
    (cells, _, style) => [`${style.before}${line(cells, style)}${style.after}`],
  ),
  'line with an id': {
    styles(_, random) {
      const id = Array.from({ length: 16 }, () => pick([...'0123401234012349bc'], random)).join('')
      return combined({ id: [id], mark: ALL_MARKS, order: ['before', 'after'] })
    },
    write: (cells, _, style) => [
      style.order === 'before' ? `${style.id} ${line(cells, style)}` : `${line(cells, style)} ${style.id}`,
    ],
  },
  'line and solution': layout(
    { mark: ALL_MARKS, separator: [',', ' ', '\t', ';'] },
    (cells, { solution }, style) => [
      `${line(cells, style)}${style.separator}${symbols(solution, '.').join('')}`,
    ],
  ),
  rows: rowLayout({ mark: ALL_MARKS }, (row) => row.join('')),
  'spaced rows': rowLayout({ mark: ALL_MARKS }, (row) => row.join(' ')),
  'grouped rows': rowLayout({ mark: ALL_MARKS }, (row, shape) => grouped(row, shape, '', ' ')),
  'grouped and spaced rows': rowLayout({ mark: ALL_MARKS }, (row, shape) => grouped(row, shape, ' ', '  ')),
  'banded rows': layout({ mark: ALL_MARKS }, (cells, shape, { mark }) =>
    rowsOf(cells, shape, mark!).flatMap((row, r) => [
      ...(r > 0 && r % shape.rows === 0 ? [''] : []),
      grouped(row, shape, ' ', '  '),
    ]),
  ),
  'rows with drawn lines': layout(
    { rule: ['-', '=', '*', '_'], mark: ['.', '0', 'x', '?'] },
    (cells, shape, { rule, mark }) =>
      rowsOf(cells, shape, mark!).flatMap((row, r) => [
        ...(r > 0 && r % shape.rows === 0
          ? [rule!.repeat(shape.order + shape.order / shape.columns - 1)]
          : []),
        grouped(row, shape, '', ' '),
      ]),
  ),
  'rows with labels': {
    styles: ({ order }) =>
      combined({
        mark: ALL_MARKS,
        labels: order <= 9 ? ['letters', 'numbers'] : ['numbers'],
        head: ['yes', 'no'],
      }),
    write(cells, shape, { mark, labels, head }) {
      const label = (i: number) => (labels === 'letters' ? String.fromCharCode(65 + i) : String(i + 1))
      const rows = rowsOf(cells, shape, mark!).map((row, r) => `${label(r)} ${row.join(' ')}`)
      return head === 'no' ? rows : [`  ${columnNumbers(shape).join(' ')}`, ...rows]
    },
  },
  'values with a separator': {
    styles: () => separatedStyles,
    write: (cells, { order }, { separator, mark }) =>
      chunks(values(cells, mark!), order).map((row) => row.join(separator)),
  },
  'values with labels': layout(
    { mark: ['0', '0', '', ...ALL_MARKS], head: ['yes', 'yes', 'no'] },
    (cells, shape, style) => [
      ...(style.head === 'yes' ? [`,${columnNumbers(shape).join(',')}`] : []),
      ...chunks(values(cells, style.mark!), shape.order).map((row, r) => `${r + 1},${row.join(',')}`),
    ],
  ),
  'values on a line': {
    styles: () => [
      ...combined({ mark: ALL_MARKS, separator: [',', ' ', ';'] }),
      ...combined({ mark: [''], separator: [',', ';'] }),
    ],
    write: (cells, _, { mark, separator }) => [values(cells, mark!).join(separator)],
  },
  'groups on a line': layout({ mark: ALL_MARKS }, (cells, shape, { mark }) => [
    rowsOf(cells, shape, mark!)
      .map((row) => row.join(''))
      .join(' '),
  ]),
  framed: framed(ALL_MARKS),
  'framed with blanks': framed([' ']),
  bars: layout(
    { mark: ['.', '0', '_', '*', 'x', 'o', '?'], rules: ['yes', 'yes', 'yes', 'no', 'no'] },
    (cells, shape, { mark, rules }) => {
      const rule = chunks(new Array<string>(shape.order).fill('-'), shape.columns)
        .map((group) => group.join(''))
        .join('+')
      return rowsOf(cells, shape, mark!).flatMap((row, r) => [
        ...(rules === 'yes' && r > 0 && r % shape.rows === 0 ? [rule] : []),
        grouped(row, shape, '', '|'),
      ])
    },
  ),
  'list of values': layout({}, (cells) => [JSON.stringify(cells)]),
  'list of rows': layout({}, (cells, { order }) => [JSON.stringify(chunks(cells, order))]),
  'list of rows, a line each': layout({}, (cells, { order }) => {
    const rows = chunks(cells, order).map((row) => JSON.stringify(row))
    return rows.map((row, r) => `${r === 0 ? '[' : ' '}${row}${r === rows.length - 1 ? ']' : ','}`)
  }),
  'list of strings': layout({ mark: ALL_MARKS }, (cells, shape, { mark }) => [
    JSON.stringify(rowsOf(cells, shape, mark!).map((row) => row.join(''))),
  ]),
  'blanks in rows': rowLayout({ mark: [' '] }, (row) => row.join('')),
  'blanks on a line': layout({ mark: [' '] }, (cells, _, style) => [line(cells, style)]),
}

export const LINE_LAYOUTS: ReadonlySet<string> = new Set([
  ...['line', 'numbered line', 'line and solution', 'values on a line'],
])
export const JSON_LAYOUTS = /^list/
/** Layouts that are refused where rows or marks happen to look like something else: never wrong, not always read. */
export const MAY_BE_REFUSED: ReadonlySet<string> = new Set([
  ...['blanks in rows', 'blanks on a line', 'framed with blanks'],
  ...['line with an id', 'rows with labels', 'values with labels'],
])

/** The lines of a grid in one of the styles of a layout. */
export function someWriting(name: string, cells: readonly number[], shape: Shape, random: Random): string[] {
  const { styles, write } = LAYOUTS[name]!
  const all = styles(shape, random)
  return write(cells, shape, all[below(all.length, random)]!)
}
