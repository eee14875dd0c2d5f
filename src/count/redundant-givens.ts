import type { Candidate } from '../grid/board.js'
import { allDigits, digitBit } from '../grid/digits.js'
import type { Puzzle } from '../grid/puzzle.js'
import { type CountBudget, Purse, type StopReason } from './budget.js'
import { withSearch } from './engine.js'

export interface RedundantGivens {
  /** Givens any one of which can go: without it the puzzle has just the same solutions. In reading order. */
  readonly each: readonly Candidate[]
  /** Of these, some that can all go at once, leaving no redundant given; there may be other such choices. */
  readonly together: readonly Candidate[]
  /** False when the budget was spent: then what is listed is proven, and more may be redundant. */
  readonly complete: boolean
  readonly stopped?: StopReason
}

/**
 * Givens that say nothing the others do not say. A given is needed exactly if the others allow another digit in its
 * cell; that is what is searched for.
 */
export function redundantGivens(puzzle: Puzzle, budget: CountBudget = {}): RedundantGivens {
  const purse = new Purse(budget)
  const { order, cellCount } = puzzle.geometry
  const all = allDigits(order)
  const marks = new Array<number>(cellCount).fill(all)
  return withSearch(puzzle.geometry, (search) => {
    const isNeeded = (cell: number, givens: number[]): boolean | undefined => {
      const digit = givens[cell]!
      givens[cell] = 0
      marks[cell] = all & ~digitBit(digit)
      search.start(givens, marks)
      const other = purse.next(search)
      givens[cell] = digit
      marks[cell] = all
      return other
    }
    const givens = Array.from(puzzle.givens)
    const left = Array.from(puzzle.givens)
    const each: Candidate[] = []
    const together: Candidate[] = []
    for (let cell = 0; cell < cellCount && !purse.stopped; cell++) {
      const digit = givens[cell]!
      if (digit === 0 || isNeeded(cell, givens) !== false) continue
      each.push({ cell, digit })
      // needed once others are gone, always needed: one pass leaves nothing redundant
      if (isNeeded(cell, left) !== false) continue
      together.push({ cell, digit })
      left[cell] = 0
    }
    return { each, together, complete: !purse.stopped, ...(purse.stopped && { stopped: purse.stopped }) }
  })
}
