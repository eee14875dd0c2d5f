import { boxedGeometry, type Geometry } from '../../src/grid/geometry.js'
import { shuffled } from '../../src/grid/random.js'

export type Random = () => number

/** A grid that the text is meant to hold. */
export interface Meant {
  readonly geometry: Geometry
  readonly cells: readonly number[]
  readonly layout: string
}

/** A line of the text and the grid it belongs to; -1 for what stands between grids. */
export interface OwnedLine {
  readonly text: string
  readonly owner: number
}

/** A text with what it is meant to hold. */
export interface TextDocument {
  readonly meant: readonly Meant[]
  readonly lines: readonly OwnedLine[]
  /** The geometry the reader is told, if any. */
  readonly told: Geometry | undefined
  /** Grids with the same number share a fate: nothing parts them clearly. */
  readonly groups: readonly number[]
}

export const pick = <T>(items: readonly T[], random: Random): T => items[Math.floor(random() * items.length)]!
export const below = (limit: number, random: Random): number => Math.floor(random() * limit)

const SYMBOLS = '.123456789ABCDEFG'
const ALL_MARKS = ['.', '.', '0', '0', '_', '*', 'x', 'o', '-', '?', 'X'] as const

/** Part of a full grid of the geometry: a shifted pattern with its digits renamed and its rows moved within bands. */
function someCells({ order, box }: Geometry, random: Random): number[] {
  const { rows, columns } = box!
  const names = shuffled(
    Array.from({ length: order }, (_, i) => i + 1),
    random,
  )
  const shift = below(order, random)
  const turn = below(rows, random)
  const share = random() < 0.06 ? 1 : 0.2 + 0.35 * random()
  const cells = new Array<number>(order * order)
  for (let r = 0; r < order; r++) {
    const band = Math.floor(r / rows)
    const start = ((r + turn) % rows) * columns + band + shift
    for (let c = 0; c < order; c++) cells[r * order + c] = random() < share ? names[(start + c) % order]! : 0
  }
  return cells
}

interface Shape {
  readonly order: number
  readonly rows: number
  readonly columns: number
  readonly random: Random
  readonly solution: readonly number[]
}

type Layout = (cells: readonly number[], shape: Shape) => string[]

const chunks = <T>(items: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(items.length / size) }, (_, i) => items.slice(i * size, (i + 1) * size))
const symbols = (cells: readonly number[], mark: string) =>
  cells.map((digit) => (digit === 0 ? mark : SYMBOLS[digit]!))
const markOf = ({ random }: Shape) => pick(ALL_MARKS, random)

const rowsOf = (cells: readonly number[], shape: Shape, mark: string = markOf(shape)) =>
  chunks(symbols(cells, mark), shape.order)
const grouped = (row: readonly string[], shape: Shape, inner: string, outer: string) =>
  chunks(row, shape.columns)
    .map((group) => group.join(inner))
    .join(outer)
const wholeLine = (cells: readonly number[], shape: Shape, mark: string = markOf(shape)) =>
  symbols(cells, mark).join('')
const values = (cells: readonly number[], mark: string) =>
  cells.map((digit) => (digit ? String(digit) : mark))

