import { argumentError, type OptionChecks } from '../check-arguments.js'
import { checkStyle, type DigitStyle } from '../grid/digit-names.js'
import { ENGLISH } from './words/english.js'
import type { Wording } from './words/wording.js'

/** How something is said; every function of `explain/` that says anything takes these. */
export interface VoiceOptions {
  /** The language to speak; English when left out. */
  readonly wording?: Wording
  /** How digits above nine are shown: `letters` (A is 10), as when left out, or `numbers`. */
  readonly digits?: DigitStyle
}

export const VOICE_CHECKS: OptionChecks<VoiceOptions> = { wording: checkWording, digits: checkStyle }

export interface Voice {
  readonly wording: Wording
  readonly digits: DigitStyle
}

export function voiceOf({ wording = ENGLISH, digits = 'letters' }: VoiceOptions): Voice {
  return { wording, digits }
}

/** A wording has all that the English one has. */
function checkWording(value: unknown, name: string): void {
  if (value !== ENGLISH) checkLike(ENGLISH, value, name)
}

function checkLike(model: unknown, value: unknown, name: string): void {
  if (typeof value !== typeof model || value === null)
    throw argumentError(
      name,
      typeof model === 'object' ? 'an object' : `a ${typeof model}`,
      value,
      'See ENGLISH.',
    )
  if (typeof model !== 'object') return
  for (const [key, part] of Object.entries(model as object))
    checkLike(part, (value as Record<string, unknown>)[key], `${name}.${key}`)
}
