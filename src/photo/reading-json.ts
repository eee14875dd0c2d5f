import { InputError } from '../errors.js'
import { type PuzzleJson, puzzleFromJson, puzzleShape, puzzleToJson } from '../grid/json.js'
import * as shape from '../shape.js'
import { fromBase64 } from './base64.js'
import { reading as checkReading } from './check-photo.js'
import { concludeReading } from './conclude.js'
import { CELL_SIZE } from './digits/digit-reader.js'
import { CELL_KINDS } from './print-or-hand/cell-kinds.js'
import type { CellEvidence, Reading, SettledWriting } from './reading.js'
import { GEOMETRY_SOURCES, type GeometrySource } from './shape/grid-shape.js'
import type { QuarterTurns } from './turn.js'

const share = shape.amount(0, 1)
const MAX_CELLS = 256
/** Digits that the network of handwriting knows. */
const MAX_FIGURES = 9
const PICTURE_BYTES = CELL_SIZE * CELL_SIZE

/**
 * A reading as saved data. What counts is the evidence: loading decides again from it, so that a saved reading can be
 * settled further. Of `puzzle` only the geometry counts; it and `status` are for programs that only want the outcome.
 */
export interface ReadingJson {
  readonly type: 'reading'
  readonly puzzle: PuzzleJson
  readonly status: Reading['status']
  readonly turns: QuarterTurns
  readonly lattice: {
    readonly order: number
    /** x, y of each crossing, row by row, in pixels. */
    readonly points: readonly (readonly [number, number])[]
    readonly cut: boolean
    readonly support: number
  }
  readonly turnLead: number
  /** How the puzzle's geometry is known. */
  readonly geometrySource: GeometrySource
  readonly outside: readonly number[]
  readonly cells: readonly CellJson[]
}

/** A cell of a saved reading. */
export interface CellJson {
  /** P(no printed digit), P(1), P(2), … */
  readonly scores: readonly number[]
  readonly handwritten: number
  /** The cell's grey picture, `CELL_SIZE` squared bytes, in base64, if the reading has it. */
  readonly picture?: string | undefined
  readonly settled?: number | undefined
  /** What the pixels say of handwriting, on a page that somebody has written in. */
  readonly writing?: CellEvidence | undefined
  readonly settledWriting?: SettledWriting | undefined
}

export const readingShape: shape.Shape<ReadingJson> = shape.object<ReadingJson>({
  type: shape.only('reading'),
  puzzle: puzzleShape,
  status: shape.name(['certain', 'check']),
  turns: shape.whole(0, 3) as shape.Shape<QuarterTurns>,
  lattice: shape.object<ReadingJson['lattice']>({
    order: shape.whole(4, 16),
    points: shape.list(shape.tuple<readonly [number, number]>(shape.amount(), shape.amount()), 17 * 17),
    cut: shape.flag,
    support: share,
  }),
  turnLead: shape.amount(),
  geometrySource: shape.name(GEOMETRY_SOURCES),
  outside: shape.list(shape.whole(), MAX_CELLS),
  cells: shape.list(
    shape.object<CellJson>({
      scores: shape.list(share, 17),
      handwritten: share,
      picture: shape.optional(shape.base64),
      settled: shape.optional(shape.whole(0, 16)),
      writing: shape.optional(
        shape.object<CellEvidence>({
          kinds: shape.list(share, CELL_KINDS.length),
          digits: shape.list(share, MAX_FIGURES),
          marks: shape.list(share, MAX_FIGURES),
        }),
      ),
      settledWriting: shape.optional(
        shape.object<SettledWriting>({
          entry: shape.optional(shape.whole(0, 16)),
          marks: shape.optional(shape.list(shape.whole(1, 16), 16)),
        }),
      ),
    }),
    MAX_CELLS,
  ),
})

/**
 * A reading as it is saved: lean plain data for `JSON.stringify`, which `readingFromJson` takes back.
 *
 * @example
 * const saved = JSON.stringify(readingToJson(reading))
 */
