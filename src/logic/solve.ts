import { solutionsOf } from '../count/count-solutions.js'
import { throwIfAborted } from '../errors.js'
import { Board, type BoardContradiction } from '../grid/board.js'
import { type Puzzle, uncheckedPuzzle } from '../grid/puzzle.js'
import { isWithinLength } from './chain-length.js'
import { type Choice, OneSolution, optionsFor, techniquesOf } from './choice.js'
import { Dependencies } from './dependencies.js'
import { factsOf, moveFacts } from './facts.js'
import type { PathStep, Step } from './step.js'
import type { FindOptions, Technique } from './technique.js'

export interface SolveOptions extends Choice {
  readonly signal?: AbortSignal
}

/** Where logic got to. */
export type SolvePath = {
  readonly steps: readonly PathStep[]
  /** The board after the last step. */
  readonly board: Board
} & (
  | { readonly status: 'solved' }
  | {
      /** No chosen technique finds a step. */
      readonly status: 'stuck'
      /** The puzzle has several solutions, so no logic will ever finish it; or its one solution lies beyond the choice. */
      readonly because: 'several-solutions' | 'no-step-found' | 'undecided'
    }
  | {
      /** The board cannot be finished: it broke on the way, or counting finds no solution. */
      readonly status: 'invalid'
      readonly because: BoardContradiction | { readonly kind: 'no-solution' }
    }
)

/**
 * Solves as a person would: the easiest step that the choice allows, again and again. Every step comes with the board
 * it was found on and the earlier steps it rests on, and passes `verifyStep`.
 *
 * ```ts
 * const path = solve(puzzle, { preset: 'pattern' })
 * path.status // 'solved' | 'stuck' | 'invalid'
 * ```
 *
 * @throws StoppedError `aborted` when the signal fires
 */
export function solve(source: Puzzle | Board, options: SolveOptions = {}): SolvePath {
  const start = source instanceof Board ? source : Board.fromPuzzle(source)
  const finder = new EasiestStep(start, options)
  const dependencies = new Dependencies(start)
  const steps: PathStep[] = []
  let board = start
  const broken = start.contradiction
  if (broken) return { status: 'invalid', because: broken, steps, board }
  // On a finished board every technique would look in vain.
  for (let open = start.openCount; open > 0; ) {
    throwIfAborted(options.signal)
    if (factsOf(board).broken) return { status: 'invalid', because: board.contradiction!, steps, board }
    const step = finder.next(board)
    if (!step) break
    const after = board.apply(step)
    moveFacts(board, after, step)
    steps.push(pathStep(step, board, dependencies.of(step.premises)))
    dependencies.record(steps.length - 1, step, board, after)
    open -= step.placements.length
    board = after
  }
  if (board.openCount === 0) return { status: 'solved', steps, board }
  return { ...whyStuck(board), steps, board }
}

/** Spelled out, as spreading an object costs more than finding a single. */
function pathStep(step: Step, before: Board, restsOn: readonly number[]): PathStep {
  const { technique, level, placements, removals, premises, pattern, assumes } = step
  const plain = { technique, level, placements, removals, premises, pattern, before, restsOn }
  return assumes ? { ...plain, assumes } : plain
}

/** Tries techniques in order on one board after another; what a choice means is worked out once. */
class EasiestStep {
  private readonly techniques: readonly Technique[]
  /** The options of each technique, once asked for; null where the choice keeps it out. */
  private readonly options: (FindOptions | null | undefined)[] = []
  private readonly choice: Choice
  private readonly oneSolution: OneSolution
  private found: Step | undefined
  private readonly take = (step: Step): boolean => {
    if (!isWithinLength(step, this.choice.maxLinks)) return false
    this.found = step
    return true
  }

  constructor(start: Board, choice: Choice) {
    this.choice = choice
    this.techniques = techniquesOf(choice)
    this.oneSolution = new OneSolution(start, choice)
    for (let i = 0; i < this.techniques.length; i++) this.options.push(undefined)
  }

  next(board: Board): Step | undefined {
    this.found = undefined
    for (let i = 0; i < this.techniques.length; i++) {
      const technique = this.techniques[i]!
      let options = this.options[i]
      if (options === undefined) {
        options = optionsFor(technique, this.choice, this.oneSolution) ?? null
        this.options[i] = options
      }
      if (options === null) continue
      technique.find(board, this.take, options)
      if (this.found) return this.found
    }
    return undefined
  }
}

const COUNT_BUDGET = 1_000_000

type NotSolved =
  | { status: 'stuck'; because: 'several-solutions' | 'no-step-found' | 'undecided' }
  | { status: 'invalid'; because: { kind: 'no-solution' } }

/** Counted on the digits that stand: what logic placed is part of every solution. */
function whyStuck(board: Board): NotSolved {
  const { geometry, digits } = board
  const standing = uncheckedPuzzle(digits, geometry)
  const { count, complete, stopped } = solutionsOf(standing, { limit: 2, nodeBudget: COUNT_BUDGET })
  if (count >= 2) return { status: 'stuck', because: 'several-solutions' }
  if (stopped || !complete) return { status: 'stuck', because: 'undecided' }
  if (count === 0) return { status: 'invalid', because: { kind: 'no-solution' } }
  return { status: 'stuck', because: 'no-step-found' }
}
