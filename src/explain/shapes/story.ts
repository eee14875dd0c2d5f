import type { Candidate } from '../../grid/board.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from '../argument/facts.js'
import type { Reason, Why } from '../argument/reason.js'
import type { Quarry } from '../hunt/quarry.js'
import type { PlanBuilder } from '../picture/plan-builder.js'

export type Shape = Pattern['shape']
export type PatternOf<S extends Shape> = Extract<Pattern, { readonly shape: S }>

type ReasonFor<S extends Shape> = (
  step: FoundStep,
  pattern: PatternOf<S>,
  candidate: Candidate,
) => Reason | undefined

/** What a pattern's shape brings along for people: one file a shape, and its line in each table of `shapes.ts`. */
export interface Story<S extends Shape> {
  /** The facts that make the case, in the order in which they are said, without conclusions. */
  readonly facts: (step: FoundStep, pattern: PatternOf<S>, reasons: readonly Why[]) => Fact[]
  /** Why a candidate goes, as the pattern's own people would say; undefined when it has no reason for this one. */
  readonly reason: ReasonFor<S>
  /** The same for a digit that is placed, where the shape has reasons for that. */
  readonly placed?: ReasonFor<S>
  /** Draws who plays which part. */
  readonly plan: (
    plan: PlanBuilder,
    step: FoundStep,
    pattern: PatternOf<S>,
    reasons: () => readonly Why[],
  ) => void
  /** How it is found. */
  readonly clues: (step: FoundStep, pattern: PatternOf<S>) => Quarry
  /** The houses that a hint names, where it is not those that hold most of the pattern's cells. */
  readonly houses?: (pattern: PatternOf<S>) => readonly number[] | undefined
}
