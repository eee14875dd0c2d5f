import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitSet } from '../../src/grid/digits.js'
import { type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'

/** A board from a line of digits, `.` or `0` for an open cell, with all the pencil marks its givens leave. */
export function boardOf(line: string, geometry: Geometry = STANDARD): Board {
  const digits = [...line.replace(/\s/g, '')].map((symbol) =>
    symbol === '.' ? 0 : Number.parseInt(symbol, 36),
  )
  return newBoard(makePuzzle(digits, geometry))
}

/** An empty board but for pencil marks: `{ r1c1: '12', r1c2: '12' }`; cells not named keep all digits. */
export function boardWithMarks(
  marks: Readonly<Record<string, string>>,
  geometry: Geometry = STANDARD,
): Board {
  const puzzle = makePuzzle(new Array(geometry.cellCount).fill(0), geometry)
  const candidates = new Array<number>(geometry.cellCount).fill((1 << geometry.order) - 1)
  for (const [name, digits] of Object.entries(marks)) {
    candidates[cellAt(name, geometry)] = digitSet([...digits].map((symbol) => Number.parseInt(symbol, 36)))
  }
  return boardFromMarks(puzzle, puzzle.givens, candidates)
}

/** `r1c1` -> 0. */
export function cellAt(name: string, geometry: Geometry = STANDARD): number {
  const match = /^r(\d+)c(\d+)$/.exec(name)
  if (!match) throw new RangeError(`${name} is no cell name`)
  return (Number(match[1]) - 1) * geometry.order + Number(match[2]) - 1
}