export function readingToJson(reading: Reading): ReadingJson {
  checkReading(reading, 'reading')
  const { evidence, lattice } = reading
  return {
    type: 'reading',
    puzzle: puzzleToJson(reading.puzzle),
    status: reading.status,
    turns: reading.turns,
    lattice: { ...lattice, points: lattice.points.map(({ x, y }) => [x, y]) },
    turnLead: evidence.turnLead,
    geometrySource: evidence.geometrySource,
    outside: [...evidence.outside],
    cells: evidence.scores.map((scores, cell) => {
      const [settled, picture] = [evidence.settled[cell], evidence.pictures?.[cell]]
      return {
        scores: [...scores],
        handwritten: evidence.handwritten[cell]!,
        ...(picture === undefined ? {} : { picture }),
        ...(settled === undefined ? {} : { settled }),
        ...(evidence.writing && { writing: evidence.writing[cell] }),
        ...(evidence.settledWriting?.[cell] && { settledWriting: evidence.settledWriting[cell] }),
      }
    }),
  }
}

/**
 * The reading that `readingToJson` saved, ready for `settleCells`.
 *
 * @throws InputError `json-shape` when the data is not a saved reading.
 *
 * @example
 * const reading = readingFromJson(JSON.parse(await readFile('reading.json', 'utf8')))
 */
export function readingFromJson(data: unknown): Reading {
  const json = shape.savedAs(readingShape, data, 'reading')
  const { order } = json.lattice
  const { geometry } = puzzleFromJson(json.puzzle)
  expect(geometry.order === order, `a lattice of the puzzle's order, ${geometry.order}`, `order ${order}`)
  expect(json.cells.length === order * order, `${order * order} cells`, `${json.cells.length}`)
  const short = json.cells.find(({ scores }) => scores.length <= order)
  expect(!short, `scores of ${order + 1} figures for each cell`, `${short?.scores.length}`)
  const corners = (order + 1) ** 2
  expect(json.lattice.points.length === corners, `${corners} crossings`, `${json.lattice.points.length}`)
  const pictures = json.cells.flatMap(({ picture }) => picture ?? [])
  expect(
    pictures.length === 0 || pictures.length === json.cells.length,
    'pictures of all cells or of none',
    `${pictures.length}`,
  )
  const odd = pictures.map((picture) => fromBase64(picture).length).find((bytes) => bytes !== PICTURE_BYTES)
  expect(odd === undefined, `cell pictures of ${PICTURE_BYTES} bytes`, `${odd}`)
  const settled: Record<number, number> = {}
  json.cells.forEach((cell, index) => {
    if (cell.settled === undefined) return
    expect(cell.settled <= order, `settled digits up to ${order}`, `${cell.settled}`)
    settled[index] = cell.settled
  })
  const writing = json.cells.flatMap((cell) => cell.writing ?? [])
  expect(
    writing.length === 0 || writing.length === json.cells.length,
    'the handwriting of all cells or of none',
    `${writing.length}`,
  )
  const partial = writing.find(
    ({ kinds, digits, marks }) =>
      kinds.length !== CELL_KINDS.length || digits.length !== MAX_FIGURES || marks.length !== MAX_FIGURES,
  )
  expect(!partial, `chances of ${CELL_KINDS.length} kinds and ${MAX_FIGURES} digits`, 'fewer')
  const settledWriting: Record<number, SettledWriting> = {}
  json.cells.forEach((cell, index) => {
    if (!cell.settledWriting) return
    const { entry = 0, marks = [] } = cell.settledWriting
    const largest = Math.max(entry, ...marks)
    expect(largest <= order, `settled entries and marks up to ${order}`, `${largest}`)
    settledWriting[index] = cell.settledWriting
  })
  const lattice = { ...json.lattice, points: json.lattice.points.map(([x, y]) => ({ x, y })) }
  return concludeReading(geometry, lattice, json.turns, {
    scores: json.cells.map(({ scores }) => scores),
    handwritten: json.cells.map(({ handwritten }) => handwritten),
    ...(pictures.length > 0 && { pictures }),
    turnLead: json.turnLead,
    geometrySource: json.geometrySource,
    outside: json.outside,
    settled,
    ...(writing.length > 0 && { writing }),
    ...(Object.keys(settledWriting).length > 0 && { settledWriting }),
  })
}

function expect(holds: boolean, expected: string, found: string): void {
  if (holds) return
  throw new InputError(
    'json-shape',
    `This is not a saved reading: it needs ${expected}, found ${found}. Save readings with readingToJson.`,
  )
}
