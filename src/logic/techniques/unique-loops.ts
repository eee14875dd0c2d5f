import type { Board } from '../../grid/board.js'
import { digitBit, digitCount, digitsOf } from '../../grid/digits.js'
import { conclusionsFrom } from '../exchange/conclusions.js'
import { extrasOf } from '../exchange/pattern.js'
import { factsOf } from '../facts.js'
import type { Technique } from '../technique.js'

/** Cells that may have extras: with more, hardly anything sees them all. */
const MOST_WITH_EXTRAS = 3

/** Loops of four cells are unique rectangles. */
const SHORTEST = 6

/**
 * A closed walk of six cells or more through cells that share two digits, each step within a house and every house met by
 * none or two of its cells: filled with the two digits by turns, it could be filled the other way round.
 */
export const uniqueLoop: Technique = {
  name: 'unique-loop',
  level: 'chain',
  assumes: 'one-solution',
  find(board, report) {
    const { order } = board.geometry
    for (let a = 1; a <= order; a++) {
      for (let b = a + 1; b <= order; b++) {
        const both = digitBit(a) | digitBit(b)
        const plain = factsOf(board).bivalue.filter((cell) => board.candidates[cell] === both)
        if (plain.length < SHORTEST - MOST_WITH_EXTRAS) continue
        const cells = factsOf(board).openCells.filter((cell) => (board.candidates[cell]! & both) === both)
        for (const loop of loopsThrough(board, cells, both)) {
          const allowed = loop.map(() => both)
          const pattern = { cells: loop, allowed, extras: extrasOf(board, loop, allowed) }
          if (pattern.extras.length === 0) continue
          for (const step of conclusionsFrom(board, pattern, () => 'unique-loop')) if (report(step)) return
        }
      }
    }
  },
}

/** Each loop once: it starts at its smallest cell and goes on to the smaller neighbour. */
function* loopsThrough(board: Board, cells: readonly number[], both: number): Generator<number[]> {
  const { geometry } = board
  const eligible = new Set(cells)
  const path: number[] = []
  const visits = new Map<number, number>()
  const hasExtras = (cell: number): boolean => (board.candidates[cell]! & ~both) !== 0
  const enter = (cell: number, by: 1 | -1): void => {
    for (const house of geometry.housesOf[cell]!) visits.set(house, (visits.get(house) ?? 0) + by)
    if (by === 1) path.push(cell)
    else path.pop()
  }

  function* walk(withExtras: number): Generator<number[]> {
    const start = path[0]!
    const last = path[path.length - 1]!
    for (const next of geometry.peersOf[last]!) {
      if (next === start && path.length >= SHORTEST && path[1]! < last && isClosed(board, path))
        yield [...path]
      if (next <= start || !eligible.has(next) || path.includes(next)) continue
      const extras = withExtras + (hasExtras(next) ? 1 : 0)
      if (extras > MOST_WITH_EXTRAS) continue
      // A third cell in a house can never be part of it.
      if (geometry.housesOf[next]!.some((house) => (visits.get(house) ?? 0) >= 2)) continue
      enter(next, 1)
      yield* walk(extras)
      enter(next, -1)
    }
  }

  for (const start of cells) {
    enter(start, 1)
    yield* walk(hasExtras(start) ? 1 : 0)
    enter(start, -1)
  }
}

/** Every house that has cells of the loop has two of them, one of each turn. */
function isClosed(board: Board, path: readonly number[]): boolean {
  if (path.length % 2 !== 0) return false
  const turns = new Map<number, [number, number]>()
  path.forEach((cell, i) => {
    for (const house of board.geometry.housesOf[cell]!) {
      const count = turns.get(house) ?? [0, 0]
      count[(i % 2) as 0 | 1]++
      turns.set(house, count)
    }
  })
  return [...turns.values()].every(([even, odd]) => even === 1 && odd === 1)
}

