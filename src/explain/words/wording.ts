import type { Candidate } from '../../grid/board.js'
import type { DigitStyle } from '../../grid/digit-names.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Level } from '../../logic/level.js'
import type { Mistake } from '../../logic/mistakes.js'
import type { SolvePath } from '../../logic/solve.js'
import type { TechniqueName } from '../../logic/technique-names.js'
import type { Fact, Reason } from '../argument/facts.js'
import type { HintDepth } from '../hint-depth.js'
import type { Role } from '../picture/roles.js'

/**
 * Everything `explain/` says, in one language. Another language is another value of this type: no logic asks which
 * one it has. Cells (`r4c56`) and link notation are not words and stay as they are. Digits are named by `digitName` in
 * the style that is handed in, letters above nine when there is none.
 */
export interface Wording {
  /** Language tag for documents and pictures, such as `en`. */
  readonly language: string
  /** A technique's display name from its kebab-case name. */
  technique(name: TechniqueName): string
  level(level: Level): string
  /** One or more whole sentences. */
  fact(fact: Fact, geometry: Geometry, digits?: DigitStyle): string
  /** One whole sentence that says why this digit is placed in, or removed from, this cell. */
  reason(
    effect: 'placed' | 'removed',
    subject: Candidate,
    reason: Reason,
    geometry: Geometry,
    digits?: DigitStyle,
  ): string
  /** A role in the legend of a picture of this geometry. */
  role(role: Role, geometry?: Geometry, digits?: DigitStyle): string
  /** The rule of the puzzle in whole sentences: which houses hold every digit once. */
  rule(geometry: Geometry, digits?: DigitStyle): string
  readonly picture: {
    readonly strongLink: string
    readonly weakLink: string
    readonly given: string
    readonly found: string
    title(technique: string | undefined): string
    /** For readers that cannot see the picture: how many digits stand where. */
    description(geometry: Geometry, given: number, found: number, open: number): string
  }
  readonly hint: HintWording
  readonly walkthrough: WalkthroughWording
}

export interface HintWording {
  /** Where to look: a few houses. */
  look(geometry: Geometry, houses: readonly number[]): string
  method(technique: TechniqueName, level: Level): string
  /** The cells of the pattern and its digits; no digits where they would give the answer away. */
  cells(geometry: Geometry, cells: readonly number[], digits: readonly number[], style?: DigitStyle): string
  readonly solved: string
  readonly stuck: string
  readonly unsound: Readonly<Record<'several' | 'none' | 'undecided', string>>
  /** A sentence for each depth, each with a little more; up to `method` without the cell, and without a digit that is no clash. */
  mistake(
    geometry: Geometry,
    mistake: Mistake,
    house: number,
    style?: DigitStyle,
  ): Readonly<Record<HintDepth, string>>
}

export interface WalkthroughWording {
  readonly title: string
  readonly puzzle: string
  /** Heading and sentence of each verdict on the number of solutions. */
  readonly verdict: string
  readonly verdicts: Readonly<Record<'unique' | 'many' | 'none' | 'undecided', string>>
  differing(geometry: Geometry, cells: readonly number[]): string
  clashing(geometry: Geometry, cells: readonly number[]): string
  readonly path: string
  summary(steps: number, level: Level): string
  readonly nothingToDo: string
  readonly key: string
  /** `next` is the hardest level that is still required afterwards. */
  keyIntro(step: number, level: Level, next: Level | undefined): string
  /** For a key of a route: which of how many it is, from 1. */
  keyOfRoute(step: number, key: number, keys: number): string
  setUp(direct: readonly number[], all: number): string
  readonly noSetUp: string
  opens(steps: readonly number[]): string
  stepTitle(step: number, technique: string): string
  scanTitle(first: number, last: number): string
  scanLine(step: number, cell: string, digit: string, technique: string, house: string | undefined): string
  readonly house: (geometry: Geometry, house: number) => string
  restsOn(steps: readonly number[]): string
  readonly reasons: string
  readonly links: string
  readonly ends: Readonly<Record<SolvePath['status'], string>>
  readonly reading: string
  settled(geometry: Geometry, cells: readonly number[]): string
  doubtful(geometry: Geometry, cells: readonly number[]): string
  readonly allPrinted: string
  readonly profile: string
  readonly profileColumns: readonly [string, string, string]
}
