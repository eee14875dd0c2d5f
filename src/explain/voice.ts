import { argumentError, type OptionChecks } from '../check-arguments.js'
import { checkStyle, type DigitStyle } from '../grid/digit-names.js'
import type { Geometry } from '../grid/geometry.js'
import { type CellNaming, checkCellNaming, type Names } from './names.js'
import type { Wording } from './words/wording.js'

/** How something is said; every function of `explain/` that says anything takes these. */
export interface VoiceOptions {
  /** The language to speak; English when left out. */
  readonly wording?: Wording
  /** How digits above nine are shown: `letters` (A is 10), as when left out, or `numbers`. */
  readonly digits?: DigitStyle
  /**
   * How cells are named: `short` (`r4c2`), as when left out, `spoken` (`row 4, column 2`), or a function that names a
   * cell.
   */
  readonly cells?: CellNaming
}

/** @param english what is said in English where a wording is wanted: all of it, or the parts that are needed */
export function voiceChecks(english: Partial<Wording>): OptionChecks<VoiceOptions> {
  return {
    wording: (value, name) => checkLike(english, value, name),
    digits: checkStyle,
    cells: checkCellNaming,
  }
}

/** `Words` are the parts of a wording that are needed. */
export interface Voice<Words extends Partial<Wording> = Wording> {
  readonly wording: Words
  readonly digits: DigitStyle
  readonly cells: CellNaming
}

export function voiceOf<Words extends Partial<Wording>>(
  { wording, digits = 'letters', cells = 'short' }: VoiceOptions,
  english: Words,
): Voice<Words> {
  // a wording has all parts
  return { wording: (wording as Words | undefined) ?? english, digits, cells }
}

/** What this voice calls the parts of a grid. */
export function namesOf({ digits, cells }: Omit<Voice, 'wording'>, geometry: Geometry): Names {
  return { geometry, digits, cells }
}

/** A wording has all that the English one has. */
function checkLike(model: unknown, value: unknown, name: string): void {
  if (value === model) return
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
