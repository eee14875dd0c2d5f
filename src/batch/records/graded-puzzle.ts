import { StoppedError } from '../../errors.js'
import type { Grade } from '../../grade/grade.js'
import { type GradeOptions, gradePuzzleAsync } from '../../grade/grade-puzzle.js'
import { canonicalKeyAsync } from '../../grid/canonical.js'
import type { Puzzle } from '../../grid/puzzle.js'

export type PuzzleOptions = Omit<GradeOptions, 'signal'>

/** What grading a puzzle gives. */
export interface GradedPuzzle {
  readonly grade: Grade
  /** Equal for puzzles that are the same under symmetry; null for one too symmetric for the budget of the search. */
  readonly canonical: string | null
}

export async function gradedPuzzle(
  puzzle: Puzzle,
  options: PuzzleOptions,
  signal: AbortSignal | undefined,
): Promise<GradedPuzzle> {
  const stop = signal && { signal }
  const grade = await gradePuzzleAsync(puzzle, { ...options, ...stop })
  return { grade, canonical: await keyWithinBudget(puzzle, stop) }
}

async function keyWithinBudget(
  puzzle: Puzzle,
  stop: { readonly signal: AbortSignal } | undefined,
): Promise<string | null> {
  try {
    return await canonicalKeyAsync(puzzle, stop)
  } catch (error) {
    if (error instanceof StoppedError && error.code === 'budget-spent') return null
    throw error
  }
}
