import type { Candidate } from '../grid/board.js'
import { allDigits, digitBit } from '../grid/digits.js'
import type { Puzzle } from '../grid/puzzle.js'
import { type CountBudget, Purse, type StopReason } from './budget.js'
import { withSearch } from './engine.js'
import type { SolutionSearch } from './search.js'

export interface Backbone {
  /** Cells (givens among them) that hold the same digit in every solution. */
  readonly fixed: readonly Candidate[]
  /** Cells that do not, ascending. */
  readonly open: readonly number[]
  /** False when the budget was spent first: then `fixed` is what is proven, and cells may be missing from `open`. */
  readonly complete: boolean
  readonly stopped?: StopReason
}

/** What all solutions share; `undefined` when there is no solution, or none was found within the budget. */
export function backbone(puzzle: Puzzle, budget: CountBudget = {}): Backbone | undefined {
  const purse = new Purse(budget)
  return withSearch(puzzle.geometry, (search) => {
    search.start(puzzle.givens)
    if (!purse.next(search)) return undefined
    const solution = new Array<number>(puzzle.geometry.cellCount)
    search.readSolution(solution)
    return backboneOf(puzzle, [solution], search, purse)
  })
}

/**
 * The same from solutions already in hand. Cells on which they agree are asked one by one: is there a solution with
 * another digit here? Each one found may open further cells, so there are seldom many questions.
 */
export function backboneOf(
  puzzle: Puzzle,
  known: readonly (readonly number[])[],
  search: SolutionSearch,
  purse: Purse,
): Backbone {
  const { order, cellCount } = puzzle.geometry
  const first = known[0]!
  const isOpen = first.map((digit, cell) => known.some((solution) => solution[cell] !== digit))
  const proven = puzzle.givens.map((digit) => digit !== 0)
  const marks = new Array<number>(cellCount).fill(allDigits(order))
  const other = new Array<number>(cellCount)
  for (let cell = 0; cell < cellCount; cell++) {
    if (isOpen[cell] || proven[cell]) continue
    marks[cell] = allDigits(order) & ~digitBit(first[cell]!)
    search.start(puzzle.givens, marks)
    const found = purse.next(search)
    if (found === undefined) break
    marks[cell] = allDigits(order)
    if (found) {
      search.readSolution(other)
      for (let i = 0; i < cellCount; i++) if (other[i] !== first[i]) isOpen[i] = true
    } else {
      proven[cell] = true
    }
  }
  const fixed: Candidate[] = []
  const open: number[] = []
  for (let cell = 0; cell < cellCount; cell++) {
    if (isOpen[cell]) open.push(cell)
    else if (proven[cell]) fixed.push({ cell, digit: first[cell]! })
  }
  const complete = fixed.length + open.length === cellCount
  return { fixed, open, complete, ...(purse.stopped && { stopped: purse.stopped }) }
}