/** Ways to write a grid, a line each. */
export const LAYOUTS: Record<string, Layout> = {
  line: (cells, shape) => [wholeLine(cells, shape)],
  'numbered line': (cells, shape) => [
    `${pick(['1. ', '17 ', '3) ', 'No. 5: ', '12,', '7;', '0042\t'], shape.random)}${wholeLine(cells, shape)}${pick(['', ' 3.5', ' hard', ',2.4', '  # easy'], shape.random)}`,
  ],
  'line with an id': (cells, shape) => {
    const id = Array.from({ length: 16 }, () => pick([...'0123401234012349bc'], shape.random)).join('')
    return [shape.random() < 0.5 ? `${id} ${wholeLine(cells, shape)}` : `${wholeLine(cells, shape)} ${id}`]
  },
  'line and solution': (cells, shape) => [
    `${wholeLine(cells, shape)}${pick([',', ' ', '\t', ';'], shape.random)}${symbols(shape.solution, '.').join('')}`,
  ],
  rows: (cells, shape) => rowsOf(cells, shape).map((row) => row.join('')),
  'spaced rows': (cells, shape) => rowsOf(cells, shape).map((row) => row.join(' ')),
  'grouped rows': (cells, shape) => rowsOf(cells, shape).map((row) => grouped(row, shape, '', ' ')),
  'grouped and spaced rows': (cells, shape) =>
    rowsOf(cells, shape).map((row) => grouped(row, shape, ' ', '  ')),
  'banded rows': (cells, shape) =>
    rowsOf(cells, shape).flatMap((row, r) => [
      ...(r > 0 && r % shape.rows === 0 ? [''] : []),
      grouped(row, shape, ' ', '  '),
    ]),
  'rows with drawn lines': (cells, shape) => {
    const rule = pick(['-', '=', '*', '_'], shape.random).repeat(
      shape.order + shape.order / shape.columns - 1,
    )
    return rowsOf(cells, shape, pick(['.', '0'], shape.random)).flatMap((row, r) => [
      ...(r > 0 && r % shape.rows === 0 ? [rule] : []),
      grouped(row, shape, '', ' '),
    ])
  },
  'rows with labels': (cells, shape) => {
    const letters = shape.order <= 9 && shape.random() < 0.5
    const label = (i: number) => (letters ? String.fromCharCode(65 + i) : String(i + 1))
    const rows = rowsOf(cells, shape).map((row, r) => `${label(r)} ${row.join(' ')}`)
    return shape.random() < 0.5
      ? rows
      : [`  ${Array.from({ length: shape.order }, (_, c) => String(c + 1)).join(' ')}`, ...rows]
  },
  'values with a separator': (cells, shape) => {
    const separator = pick([',', ';', '\t', ', '], shape.random)
    const mark = pick(['0', '0', '.', separator === '\t' ? '0' : ''], shape.random)
    return chunks(values(cells, mark), shape.order).map((row) => row.join(separator))
  },
  'values with labels': (cells, shape) => {
    const head = Array.from({ length: shape.order }, (_, c) => String(c + 1))
    return [
      `,${head.join(',')}`,
      ...chunks(values(cells, '0'), shape.order).map((row, r) => `${r + 1},${row.join(',')}`),
    ]
  },
  'values on a line': (cells, shape) => [
    values(cells, pick(['0', '.'], shape.random)).join(pick([',', ' ', ';'], shape.random)),
  ],
  'groups on a line': (cells, shape) => [
    rowsOf(cells, shape)
      .map((row) => row.join(''))
      .join(' '),
  ],
  framed: (cells, shape) => {
    const mark = pick(['.', '0', '_', '*'], shape.random)
    const rule = `+${`${'-'.repeat(shape.columns * 2 + 1)}+`.repeat(shape.order / shape.columns)}`
    const rows = rowsOf(cells, shape, mark).map((row) => `| ${grouped(row, shape, ' ', ' | ')} |`)
    return [rule, ...rows.flatMap((row, r) => ((r + 1) % shape.rows === 0 ? [row, rule] : [row]))]
  },
  'framed with blanks': (cells, shape) => {
    const rule = `+${`${'-'.repeat(shape.columns * 2 + 1)}+`.repeat(shape.order / shape.columns)}`
    const rows = rowsOf(cells, shape, ' ').map((row) => `| ${grouped(row, shape, ' ', ' | ')} |`)
    return [rule, ...rows.flatMap((row, r) => ((r + 1) % shape.rows === 0 ? [row, rule] : [row]))]
  },
  bars: (cells, shape) => {
    const mark = pick(['.', '0', '_', '*', 'x'], shape.random)
    const rule = chunks(new Array(shape.order).fill('-'), shape.columns)
      .map((group) => group.join(''))
      .join('+')
    const isRuled = shape.random() < 0.6
    return rowsOf(cells, shape, mark).flatMap((row, r) => [
      ...(isRuled && r > 0 && r % shape.rows === 0 ? [rule] : []),
      grouped(row, shape, '', '|'),
    ])
  },
  'list of values': (cells) => [JSON.stringify(cells)],
  'list of rows': (cells, shape) => [JSON.stringify(chunks(cells, shape.order))],
  'list of rows, a line each': (cells, shape) => {
    const rows = chunks(cells, shape.order).map((row) => JSON.stringify(row))
    return rows.map((row, r) => `${r === 0 ? '[' : ' '}${row}${r === rows.length - 1 ? ']' : ','}`)
  },
  'list of strings': (cells, shape) => [JSON.stringify(rowsOf(cells, shape).map((row) => row.join('')))],
  'blanks in rows': (cells, shape) => rowsOf(cells, shape, ' ').map((row) => row.join('')),
  'blanks on a line': (cells, shape) => [wholeLine(cells, shape, ' ')],
}

export const LINE_LAYOUTS = new Set(['line', 'numbered line', 'line and solution', 'values on a line'])
const JSON_LAYOUTS = /^list/
/** Layouts that are refused where rows or marks happen to look like something else: never wrong, not always read. */
export const MAY_BE_REFUSED = new Set([
  ...[
    'blanks in rows',
    'blanks on a line',
    'line with an id',
    'framed with blanks',
    'rows with labels',
    'values with labels',
  ],
])

