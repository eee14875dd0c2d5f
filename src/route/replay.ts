import { contradictionOf, hasCandidate, openCount } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import type { Board } from '../grid/board.js'
import { firstDigit } from '../grid/digits.js'
import { layoutOf } from '../grid/layout.js'
import type { Task, Watch } from '../limits.js'
import { cellPremise, housePremise } from '../logic/proof/premise-holds.js'
import { verifyTask } from '../logic/proof/proof.js'
import type { Premise, Step } from '../logic/steps/step.js'

/**
 * A step as it stands on another board of the same puzzle: its premises are what their cells and houses show there, and
 * it concludes what is still open. Undefined when nothing of it is left to conclude, it is not proven there, or a cell
 * or house of it shows more than where it was found: it might be proven all the same, but the pattern is not there to
 * be seen.
 */
export function* restated<Known extends Step>(
  board: Board,
  step: Known,
  watch: Watch,
): Task<Known | undefined> {
  const placements = step.placements.filter(({ cell, digit }) => hasCandidate(board, cell, digit))
  const removals = step.removals.filter(({ cell, digit }) => hasCandidate(board, cell, digit))
  if (placements.length + removals.length === 0) return undefined
  const premises = step.premises.map((premise) => premiseNow(board, premise))
  if (premises.some((premise, i) => hasMore(premise, step.premises[i]!))) return undefined
  const same = { ...step, placements, removals, premises }
  const verdict = yield* verifyTask(board, same, {}, watch)
  if (verdict.proven) return same
  if (verdict.because.kind === 'time-limit') throw watch.timeIsOver()
  return undefined
}

function hasMore(now: Premise, before: Premise): boolean {
  const alternatives = alternativesOf(before)
  return alternativesOf(now).some((alternative) => !alternatives.includes(alternative))
}

function alternativesOf(premise: Premise): readonly number[] {
  return premise.kind === 'cell' ? premise.digits : premise.cells
}

function premiseNow(board: Board, premise: Premise): Premise {
  return premise.kind === 'cell'
    ? cellPremise(board, premise.cell)
    : housePremise(board, premise.house, premise.digit)
}

/**
 * Do these steps, with all singles placed before, between and after them, fill the board? A step that finds its work
 * done is passed over; one that is not proven where its turn comes ends the attempt.
 */
export function* fills(start: Board, steps: readonly Step[], watch: Watch): Task<boolean> {
  let board = withSingles(start)
  for (const step of steps) {
    if (watch.isDue()) yield
    if (isDone(board, step)) continue
    const now = yield* restated(board, step, watch)
    if (!now) return false
    board = withSingles(applyTo(board, now))
  }
  return openCount(board) === 0 && contradictionOf(board) === undefined
}

/** Is nothing left of what the step concludes? */
export function isDone(board: Board, { placements, removals }: Step): boolean {
  return !(
    placements.some(({ cell, digit }) => hasCandidate(board, cell, digit)) ||
    removals.some(({ cell, digit }) => hasCandidate(board, cell, digit))
  )
}

/**
 * The board once every single is placed, hidden ones and naked ones, or the board where singles contradict each other.
 * The same as the `scan` techniques give, without the steps.
 */
export function withSingles(start: Board): Board {
  const { geometry } = start
  const layout = layoutOf(geometry)
  let board = start
  for (;;) {
    const placements: { cell: number; digit: number }[] = []
    const taken = new Set<number>()
    const place = (cell: number, digit: number) => {
      if (taken.has(cell)) return
      taken.add(cell)
      placements.push({ cell, digit })
    }
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      const set = board.candidates[cell]!
      if (set !== 0 && (set & (set - 1)) === 0) place(cell, firstDigit(set))
    }
    for (let house = 0; house < layout.houses.length; house++) {
      const { cells } = layout.houses[house]!
      let once = 0
      let more = 0
      for (let i = 0; i < cells.length; i++) {
        const set = board.candidates[cells[i]!]!
        more |= once & set
        once |= set
      }
      for (let rest = once & ~more; rest !== 0; rest &= rest - 1) {
        const digit = firstDigit(rest)
        const bit = 1 << (digit - 1)
        for (let i = 0; i < cells.length; i++) if (board.candidates[cells[i]!]! & bit) place(cells[i]!, digit)
      }
    }
    if (placements.length === 0) return board
    board = applyTo(board, { placements, removals: [] })
    if (contradictionOf(board)) return board
  }
}
