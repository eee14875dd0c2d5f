import type { GridreasonError } from '../../errors.js'
import type { Candidate } from '../../grid/board.js'
import type { Mistake } from '../../logic/claims/mistakes.js'
import type { Level } from '../../logic/level.js'
import type { Unproven } from '../../logic/proof/proof.js'
import type { SolvePath } from '../../logic/solving/solve.js'
import type { TechniqueName } from '../../logic/technique-names.js'
import type { Fact, SingleFact } from '../argument/facts.js'
import type { Reason } from '../argument/reason.js'
import type { HintDepth } from '../hint-depth.js'
import type { Clue } from '../hunt/clue.js'
import type { Names } from '../names.js'
import type { Role } from '../picture/roles.js'

/**
 * Everything `explain/` says, in one language. Another language is another value of this type, in a folder of its own:
 * no logic asks which one it has, and a message that it lacks does not compile. Link notation is no language and stays
 * as it is.
 */
export interface Wording {
  /** Language tag for documents and pictures, such as `en`. */
  readonly language: string
  /** A technique's display name. */
  technique(name: TechniqueName): string
  /** Name of a level. */
  level(level: Level): string
  /** One or more whole sentences. */
  fact(fact: Fact, names: Names): string
  /** One whole sentence that says why this digit is placed in, or removed from, this cell. */
  reason(effect: 'placed' | 'removed', subject: Candidate, reason: Reason, names: Names): string
  /** How a step is found: one clue in one or more whole sentences. */
  clue(clue: Clue, names: Names): string
  /** What is wrong and what to do, for every error that the package throws. */
  error(error: GridreasonError): string
  /** Why a step is not proven. */
  unproven(because: Unproven, names: Names): string
  /** A role in the legend of a picture. */
  role(role: Role, names?: Names): string
  /** The rule of the puzzle in whole sentences: which houses hold every digit once. */
  rule(names: Names): string
  readonly picture: {
    readonly strongLink: string
    readonly weakLink: string
    /** In a case: what is true at one end makes what is at the other true. */
    readonly thenLink: string
    readonly given: string
    readonly found: string
    /** Accessible name of a picture. */
    title(technique: string | undefined): string
    /** For readers that cannot see the picture: how many digits stand where. */
    description(order: number, given: number, found: number, open: number): string
  }
  readonly hint: HintWording
  readonly walkthrough: WalkthroughWording
  readonly sheet: SheetWording
}

/** The parts of a wording that put steps into words, and those that pictures say. */
export type StepWording = Pick<Wording, 'technique' | 'fact' | 'reason'>
export type PictureWording = Pick<Wording, 'language' | 'technique' | 'role' | 'rule' | 'picture'>

/** Sentences of hints, in one language. */
export interface HintWording {
  /** Where to look: a few houses. */
  look(names: Names, houses: readonly number[]): string
  /** Names the technique to look for. */
  method(technique: TechniqueName, level: Level): string
  /** After the method, where the step is a key of the route. */
  readonly key: string
  /** The cells of the pattern and its digits; no digits where they would give the answer away. */
  cells(names: Names, cells: readonly number[], digits: readonly number[]): string
  readonly solved: string
  readonly stuck: string
  readonly unsound: Readonly<Record<'many' | 'none' | 'undecided', string>>
  /**
   * A sentence for each depth, each with a little more; up to `method` without the cell, and without a digit that is no
   * clash.
   */
  mistake(names: Names, mistake: Mistake, house: number): Readonly<Record<HintDepth, string>>
}

/** Sentences and headings of walkthroughs, in one language. */
export interface WalkthroughWording {
  readonly title: string
  readonly puzzle: string
  /** A sentence for each verdict on the number of solutions. */
  readonly verdicts: Readonly<Record<'unique' | 'many' | 'none' | 'undecided', string>>
  /** Says where solutions differ. */
  differing(names: Names, cells: readonly number[]): string
  /** Says which givens clash. */
  clashing(names: Names, cells: readonly number[]): string
  readonly nothingToDo: string
  /**
   * What is ahead: steps in all, the keys among them, and without keys what is enough for all of it, if anything is.
   */
  outlook(
    steps: number,
    keys: readonly { readonly step: number; readonly technique: TechniqueName }[],
    enough: 'singles' | 'everyday' | false,
  ): string
  /** The way to the solution, where there is no key. */
  readonly path: string
  readonly setUp: string
  /** Of a route: that only what its key rests on comes first. */
  readonly setUpIntro: string
  readonly noSetUp: string
  readonly pencilMarks: string
  /** What to do with pencil marks, where they come in. */
  readonly fillIn: string
  readonly stuckAgain: string
  readonly stuckIntro: string
  /** Which of how many keys it is, from 1. */
  keyTitle(step: number, key: number, keys: number, technique: string): string
  /** Over how the key is found, and over its argument. */
  readonly find: string
  readonly why: string
  /** Over the frames of a step. */
  readonly pictureByPicture: string
  /** What the key leads to. */
  opens(key: number, keys: number, status: SolvePath['status']): string
  readonly follow: string
  /** Names the folded steps. */
  followSummary(singles: number, others: number): string
  /** Heading of a step. */
  stepTitle(step: number, technique: string): string
  /** Heading of a run of singles. */
  singlesTitle(first: number, last: number): string
  /** A single with its reason, short enough for one line. */
  single(step: number, fact: SingleFact, names: Names): string
  /** Says what a step rests on. */
  restsOn(steps: readonly number[]): string
  readonly reasons: string
  readonly links: string
  readonly ends: Readonly<Record<SolvePath['status'], string>>
  readonly reading: string
  /** Says which digits of a photo were settled by logic. */
  settled(names: Names, cells: readonly number[]): string
  /** Says which digits of a photo stay doubtful. */
  doubtful(names: Names, cells: readonly number[]): string
  readonly allPrinted: string
  readonly profile: string
  readonly profileColumns: readonly [string, string, string]
  /** Ahead of the signs that a board in characters has. */
  readonly signs: string
  readonly notes: NotesWording
}

/** What speaking notes say is to be shown. */
export interface NotesWording {
  readonly printed: string
  readonly digitByDigit: string
  readonly pencilMarks: string
  /** Says which picture to show now. */
  picture(step: number, technique: string): string
  /** One of the frames of a step, from 1. */
  frame(step: number, frame: number, frames: number): string
  readonly asItIs: string
  readonly end: string
  readonly show: string
}

/** A sheet of exercises. */
export interface SheetWording {
  /** Heading of the sheet, when its caller has none. */
  title(techniques: readonly TechniqueName[]): string
  /** What is asked of the reader: one of the techniques is in each position. */
  task(techniques: readonly TechniqueName[]): string
  /** Caption of an exercise. */
  position(number: number): string
  readonly hints: string
  readonly answers: string
}
