import type { Board } from '../../grid/board.js'
import { digitCount, lowestBit } from '../../grid/digits.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import { misplaced } from '../facts/digit-placements.js'
import { cellsAt, type Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { oncePerPlaces, patternByDigit } from '../facts/path-memory.js'
import { removalNeedsEach } from '../proof/minimal.js'
import { housePremise } from '../proof/premise-holds.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import { FISH_SIZES, type FishName } from './fish.js'

/**
 * Fish of lines with fins: n rows whose places for a digit lie in n columns, but for a few (the fins) in one box.
 * Either a fin is true, or the fish is there without it: what lies in a cover line and sees all fins loses the digit.
 * When a row would keep one place or none without its fins, the fish is called sashimi.
 */
function findFinned(facts: Facts, digit: number, name: FishName): Step[] {
  const { board } = facts
  if (misplaced(facts, digit).length === 0) return []
  const { geometry } = board
  const { places } = facts
  const { rows, columns } = linesOf(geometry)
  const masks = new Array<number>(geometry.order)
  const search: Search = { board, name, digit, base: rows, cover: columns, masks, steps: [] }
  for (let turn = 0; turn < 2; turn++) {
    search.base = turn === 0 ? rows : columns
    search.cover = turn === 0 ? columns : rows
    for (let i = 0; i < masks.length; i++)
      masks[i] = places[search.base[i]!.index * geometry.order + digit - 1]!
    pickBase(search, FISH_SIZES[name], [], 0, 0)
  }
  return search.steps
}

interface Search {
  readonly board: Board
  readonly name: FishName
  readonly digit: number
  base: readonly House[]
  cover: readonly House[]
  /** The places in each base line, as a set of positions: cover lines. */
  readonly masks: number[]
  readonly steps: Step[]
}

function pickBase(search: Search, size: number, picked: number[], from: number, union: number): void {
  if (picked.length === size) {
    if (digitCount(union) > size) pickFins(search, size, picked, union)
    return
  }
  const { masks, board } = search
  // All fins lie in one block, and so does a place of a cover line: one column fewer than a block is wide can be fins.
  const most = size + widestBlock(board) - 1
  for (let i = from; i <= masks.length - size + picked.length; i++) {
    const mask = masks[i]!
    // A base line of one place is a single, of none no base.
    if ((mask & (mask - 1)) === 0) continue
    const wider = union | mask
    if (digitCount(wider) > most) continue
    picked.push(i)
    pickBase(search, size, picked, i + 1, wider)
    picked.pop()
  }
}

function widestBlock({ geometry }: Board): number {
  return geometry.box ? Math.max(geometry.box.rows, geometry.box.columns) : geometry.order
}

/** Every choice of fin columns that leaves `size` cover lines and puts all fins into one block. */
function pickFins(search: Search, size: number, picked: readonly number[], union: number): void {
  chooseFins(search, picked, union, digitCount(union) - size, union, 0, -1)
}

/** Chooses `count` more fin columns from `rest`; those chosen so far lie in the block, -1 while there are none. */
function chooseFins(
  search: Search,
  picked: readonly number[],
  union: number,
  count: number,
  rest: number,
  chosen: number,
  block: number,
): void {
  if (count === 0) {
    tryFins(search, picked, union & ~chosen, chosen, block)
    return
  }
  for (let left = rest; left !== 0; left &= left - 1) {
    const column = left & -left
    const own = blockOfColumn(search, picked, column, block)
    if (own >= 0) chooseFins(search, picked, union, count - 1, left ^ column, chosen | column, own)
  }
}

/**
 * The block in which all places of the picked base lines in a column lie, which must be `block` unless that is -1; else
 * -1.
 */
function blockOfColumn(search: Search, picked: readonly number[], column: number, block: number): number {
  const { blockOf } = linesOf(search.board.geometry)
  const position = lowestBit(column)
  let found = block
  for (let i = 0; i < picked.length; i++) {
    if ((search.masks[picked[i]!]! & column) === 0) continue
    const own = blockOf[search.base[picked[i]!]!.cells[position]!]!
    if (found >= 0 && own !== found) return -1
    found = own
  }
  return found
}

function tryFins(
  search: Search,
  picked: readonly number[],
  coverMask: number,
  finMask: number,
  block: number,
): void {
  const { board, masks, base, digit, cover, name, steps } = search
  const { geometry, candidates } = board
  const bit = 1 << (digit - 1)
  const removals = layoutOf(geometry)
    .houses[block]!.cells.filter((cell) => {
      if (!(candidates[cell]! & bit)) return false
      const across = positionAcross(board, base, cell)
      return !picked.includes(across.line) && (coverMask & (1 << across.position)) !== 0
    })
    .map((cell) => ({ cell, digit }))
  if (removals.length === 0) return
  const baseLines = picked.map((index) => base[index]!.index)
  const premises = baseLines.map((house) => housePremise(board, house, digit))
  const needed = removals.filter((removal) => removalNeedsEach(geometry, premises, removal))
  if (needed.length === 0) return
  const isSashimi = picked.some((index) => digitCount(masks[index]! & coverMask) < 2)
  const cellsIn = (set: number): number[] =>
    picked
      .flatMap((index) => cellsAt(geometry, base[index]!.index, masks[index]! & set))
      .sort((a, b) => a - b)
  steps.push({
    technique: `${isSashimi ? 'sashimi' : 'finned'}-${name}`,
    level: 'pattern',
    placements: [],
    removals: needed,
    premises,
    pattern: {
      shape: 'fish',
      digit,
      base: baseLines,
      cover: cover.filter((_, index) => coverMask & (1 << index)).map((line) => line.index),
      cells: cellsIn(coverMask),
      fins: cellsIn(finMask),
    },
  })
}

/** In which base line a cell lies, and at which position there. */
function positionAcross(
  board: Board,
  base: readonly House[],
  cell: number,
): { line: number; position: number } {
  const { order } = board.geometry
  const row = Math.floor(cell / order)
  const column = cell % order
  return base[0]!.kind === 'row' ? { line: row, position: column } : { line: column, position: row }
}

function techniquesFor(name: FishName): Technique[] {
  const found = oncePerPlaces((facts, digit) => findFinned(facts, digit, name))
  return (['finned', 'sashimi'] as const).map((finish) => patternByDigit(`${finish}-${name}`, found))
}

/** Finned and sashimi X-wings, swordfish and jellyfish. */
export const finnedFish: readonly Technique[] = (Object.keys(FISH_SIZES) as FishName[]).flatMap(techniquesFor)
