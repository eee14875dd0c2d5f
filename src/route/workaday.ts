import type { Board } from '../grid/board.js'
import type { Watch } from '../limits.js'
import { Context } from '../logic/facts/context.js'
import { runToRestTask } from '../logic/solving/solve.js'
import type { TechniqueName } from '../logic/technique-names.js'

/** What a practised solver does without a thought: singles, locked candidates and subsets. */
export const WORKADAY_TECHNIQUES = [
  'full-house',
  'hidden-single',
  'naked-single',
  'pointing',
  'claiming',
  'naked-pair',
  'hidden-pair',
  'naked-triple',
  'hidden-triple',
  'naked-quad',
  'hidden-quad',
] as const satisfies readonly TechniqueName[]

/** Those that place a digit for all to see; they stand between all other steps. */
export const SINGLES = [
  'full-house',
  'hidden-single',
  'naked-single',
] as const satisfies readonly TechniqueName[]

export function isSingle({ technique }: { readonly technique: string }): boolean {
  return (SINGLES as readonly string[]).includes(technique)
}

/** Runs the workaday techniques until none of them finds anything more; the context comes along to where they rest. */
export function restWithin(
  watch: Watch,
  board: Board,
  workaday: readonly TechniqueName[],
  context = new Context(),
): ReturnType<typeof runToRestTask> {
  return runToRestTask(board, { techniques: workaday, oneSolution: false }, watch, context)
}
