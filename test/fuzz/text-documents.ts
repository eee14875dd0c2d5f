import { boxedGeometry, type Geometry } from '../../src/grid/geometry.js'
import { shuffled } from '../../src/grid/random.js'
import { below, pick, type Random } from './random-choice.js'
import { JSON_LAYOUTS, LAYOUTS, LINE_LAYOUTS, someWriting } from './text-layouts.js'

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
  /** The geometry the reader is given, if any. */
  readonly given: Geometry | undefined
  /** Grids with the same number share a fate: nothing parts them clearly. */
  readonly groups: readonly number[]
}

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
  const given = random() < 0.3 ? pick([...OTHERS, ...SQUARE], random) : undefined
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
    const geometry = given ?? (isMixed ? pick([...SQUARE, ...OTHERS], random) : first)
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
    const needsWord = !given && !SQUARE.includes(geometry)
    if (needsWord) lines.push({ text: `# geometry: ${geometry.name}`, owner: i })
    for (const text of someWriting(name, cells, { order, rows, columns, solution }, random))
      lines.push({ text, owner: i })
    meant.push({ geometry, cells, layout: name })
  }
  return { meant, lines, given, groups }
}
