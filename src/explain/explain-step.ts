import { checkOptions } from '../check-arguments.js'
import type { Level } from '../logic/level.js'
import { checkFoundStep, checkPattern } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { argue } from './argument/argue.js'
import type { Fact } from './argument/facts.js'
import type { Reason } from './argument/reason.js'
import { reasonsFor } from './argument/reasons.js'
import { conclusionNotation, linkNotation } from './notation.js'
import { namesOf, type Voice, type VoiceOptions, voiceChecks, voiceOf } from './voice.js'
import { ENGLISH_STEPS } from './words/english/steps.js'
import type { StepWording } from './words/wording.js'

/** How a step is explained. */
export type ExplainOptions = VoiceOptions

/** A step in words, and the same as data for a program that draws or speaks in its own way. */
export interface Explanation {
  /** The technique's display name: `XY-wing`. */
  readonly title: string
  readonly level: Level
  /** The argument and its conclusion, in reading order; at least one sentence. */
  readonly sentences: readonly string[]
  /** One reason for each digit placed and each candidate removed, in the step's order. */
  readonly reasons: readonly {
    readonly effect: 'placed' | 'removed'
    readonly cell: number
    readonly digit: number
    readonly reason: Reason
    readonly sentence: string
  }[]
  /** Links in alternating inference notation; `undefined` for a step without links. */
  readonly links: string | undefined
  /** The conclusion in notation: `r1c1=5`, `r2c34<>7`. */
  readonly conclusion: string
  readonly facts: readonly Fact[]
}

const EXPLAIN_CHECKS = voiceChecks(ENGLISH_STEPS)

/**
 * Puts a step into words.
 *
 * `explainStep(step).sentences.join(' ')` of an XY-wing begins "The pivot r5c5 is 1 or 2. If the pivot …".
 * A step whose shape has no words is explained by its premises.
 *
 * @throws InputError `argument` for what is no step found on a board
 *
 * @example
 * explainStep(nextStep(board)!).sentences
 * // → ['Box 7 needs a 4. The 4s in r3c1 and r5c3 rule out every other open cell there. Only r8c2 is left, so it is 4.']
 */
export function explainStep(step: FoundStep, options: ExplainOptions = {}): Explanation {
  checkFoundStep(step)
  checkPattern(step.before.geometry, step.pattern)
  checkOptions<ExplainOptions>(options, EXPLAIN_CHECKS)
  return explain(step, voiceOf(options, ENGLISH_STEPS))
}

/** The same for a step that was found here. */
export function explain(step: FoundStep, voice: Voice<StepWording>): Explanation {
  const { wording, digits } = voice
  const { geometry } = step.before
  const names = namesOf(voice, geometry)
  const reasons = reasonsFor(step)
  const facts = argue(step, reasons)
  const pattern = step.pattern
  const links = 'links' in pattern && pattern.links.length > 0 ? pattern.links : undefined
  return {
    title: wording.technique(step.technique),
    level: step.level,
    sentences: facts.map((fact) => wording.fact(fact, names)),
    reasons: reasons.map(({ effect, cell, digit, reason }) => ({
      effect,
      cell,
      digit,
      reason,
      sentence: wording.reason(effect, { cell, digit }, reason, names),
    })),
    links: links && linkNotation(geometry, links, pattern.shape === 'chain' && pattern.loop, digits),
    conclusion: conclusionNotation(geometry, step.placements, step.removals, digits),
    facts,
  }
}
