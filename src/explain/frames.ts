import { argumentError, checkOptions, type OptionChecks, oneOf, pixels, string } from '../check-arguments.js'
import { checkFoundStep, checkPattern } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { explain } from './explain-step.js'
import { FRAME_SHAPES, type FrameShape } from './picture/frame-page.js'
import { drawRow, type Frame } from './picture/frame-row.js'
import { shownBy } from './picture/shown-by.js'
import { THEMES, type ThemeName } from './picture/theme.js'
import { type VoiceOptions, voiceChecks, voiceOf } from './voice.js'
import { ENGLISH_PICTURES } from './words/english/pictures.js'
import { ENGLISH_STEPS } from './words/english/steps.js'

export interface FramesOptions extends VoiceOptions {
  /** Where they are shown: `light`, as when left out, `dark`, or `print`, without colour. */
  readonly theme?: ThemeName
  /**
   * `board`, as when left out: the board alone, with the sentence as data. `page`: the sentence below the board.
   * `wide`: 16:9, the sentence beside the board.
   */
  readonly shape?: FrameShape
  /** Width in pixels; frames scale to their place when left out. */
  readonly width?: number
  /** Which pencil marks to draw: all, as when left out, those of the step, or none. */
  readonly marks?: 'all' | 'step' | 'none'
  /** Heading of wide frames, and title for readers of the markup; the technique's name when left out. */
  readonly title?: string
  /** How fast the sentences are spoken, for the times: 130 words a minute when left out. */
  readonly wordsPerMinute?: number
}

/** What frames say, in English. */
const ENGLISH_FRAMES = { ...ENGLISH_STEPS, ...ENGLISH_PICTURES }

export const FRAMES_CHECKS: OptionChecks<FramesOptions> = {
  ...voiceChecks(ENGLISH_FRAMES),
  theme: oneOf(THEMES),
  shape: oneOf(FRAME_SHAPES),
  width: pixels,
  marks: oneOf(['all', 'step', 'none']),
  title: string,
  wordsPerMinute: (value, name) => {
    if (typeof value !== 'number' || !(value >= 1 && value <= 1000))
      throw argumentError(name, 'a number from 1 to 1000', value)
  },
}

/**
 * A step picture by picture, one for each sentence of its explanation: look here, then here, then strike. What a
 * sentence speaks of is in brackets, what was said before stays, and the last frame has all of the step.
 *
 * ```ts
 * for (const { text, from, svg } of frames(step, { shape: 'wide', width: 1920 })) console.log(from, text)
 * ```
 *
 * @throws InputError `argument` for what is no step found on a board
 */
export function frames(step: FoundStep, options: FramesOptions = {}): readonly Frame[] {
  checkFoundStep(step)
  checkPattern(step.before.geometry, step.pattern)
  checkOptions<FramesOptions>(options, FRAMES_CHECKS)
  const voice = voiceOf(options, ENGLISH_FRAMES)
  const { facts, sentences, title } = explain(step, voice)
  const lines = facts.map((fact, i) => ({
    text: sentences[i]!,
    shown: shownBy(step, fact),
    about: 'step' as const,
  }))
  return drawRow(step, options.title ?? title, lines, options, voice)
}
