import { boardFromMarks } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitBit, digitSet } from '../../src/grid/digits.js'
import { type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { cellAt } from './boards.js'

/** `{ 'row 1': 'r1c1 r1c5' }` under a digit: the only places the house keeps for it. */
export interface Limits {
  readonly marks?: Readonly<Record<string, string>>
  readonly places?: Readonly<Record<number, Readonly<Record<string, string>>>>
}

/** An empty board whose pencil marks are full but for what is said here: a pattern and nothing else. */
export function limitedBoard({ marks = {}, places = {} }: Limits, geometry: Geometry = STANDARD): Board {
  const layout = layoutOf(geometry)
  const candidates = new Array<number>(geometry.cellCount).fill((1 << geometry.order) - 1)
  for (const [cell, digits] of Object.entries(marks)) {
    candidates[cellAt(cell, geometry)] = digitSet([...digits].map((symbol) => Number.parseInt(symbol, 36)))
  }
  for (const [digit, houses] of Object.entries(places)) {
    for (const [name, cells] of Object.entries(houses)) {
      const kept = cells.split(' ').map((cell) => cellAt(cell, geometry))
      const house = layout.houses.find((other) => other.name === name)
      if (!house) throw new RangeError(`There is no ${name}`)
      for (const cell of house.cells) {
        if (!kept.includes(cell)) candidates[cell]! &= ~digitBit(Number(digit))
      }
    }
  }
  const puzzle = makePuzzle(new Array(geometry.cellCount).fill(0), geometry)
  return boardFromMarks(puzzle, puzzle.givens, candidates)
}
