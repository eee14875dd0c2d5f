import type { Board } from '../grid/board.js'
import { assertCount } from './assert-count.js'
import { isWithinLength } from './chain-length.js'
import { type Choice, OneSolution, optionsFor, techniquesOf } from './choice.js'
import { identityOf, withoutPartial } from './identity.js'
import type { FoundStep } from './step.js'

export interface FindStepsOptions extends Choice {
  /** Stop after this many steps. */
  readonly limit?: number
  /**
   * Also longer chains whose conclusion a shorter one reaches, up to 7 links unless `maxLinks` says otherwise: plain chains,
   * chains of sets and remote pairs. Chains with fins and continuous loops are told by their shortest in any case, and the
   * other patterns have one length.
   */
  readonly allLengths?: boolean
}

/**
 * Every instance of every chosen technique on this board, easiest technique first, each once. What concludes from the same
 * premises only a part of what another instance of its technique does is left out. On a board that shows a contradiction
 * nothing is found: whatever is said follows from that.
 *
 * ```ts
 * findSteps(board, { techniques: ['x-wing'] })   // all X-wings
 * findSteps(board, { preset: 'mark', limit: 1 }) // the next easy step
 * ```
 *
 * @throws RangeError for an unknown technique or preset, or a number that makes no sense
 */
export function findSteps(board: Board, options: FindStepsOptions = {}): FoundStep[] {
  assertCount('limit', options.limit, 0)
  const limit = options.limit ?? Number.POSITIVE_INFINITY
  const techniques = techniquesOf(options)
  const oneSolution = new OneSolution(board, options)
  const found: FoundStep[] = []
  if (limit <= 0 || board.contradiction) return found
  for (const technique of techniques) {
    const findOptions = optionsFor(technique, options, oneSolution)
    if (!findOptions) continue
    const seen = new Set<string>()
    const instances: FoundStep[] = []
    technique.find(
      board,
      (step) => {
        if (!isWithinLength(step, options.maxLinks)) return false
        const key = identityOf(step)
        if (seen.has(key)) return false
        seen.add(key)
        instances.push({ ...step, before: board })
        return found.length + instances.length >= limit
      },
      options.allLengths ? { ...findOptions, allLengths: true } : findOptions,
    )
    const stopped = found.length + instances.length >= limit
    found.push(...withoutPartial(instances))
    if (stopped) break
  }
  return found
}

/** The easiest step that the choice allows on this board, or undefined when there is none. */
export function nextStep(board: Board, choice: Choice = {}): FoundStep | undefined {
  return findSteps(board, { ...choice, limit: 1 })[0]
}
