import { createSearch } from '../../src/count/engine.js'
import { type Geometry, STANDARD } from '../../src/index.js'

/** Numbers from 0 (inclusive) to 1 (exclusive), the same ones for the same seed (mulberry32, public domain). */
export function seededRandom(seed: number): () => number {
  let state = seed | 0
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const copy = [...items]
  for (let i = copy.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1))
    ;[copy[i], copy[j]] = [copy[j]!, copy[i]!]
  }
  return copy
}

/** A filled grid that looks like no other: some cells are settled at random first, as far as they can be. */
export function someFilledGrid(random: () => number, geometry: Geometry = STANDARD): number[] {
  const search = createSearch(geometry)
  const givens = new Array<number>(geometry.cellCount).fill(0)
  const filled = new Array<number>(geometry.cellCount).fill(0)
  search.start(givens)
  search.next(1e6)
  search.readSolution(filled)
  for (const cell of shuffled([...givens.keys()], random).slice(0, geometry.order * 2)) {
    givens[cell] = 1 + Math.floor(random() * geometry.order)
    search.start(givens)
    if (search.next(2000) === 'solution') search.readSolution(filled)
    else givens[cell] = 0
  }
  return filled
}

/**
 * A part of a filled grid: each cell is kept with the chance `keep`; with `wrong`, so many cells then get another
 * digit.
 */
export function somePuzzle(
  random: () => number,
  keep: number,
  wrong = 0,
  geometry: Geometry = STANDARD,
): number[] {
  const puzzle = someFilledGrid(random, geometry).map((digit) => (random() < keep ? digit : 0))
  const cells = shuffled(
    [...puzzle.keys()].filter((cell) => puzzle[cell] !== 0),
    random,
  )
  for (const cell of cells.slice(0, wrong)) {
    puzzle[cell] = 1 + ((puzzle[cell]! + Math.floor(random() * (geometry.order - 1))) % geometry.order)
  }
  return puzzle
}

export function fromLine(line: string): number[] {
  return Array.from(line, (symbol) => (symbol === '.' ? 0 : Number.parseInt(symbol, 36)))
}
