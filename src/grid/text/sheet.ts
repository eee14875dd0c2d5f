import { type ErrorCode, InputError } from '../../errors.js'
import { type BoardParts, boardFromMarks, boardFromParts } from '../board/make.js'
import type { Board } from '../board.js'
import { allDigits, type DigitSet } from '../digits.js'
import {
  boxedGeometriesOf,
  boxedGeometry,
  type Geometry,
  regionGeometry,
  squareGeometry,
} from '../geometry.js'
import { layoutOf } from '../layout.js'
import { makePuzzle, type Puzzle } from '../puzzle.js'
import { regionsOf, sameRegions } from '../regions.js'

/** What a text shows in one cell. */
export interface SheetCell {
  /** A printed digit, or 0. */
  readonly given: number
  /** A digit written in by the solver, or 0. */
  readonly placed: number
  /** Pencil marks; undefined where none are noted, which leaves every digit open. */
  readonly marks: DigitSet | undefined
}

export const EMPTY_CELL: SheetCell = { given: 0, placed: 0, marks: undefined }

const GIVEN_CELLS: readonly SheetCell[] = Array.from({ length: 17 }, (_, digit) =>
  digit === 0 ? EMPTY_CELL : { given: digit, placed: 0, marks: undefined },
)

/** A cell with a printed digit, or an empty one for 0. */
export function givenCell(digit: number): SheetCell {
  return GIVEN_CELLS[digit]!
}

/** What a text shows as a whole: `order × order` cells and, where its rules show them, the boxes or regions. */
export interface Sheet {
  readonly order: number
  readonly cells: readonly SheetCell[]
  /** Where the grid begins, for messages about the whole of it. */
  readonly line: number
  readonly shape?: SheetShape
  /** The text is one that notes marks, so a cell without any has nothing noted. */
  readonly notes?: true
  /** What was done to the board, where the text says it all: the cells need not be asked. */
  readonly parts?: BoardParts
  /** Words beside the cells on their line. */
  readonly remark?: string
}

/** What rules (or saved data) tell about the geometry. */
export type SheetShape =
  | { readonly kind: 'boxes'; readonly rows: number; readonly columns: number }
  | { readonly kind: 'regions'; readonly regions: readonly number[] }
  | { readonly kind: 'known'; readonly geometry: Geometry }

/** An error about a place in the text: `Line 3, column 5: found "x"; expected 1 to 9 or a mark for empty.` */
export function textError(
  code: ErrorCode,
  at: { readonly line: number; readonly column?: number },
  found: string,
  expected: string,
): InputError {
  const { line, column } = at
  const [where, place] =
    column === undefined ? [`Line ${line}`, { line }] : [`Line ${line}, column ${column}`, { line, column }]
  return new InputError(code, `${where}: found ${found}; expected ${expected}.`, { place, found, expected })
}

/** `textError` about the layout of a line. */
export function shapeError(line: number, found: string, expected: string): InputError {
  return textError('text-shape', { line }, found, expected)
}

/** Order from a number of cells on a line, or 0. */
export function orderOfCount(cells: number): number {
  const order = Math.round(Math.sqrt(cells))
  return order * order === cells && order >= 4 && order <= 16 ? order : 0
}

/**
 * The geometry a sheet is read with: the one said, else the one that the drawing shows, else square boxes.
 *
 * @throws InputError `text-shape` when what is said and the sheet disagree, `geometry-ambiguous` when several shapes of
 *   boxes fit and nothing says which, `geometry-shape` when none does.
 */
export function sheetGeometry(sheet: Sheet, asked: Geometry | undefined): Geometry {
  const { order, shape, line } = sheet
  if (asked) {
    if (asked.order !== order) {
      throw shapeError(
        line,
        `a grid of ${order}×${order} cells`,
        `${asked.order}×${asked.order} cells, as the geometry "${asked.name}" asks`,
      )
    }
    if (shape && !shapeAgrees(shape, asked)) {
      throw shapeError(
        line,
        `a drawing of ${shapeName(shape)}`,
        `the pieces of the geometry "${asked.name}"; hand in the other geometry, or none`,
      )
    }
    return asked
  }
  if (shape?.kind === 'known') return shape.geometry
  if (shape?.kind === 'boxes') return boxedGeometry(shape.rows, shape.columns)
  if (shape?.kind === 'regions') return regionGeometry(`drawn ${order}x${order}`, shape.regions)
  return squareGeometry(order) ?? askForGeometry(order, line)
}

/** Where several box shapes fit, the number of cells does not say which boxes a grid has. */
function askForGeometry(order: number, line: number): never {
  const cells = `a grid of ${order}×${order} cells`
  const shapes = boxedGeometriesOf(order).map((geometry) => geometry.name)
  if (shapes.length === 0) {
    throw new InputError(
      'geometry-shape',
      `Line ${line}: ${cells} has no usual boxes; hand in a geometry made by regionGeometry.`,
      { place: { line }, found: cells, expected: 'an order that boxes can fill' },
    )
  }
  const choices = `${shapes.slice(0, -1).join(', ')} or ${shapes.at(-1)}`
  const expected = `boxes of ${choices} (height x width)`
  throw new InputError(
    'geometry-ambiguous',
    `Line ${line}: found ${cells}; expected ${expected}, and nothing says which. Hand in the option geometry, draw the boxes, or write a line such as "# geometry: ${shapes[0]}" above the grid.`,
    { place: { line }, found: cells, expected },
  )
}

function shapeName(shape: SheetShape): string {
  if (shape.kind === 'boxes') return `boxes ${shape.rows} high and ${shape.columns} wide`
  if (shape.kind === 'regions') return 'irregular regions'
  return `the geometry "${shape.geometry.name}"`
}

function shapeAgrees(shape: SheetShape, geometry: Geometry): boolean {
  if (shape.kind === 'regions') return sameRegions(shape.regions, regionsOf(geometry))
  const other = shape.kind === 'known' ? shape.geometry : boxedGeometry(shape.rows, shape.columns)
  const layout = layoutOf(other)
  // A drawing shows no diagonals, saved data does.
  const sameHouses = shape.kind !== 'known' || layout.houses.length === layoutOf(geometry).houses.length
  return sameHouses && sameRegions(regionsOf(other), regionsOf(geometry))
}

export function sheetPuzzle(sheet: Sheet, geometry: Geometry): Puzzle {
  return makePuzzle(
    sheet.cells.map((cell) => cell.given),
    geometry,
  )
}

/** A text that does not note marks makes a board with all marks that its digits leave. */
export function sheetBoard(sheet: Sheet, geometry: Geometry): Board {
  const puzzle = sheetPuzzle(sheet, geometry)
  if (sheet.parts) return boardFromParts(puzzle, sheet.parts)
  const unmarked = sheet.notes ? undefined : allDigits(geometry.order)
  return boardFromMarks(
    puzzle,
    sheet.cells.map((cell) => cell.given || cell.placed),
    sheet.cells.map((cell) => cell.marks ?? unmarked),
  )
}