const SEPARATORS = [
  'none',
  'none',
  'blank',
  'blank',
  'two blanks',
  'comment',
  'title',
  'comment and blank',
  'ruler',
] as const

const TITLES = ['Grid 01', 'Week 12', 'Hard', 'No. 4', 'Puzzle 3:', '12.', '(7)', 'Easy one by Moll']
const COMMENTS = ['# next', '# from the Dale Courier', '#', '# 12']

const SQUARE = [boxedGeometry(2, 2), boxedGeometry(3, 3), boxedGeometry(4, 4)]
const OTHERS = [boxedGeometry(2, 3), boxedGeometry(3, 2), boxedGeometry(2, 4), boxedGeometry(3, 4)]

export function someDocument(random: Random): TextDocument {
  const told = random() < 0.3 ? pick([...OTHERS, ...SQUARE], random) : undefined
  const count = 1 + below(random() < 0.3 ? 7 : 4, random)
  const isMixed = random() < 0.3
  const names = Object.keys(LAYOUTS)
  const layout = pick(names, random)
  const first = random() < 0.75 ? SQUARE[1]! : pick([...SQUARE, ...OTHERS], random)
  const separator = pick(SEPARATORS, random)
  const meant: Meant[] = []
  const lines: OwnedLine[] = []
  const groups: number[] = []
  const between = (text: string) => lines.push({ text, owner: -1 })
  if (random() < 0.1) between(pick([...TITLES, ...COMMENTS, ''], random))
  for (let i = 0; i < count; i++) {
    const geometry = told ?? (isMixed ? pick([...SQUARE, ...OTHERS], random) : first)
    const name = isMixed && random() < 0.5 ? pick(names, random) : layout
    const here = isMixed && random() < 0.3 ? pick(SEPARATORS, random) : separator
    const { order } = geometry
    const { rows, columns } = geometry.box!
    const cells = someCells(geometry, random)
    const solution = cells.map((digit, cell) => digit || ((cell * 7) % order) + 1)
    if (i > 0) {
      if (here === 'blank' || here === 'two blanks' || here === 'comment and blank') between('')
      if (here === 'two blanks') between('')
      if (here === 'comment' || here === 'comment and blank') between(pick(COMMENTS, random))
      if (here === 'title') between(pick(TITLES, random))
      if (here === 'ruler')
        between(pick(['*', '_', '-', '=', '~'], random).repeat(pick([5, 9, 16, 36, 40, 81], random)))
    }
    const isParted =
      here === 'title' || here === 'comment' || here === 'comment and blank' || here === 'two blanks'
    const isPartedByBlank =
      here === 'blank' && name !== 'banded rows' && meant.at(-1)?.layout !== 'banded rows'
    const areLines =
      LINE_LAYOUTS.has(name) &&
      LINE_LAYOUTS.has(meant.at(-1)?.layout ?? '') &&
      order > 4 &&
      meant.at(-1)!.geometry.order > 4
    const goesOn = i > 0 && !isParted && !isPartedByBlank && !areLines
    const isJson = JSON_LAYOUTS.test(name) || JSON_LAYOUTS.test(meant.at(-1)?.layout ?? '')
    groups.push(goesOn || (i > 0 && isJson && here === 'blank') ? groups.at(-1)! : i)
    const needsWord = !told && !SQUARE.includes(geometry)
    if (needsWord) lines.push({ text: `# geometry: ${geometry.name}`, owner: i })
    for (const text of LAYOUTS[name]!(cells, { order, rows, columns, random, solution })) {
      lines.push({ text, owner: i })
    }
    meant.push({ geometry, cells, layout: name })
  }
  return { meant, lines, told, groups }
}

/** A text after some damage, and the grids that it may have touched. */
export interface Damaged {
  readonly lines: readonly OwnedLine[]
  readonly touched: ReadonlySet<number>
  readonly kinds: readonly string[]
}

