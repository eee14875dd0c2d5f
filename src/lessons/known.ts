import { boolean, count, listOf, type OptionChecks } from '../check-arguments.js'
import { CATALOGUE, checkTechniqueName, techniqueNamed, techniquesUpTo } from '../logic/catalogue.js'
import { LEVELS, type Level } from '../logic/level.js'
import type { Choice } from '../logic/solving/choice.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { WORKADAY_TECHNIQUES } from '../route/workaday.js'

/** What a class has learnt already. */
export interface Known {
  /**
   * Techniques that the class knows, in the order in which it tries them, or a level, up to which it knows all. Those
   * everyday techniques (`WORKADAY_TECHNIQUES`) that come before the new one in `TECHNIQUE_NAMES`, when left out. The
   * new technique itself never counts as known.
   */
  readonly known?: readonly TechniqueName[] | Level
  /** Longest chain, in links, as for `findSteps`. */
  readonly maxLinks?: number
  /** May steps rest on the puzzle having one solution? As for `findSteps`. */
  readonly oneSolution?: boolean
}

const checkNames = listOf(
  checkTechniqueName,
  `a list of names of techniques, or a level (${LEVELS.join(', ')})`,
)

export const KNOWN_CHECKS: OptionChecks<Known> = {
  known: (value, name) => {
    if (!LEVELS.includes(value as Level)) checkNames(value, name)
  },
  maxLinks: count(1),
  oneSolution: boolean,
}

/** A technique to be learnt and what is there to build on. */
export interface Lesson {
  readonly technique: TechniqueName
  readonly known: readonly TechniqueName[]
  /** Everything that comes before the technique in the catalogue, known or not. */
  readonly easier: readonly TechniqueName[]
  readonly maxLinks: number | undefined
  readonly oneSolution: boolean | undefined
}

/** @throws InputError `argument` for a name that is no technique's */
export function lessonOf(name: string, options: Known): Lesson {
  const technique = techniqueNamed(name)
  const easier = CATALOGUE.slice(0, CATALOGUE.indexOf(technique)).map((other) => other.name)
  const all = namesOf(options.known ?? WORKADAY_TECHNIQUES.filter((other) => easier.includes(other)))
  return {
    technique: technique.name,
    known: all.filter((other) => other !== technique.name),
    easier,
    maxLinks: options.maxLinks,
    oneSolution: options.oneSolution,
  }
}

function namesOf(known: readonly TechniqueName[] | Level): readonly TechniqueName[] {
  return typeof known === 'string' ? techniquesUpTo(known).map(({ name }) => name) : known
}

/** Steps by these techniques, under the rules of the lesson. */
export function choiceFor({ maxLinks, oneSolution }: Lesson, techniques: readonly TechniqueName[]): Choice {
  return {
    techniques,
    ...(oneSolution !== undefined && { oneSolution }),
    ...(maxLinks !== undefined && { maxLinks }),
  }
}