/** Longest rows of an extended rectangle; two are a unique rectangle. */
const WIDTHS = [3, 4] as const

/**
 * Two lines side by side in their boxes hold the same n digits in the same n places: exchanging the lines there keeps
 * every house as it was. Extras in a few of the cells keep them from it.
 */
export const extendedRectangle: Technique = {
  name: 'extended-rectangle',
  level: 'chain',
  assumes: 'one-solution',
  find(board, report) {
    for (const width of WIDTHS) {
      for (const pairs of pairedLines(board)) {
        for (const columns of picksOf(pairs, width)) {
          const cells = columns.flat()
          // Most picks hold too many wide cells to look at any closer.
          if (narrowOf(board, cells, width) < cells.length - MOST_WITH_EXTRAS) continue
          for (const digits of digitSets(board, cells, width)) {
            const allowed = cells.map(() => digits)
            const pattern = { cells, allowed, extras: extrasOf(board, cells, allowed) }
            if (pattern.extras.length === 0) continue
            for (const step of conclusionsFrom(board, pattern, () => 'extended-rectangle'))
              if (report(step)) return
          }
        }
      }
    }
  },
}

/** For two parallel lines, the pairs of facing open cells that share a box or region. */
function* pairedLines(board: Board): Generator<[number, number][]> {
  const { geometry, digits } = board
  const blockOf = (cell: number): number =>
    geometry.housesOf[cell]!.find((house) => ['box', 'region'].includes(geometry.houses[house]!.kind))!
  // A diagonal would not keep its digits.
  const onlyPlain = (cell: number): boolean =>
    geometry.housesOf[cell]!.every((house) => geometry.houses[house]!.kind !== 'diagonal')
  for (const kind of ['row', 'column'] as const) {
    const lines = geometry.houses.filter((house) => house.kind === kind)
    for (let i = 0; i < lines.length; i++) {
      for (let j = i + 1; j < lines.length; j++) {
        const pairs = lines[i]!.cells.map((cell, at): [number, number] => [
          cell,
          lines[j]!.cells[at]!,
        ]).filter(
          ([one, other]) =>
            !digits[one] &&
            !digits[other] &&
            blockOf(one) === blockOf(other) &&
            onlyPlain(one) &&
            onlyPlain(other),
        )
        if (pairs.length >= WIDTHS[0]) yield pairs
      }
    }
  }
}

function* picksOf<T>(items: readonly T[], size: number, from = 0): Generator<T[]> {
  if (size === 0) {
    yield []
    return
  }
  for (let i = from; i <= items.length - size; i++)
    for (const rest of picksOf(items, size - 1, i + 1)) yield [items[i]!, ...rest]
}

/** How many of these cells have at most so many candidates. */
function narrowOf(board: Board, cells: readonly number[], size: number): number {
  let narrow = 0
  for (let i = 0; i < cells.length; i++) if (digitCount(board.candidates[cells[i]!]!) <= size) narrow++
  return narrow
}

/** Sets of so many digits that cover most cells completely, and from which no cell is free altogether. */
function* digitSets(board: Board, cells: readonly number[], size: number): Generator<number> {
  const { candidates } = board
  const seen = new Set<number>()
  // At most MOST_WITH_EXTRAS cells go beyond the set, so the plain cells of any pick but those spell it.
  const plain = cells.filter((cell) => digitCount(candidates[cell]!) <= size)
  for (const seed of plain) {
    for (const other of plain) {
      const union = candidates[seed]! | candidates[other]!
      if (digitCount(union) !== size || seen.has(union)) continue
      seen.add(union)
      const beyond = cells.filter((cell) => candidates[cell]! & ~union)
      const free = cells.some((cell) => (candidates[cell]! & union) === 0)
      if (!free && beyond.length > 0 && beyond.length <= MOST_WITH_EXTRAS && digitsOf(union).length === size)
        yield union
    }
  }
}
