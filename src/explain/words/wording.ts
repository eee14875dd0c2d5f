import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Level } from '../../logic/level.js'
import type { Fact, Reason } from '../argument/facts.js'
import type { Role } from '../picture/roles.js'

/**
 * Everything `explain/` says, in one language. Another language is another value of this type: no logic asks which
 * one it has. Cells (`r4c56`) and link notation are not words and stay as they are.
 */
export interface Wording {
  /** Language tag for documents and pictures, such as `en`. */
  readonly language: string
  /** A technique's display name from its kebab-case name. */
  technique(name: string): string
  level(level: Level): string
  /** One or more whole sentences. */
  fact(fact: Fact, geometry: Geometry): string
  /** One whole sentence that says why this digit is placed in, or removed from, this cell. */
  reason(effect: 'placed' | 'removed', subject: Candidate, reason: Reason, geometry: Geometry): string
  role(role: Role): string
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
  /** Where to look: houses by number, or the digit when that narrows it better. */
  look(geometry: Geometry, houses: readonly number[], digit: number | undefined): string
  method(technique: string, level: Level): string
  cells(geometry: Geometry, cells: readonly number[], digits: readonly number[]): string
  readonly solved: string
  readonly stuck: string
  readonly unsound: { readonly many: string; readonly none: string; readonly undecided: string }
  wrongDigits(geometry: Geometry, cells: readonly number[]): string
  wrongMarks(geometry: Geometry, cells: readonly number[]): string
}

export interface WalkthroughWording {
  readonly title: string
  readonly puzzle: string
  readonly verdict: string
  readonly one: string
  readonly many: string
  readonly none: string
  readonly undecided: string
  readonly path: string
  summary(steps: number, level: Level | undefined): string
  readonly key: string
  keyIntro(step: number, technique: string): string
  setUp(steps: readonly number[]): string
  readonly noSetUp: string
  stepTitle(step: number, technique: string): string
  scanTitle(first: number, last: number): string
  scanIntro(count: number): string
  readonly restsOn: string
  readonly why: string
  readonly links: string
  readonly after: string
  readonly solved: string
  readonly stuck: string
  readonly invalid: string
  readonly reading: string
  settled(geometry: Geometry, cells: readonly number[]): string
  doubtful(geometry: Geometry, cells: readonly number[]): string
  readonly profile: string
  readonly profileColumns: readonly [string, string, string]
}
