import { boolean, checkOptions, type OptionChecks } from '../check-arguments.js'
import { checkFoundStep, checkPattern } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { FRAMES_CHECKS, type FramesOptions } from './frames.js'
import type { Clue } from './hunt/clue.js'
import { cluesFor } from './hunt/find-clues.js'
import { drawRow, type Frame } from './picture/frame-row.js'
import { shownByClue } from './picture/shown-by-clue.js'
import { namesOf, voiceChecks, voiceOf } from './voice.js'
import { ENGLISH } from './words/english/index.js'

export interface HuntOptions extends FramesOptions {
  /** Draw the frames? Yes, when left out. */
  readonly pictures?: boolean
}

/** How a step is found on its board, in words, as data and in pictures. */
export interface Hunt {
  /** The technique's display name. */
  readonly title: string
  /** Why one looks here, what to look at first, what to try, what comes close and fails, and why this one works. */
  readonly sentences: readonly string[]
  /** The same as data, one for each sentence. */
  readonly clues: readonly Clue[]
  /** A picture for each sentence; none with `pictures: false`. */
  readonly frames: readonly Frame[]
}

const HUNT_CHECKS: OptionChecks<HuntOptions> = {
  ...FRAMES_CHECKS,
  ...voiceChecks(ENGLISH),
  pictures: boolean,
}

/**
 * How the step is found by a person who looks at this very board: what would make one look here, what to look at first,
 * what to try from there, what comes close and fails, and why this one works. How it works once it is found is for
 * `explainStep` and `frames` to say.
 *
 * ```ts
 * const { sentences, frames } = hunt(step, { shape: 'wide' })
 * hunt(step, { pictures: false }).sentences.join(' ')
 * ```
 *
 * @throws InputError `argument` for what is no step found on a board
 */
export function hunt(step: FoundStep, options: HuntOptions = {}): Hunt {
  checkFoundStep(step)
  checkPattern(step.before.geometry, step.pattern)
  checkOptions<HuntOptions>(options, HUNT_CHECKS)
  const voice = voiceOf(options, ENGLISH)
  const names = namesOf(voice, step.before.geometry)
  const title = voice.wording.technique(step.technique)
  const clues = cluesFor(step)
  const sentences = clues.map((clue) => voice.wording.clue(clue, names))
  const lines = clues.map((clue, i) => ({
    text: sentences[i]!,
    // what to try is tried on what was looked at before
    shown: shownByClue(step, clue.kind === 'try' ? (clues[i - 1] ?? clue) : clue),
    about: clue.kind === 'works' ? ('pattern' as const) : ('aside' as const),
  }))
  const frames =
    options.pictures === false ? [] : drawRow(step, options.title ?? title, lines, options, voice)
  return { title, sentences, clues, frames }
}
