import { runNow, type Task, type Watch } from '../limits.js'
import type { Facts } from './facts/facts.js'
import type { Level } from './level.js'
import type { Step } from './steps/step.js'
import type { TechniqueName } from './technique-names.js'

export interface FindOptions {
  /** Longest chain, in links. */
  readonly maxLinks?: number
  /** May a step rest on the puzzle having one solution? */
  readonly oneSolution?: boolean
  /** Report longer chains too where a shorter one reaches the same conclusion. */
  readonly allLengths?: boolean
  /** Report a chain for every set of removals that one makes, not a shortest for every candidate. */
  readonly everyRemoval?: boolean
}

/**
 * One technique of the catalogue: a name the trade uses, a level, and a finder.
 *
 * A finder reports *every* instance through `report` and stops as soon as `report` returns true, so one finder serves
 * "show me all" and "give me the next" alike. Instances that differ only in the order of discovery are reported once.
 */
export interface Technique {
  readonly name: TechniqueName
  readonly level: Level
  /** Set when every step of this technique rests on the puzzle having one solution. */
  readonly assumes?: 'one-solution'
  find(facts: Facts, report: Report, options: FindOptions): void
  /** The same as a task, where it may take more than some milliseconds on a large board. */
  readonly search?: (facts: Facts, report: Report, options: FindOptions, watch: Watch) => Task<void>
}

export type Report = (step: Step) => boolean

/** A technique that may take long. Its search pauses in its outer loops, at places where its lists are whole. */
export function slowTechnique(
  technique: Pick<Technique, 'name' | 'level'> & { readonly search: NonNullable<Technique['search']> },
): Technique {
  const { search } = technique
  return {
    ...technique,
    find: (facts, report, options) => runNow({}, (watch) => search(facts, report, options, watch)),
  }
}
