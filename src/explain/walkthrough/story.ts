import type { Verdict } from '../../count/check-uniqueness.js'
import type { Board } from '../../grid/board.js'
import type { Puzzle } from '../../grid/puzzle.js'
import type { SolvePath } from '../../logic/solving/solve.js'
import type { PathStep } from '../../logic/steps/step.js'
import type { Chapter } from '../../route/lay-out.js'
import { isSingle } from '../../route/workaday.js'

/** What a walkthrough is made from. Step numbers are the path's, from 1. */
export interface Story {
  readonly puzzle: Puzzle
  readonly verdict: Verdict
  /** The board that the first step was found on. */
  readonly start: Board
  readonly steps: readonly PathStep[]
  /** Each key with its set-up, and the follow-through. */
  readonly chapters: readonly Chapter[]
  /** Chosen as a route: before each key stands only what it rests on. */
  readonly isChosen: boolean
  readonly status: SolvePath['status']
  /** The board after the last step. */
  readonly board: Board
  /** Cells that a reading of a picture settled by logic, and those to be compared with the page. */
  readonly reading?: { readonly settled: readonly number[]; readonly doubtful: readonly number[] }
}

/** Part of a chapter: a run of singles, or one step that is none. */
export type Part =
  | { readonly kind: 'singles'; readonly indices: readonly number[] }
  | { readonly kind: 'step'; readonly index: number }

/** The parts of the steps from one index to another, the last not among them. */
export function partsOf(steps: readonly PathStep[], from = 0, to = steps.length): Part[] {
  const parts: Part[] = []
  let run: number[] | undefined
  for (let index = from; index < to; index++) {
    if (!isSingle(steps[index]!)) {
      run = undefined
      parts.push({ kind: 'step', index })
    } else if (run) run.push(index)
    else {
      run = [index]
      parts.push({ kind: 'singles', indices: run })
    }
  }
  return parts
}

/** The first step that is no single: before it, pencil marks are filled in. */
export function pencilMoment(steps: readonly PathStep[]): number | undefined {
  const index = steps.findIndex((step) => !isSingle(step))
  return index < 0 ? undefined : index
}

export function keysOf({ chapters }: Story): number[] {
  return chapters.flatMap(({ key }) => key ?? [])
}