const NOISE_LINES = [
  ...[
    '*****',
    '*********',
    '_________',
    '-----',
    '---------',
    '=====',
    '~~~~',
    '----+----',
    '.........',
    '000000000',
  ],
  ...[
    'hello there',
    '12',
    '7',
    '2041',
    '1020304010203040',
    'a83bc0912f',
    '3.5 hard',
    '#',
    '...',
    '0',
    ',,,,',
    ',,,,,,,,',
  ],
  ...[
    'x x x',
    '{',
    ']',
    '[1,2',
    '"',
    '\t\t',
    '\t\t\t\t',
    '1 2 3 4 5 6 7 8 9',
    '123456789',
    'ABCDEFGHI',
    '| | |',
    '',
    ' ',
    '   ',
  ],
  ...[
    '************************************',
    '_'.repeat(81),
    '*'.repeat(16),
    'x'.repeat(81),
    '# geometry: 3x3 diagonals',
    'Grid 9',
  ],
]
const NOISE_SYMBOLS = [...'0123456789.x*_-?oABG|,; \t#k"[]+!\u200b\u0000é']

export function damage(document: TextDocument, random: Random): Damaged {
  const lines: OwnedLine[] = [...document.lines]
  const touched = new Set<number>()
  const kinds: string[] = []
  const touch = (at: number) => {
    const owner = lines[at]?.owner ?? -1
    if (owner >= 0) touched.add(owner)
    else {
      // What stands between two grids concerns both.
      for (const step of [-1, 1]) {
        let next = at + step
        while (lines[next] && lines[next]!.owner < 0) next += step
        if (lines[next]) touched.add(lines[next]!.owner)
      }
    }
  }
  const times = random() < 0.7 ? 1 : random() < 0.7 ? 2 : 3
  for (let n = 0; n < times; n++) {
    const kind = pick(DAMAGE, random)
    const at = below(lines.length, random)
    const line = lines[at]!
    const { text, owner } = line
    const change = (changed: string) => {
      touch(at)
      lines[at] = { text: changed, owner }
    }
    const from = below(text.length + 1, random)
    const after = () => {
      touch(at)
      touch(at + 1)
    }
    kinds.push(kind)
    switch (kind) {
      case 'drop character':
        change(text.slice(0, from) + text.slice(from + 1))
        break
      case 'double character':
        change(text.slice(0, from) + text.slice(Math.max(0, from - 1)))
        break
      case 'swap characters':
        change(text.slice(0, from) + (text[from + 1] ?? '') + (text[from] ?? '') + text.slice(from + 2))
        break
      case 'wrong character':
        change(text.slice(0, from) + pick(NOISE_SYMBOLS, random) + text.slice(from + 1))
        break
      case 'insert character':
        change(text.slice(0, from) + pick(NOISE_SYMBOLS, random) + text.slice(from))
        break
      case 'drop piece':
        change(text.slice(0, from) + text.slice(from + 1 + below(12, random)))
        break
      case 'cut line short':
        change(text.slice(0, from))
        break
      case 'drop line':
        touch(at)
        if (owner < 0) after()
        lines.splice(at, 1)
        break
      case 'drop lines':
        for (let k = below(6, random); k >= 0 && at < lines.length; k--) {
          touch(at)
          lines.splice(at, 1)
        }
        break
      case 'double line':
        touch(at)
        lines.splice(at, 0, line)
        break
      case 'swap lines':
        if (at + 1 < lines.length) {
          after()
          lines.splice(at, 2, lines[at + 1]!, line)
        }
        break
      case 'join lines':
        if (at + 1 < lines.length) {
          after()
          lines.splice(at, 2, { text: text + pick(['', ' '], random) + lines[at + 1]!.text, owner })
        }
        break
      case 'split line':
        touch(at)
        lines.splice(at, 1, { text: text.slice(0, from), owner }, { text: text.slice(from), owner })
        break
      case 'noise line':
        after()
        if (at > 0) touch(at - 1)
        lines.splice(at + below(2, random), 0, { text: pick(NOISE_LINES, random), owner: -1 })
        break
      case 'stray line':
        after()
        if (at > 0) touch(at - 1)
        lines.splice(at + below(2, random), 0, { text: pick(lines, random).text, owner: -1 })
        break
      case 'trim ends':
        lines.forEach((each, i) => {
          if (each.text !== each.text.trimEnd()) {
            touch(i)
            lines[i] = { text: each.text.trimEnd(), owner: each.owner }
          }
        })
        break
      case 'end early':
        for (let i = at; i < lines.length; i++) touch(i)
        lines.length = at
        break
    }
    if (lines.length === 0) break
  }
  return { lines, touched, kinds }
}

const DAMAGE = [
  ...[
    'drop character',
    'double character',
    'swap characters',
    'wrong character',
    'insert character',
    'drop piece',
  ],
  ...[
    'cut line short',
    'drop line',
    'drop line',
    'drop lines',
    'double line',
    'swap lines',
    'join lines',
    'split line',
  ],
  ...['noise line', 'noise line', 'stray line', 'trim ends', 'end early'],
] as const
