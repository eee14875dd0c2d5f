import { boolean, count, listOf, type OptionChecks, oneOf } from '../../check-arguments.js'
import { soundnessInTime } from '../../count/soundness.js'
import { puzzleOf } from '../../grid/board/ask.js'
import type { Board } from '../../grid/board.js'
import type { Task, Watch } from '../../limits.js'
import { CATALOGUE, checkTechniqueName, techniqueNamed, techniquesUpTo } from '../catalogue.js'
import { LEVELS, type Level } from '../level.js'
import type { FindOptions, Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/** Which techniques may be used, in which order, and how. */
export interface Choice {
  /** Techniques up to and including this level. Left out: all of them. */
  readonly preset?: Level
  /** Names of techniques, in the order in which they are tried; overrules `preset`. */
  readonly techniques?: readonly TechniqueName[]
  /**
   * May steps rest on the puzzle having one solution? By default yes, wherever counting confirms that it has; then it
   * is counted once, when the first such step is looked for. `false` keeps them out.
   */
  readonly oneSolution?: boolean
  /**
   * Longest chain, in links: strong and weak ones together, the one that closes a loop not counted. It holds for every
   * pattern explained as a chain, wings and turbot fish among them, and for chains of sets, where n sets make 2n - 1
   * links. A chain within the limit whose proof, without the links it does not need, makes a longer one is explained by
   * its premises.
   */
  readonly maxLinks?: number
}

/** For the public entries that take a choice. */
export const CHOICE_CHECKS: OptionChecks<Choice> = {
  preset: oneOf(LEVELS),
  techniques: listOf(checkTechniqueName, 'a list of names of techniques'),
  oneSolution: boolean,
  maxLinks: count(1),
}

/**
 * The techniques that a choice names, in order.
 *
 * @throws InputError `argument` for an unknown name or preset, or a longest chain that is no number of links
 */
export function techniquesOf(choice: Choice): readonly Technique[] {
  // a name given twice is tried where it comes first
  if (choice.techniques) return [...new Set(choice.techniques)].map((name) => techniqueNamed(name))
  return choice.preset ? techniquesUpTo(choice.preset) : CATALOGUE
}

/** Answers, once and only when asked, whether steps may assume that the puzzle of this board has one solution. */
export class OneSolution {
  private readonly board: Board
  private answer: boolean | undefined

  constructor(board: Board, choice: Choice) {
    this.board = board
    if (choice.oneSolution === false) this.answer = false
  }

  get isSettled(): boolean {
    return this.answer !== undefined
  }

  /** Counts, unless that has been done. */
  *settle(watch: Watch): Task<void> {
    if (this.answer !== undefined) return
    const { verdict } = yield* soundnessInTime(puzzleOf(this.board), watch)
    this.answer = verdict === 'unique'
  }

  /** Once settled. */
  get holds(): boolean {
    if (this.answer === undefined) throw new Error('Nobody has counted yet whether there is one solution.')
    return this.answer
  }
}

/** The options a technique gets, or undefined when the choice keeps it out. */
export function optionsFor(
  technique: Technique,
  choice: Choice,
  oneSolution: OneSolution,
): FindOptions | undefined {
  if (technique.assumes && !oneSolution.holds) return undefined
  const assumed = technique.assumes !== undefined
  const { maxLinks } = choice
  return maxLinks === undefined ? { oneSolution: assumed } : { oneSolution: assumed, maxLinks }
}
