import type { DigitStyle } from '../grid/digit-names.js'
import { ENGLISH } from './words/english.js'
import type { Wording } from './words/wording.js'

/** How something is said; every function of `explain/` that says anything takes these. */
export interface VoiceOptions {
  /** The language to speak; English when left out. */
  readonly wording?: Wording
  /** How digits above nine are shown: `letters` (A is 10), as when left out, or `numbers`. */
  readonly digits?: DigitStyle
}

export interface Voice {
  readonly wording: Wording
  readonly digits: DigitStyle
}

export function voiceOf({ wording = ENGLISH, digits = 'letters' }: VoiceOptions): Voice {
  return { wording, digits }
}
