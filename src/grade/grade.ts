import { amount, object, oneOf, whole as wholeNumber } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { LEVELS, type Level } from '../logic/level.js'
import { levelShape, techniqueShape } from '../logic/steps/step-shape.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../logic/technique-names.js'
import * as shape from '../shape.js'

/** What a puzzle demands. Plain data: it can be saved as JSON and read back with `parseGrade`. */
export interface Grade {
  /** How many solutions counting found. */
  readonly verdict: 'unique' | 'many' | 'none' | 'undecided'
  /** Where logic got to; `not-tried` for a puzzle that does not have exactly one solution. */
  readonly status: 'solved' | 'stuck' | 'not-tried'
  readonly givens: number
  /** Rounds: each takes every step of the easiest kind that is open. */
  readonly rounds: number
  /** The hardest level needed (of what was done, when stuck); null when there was no round. */
  readonly level: Level | null
  /** Looks that all rounds take together, to a tenth: how hard the steps are to find. */
  readonly effort: number
  /**
   * Where it is hardest to go on: the round of the hardest level in which a step takes the most looks to find, the
   * first of equals. Rounds are numbered from 1; the technique is the first, in the catalogue's order, that finds a
   * step there.
   */
  readonly bottleneck: Bottleneck | null
  /** Technique -> rounds in which it is one of the easiest that find something, in the catalogue's order. */
  readonly techniques: Readonly<Partial<Record<TechniqueName, number>>>
  /**
   * The key step of the route, if one was asked for: `keyStep` says which it is. Null where singles are enough, or no
   * route leads through.
   */
  readonly key?: Key | null | undefined
}

/** The round that takes most effort. */
export interface Bottleneck {
  readonly round: number
  readonly technique: TechniqueName
  readonly level: Level
  readonly effort: number
}

/** The key step of a route. */
export interface Key {
  readonly technique: TechniqueName
  readonly level: Level
}

const whole = shape.whole()
const effort = shape.amount(0)

export const gradeShape: shape.Shape<Grade> = shape.object<Grade>({
  verdict: shape.name(['unique', 'many', 'none', 'undecided']),
  status: shape.name(['solved', 'stuck', 'not-tried']),
  givens: whole,
  rounds: whole,
  level: shape.nullable(levelShape),
  effort,
  bottleneck: shape.nullable(
    shape.object<Bottleneck>({ round: whole, technique: techniqueShape, level: levelShape, effort }),
  ),
  techniques: shape.record(TECHNIQUE_NAMES, whole),
  key: shape.optional(shape.nullable(shape.object<Key>({ technique: techniqueShape, level: levelShape }))),
})

/**
 * Reads a grade from JSON text or from a value already parsed.
 *
 * @throws InputError `json-shape` when it is not one
 *
 * @example
 * parseGrade(JSON.stringify(gradePuzzle(puzzle))).level // → 'pattern'
 */
export function parseGrade(source: unknown): Grade {
  let value = source
  if (typeof source === 'string') {
    try {
      value = JSON.parse(source)
    } catch (cause) {
      throw notAGrade('it is not JSON', cause)
    }
  }
  const result = shape.fitted(gradeShape, value)
  if (result.ok) return result.value
  const { path, found, expected } = result.misfit
  throw notAGrade(`${path || 'the whole value'}: found ${found}, expected ${expected}`)
}

function notAGrade(trouble: string, cause?: unknown): InputError {
  return new InputError(
    'json-shape',
    `This is not a saved grade (${trouble}). Save what gradePuzzle returns.`,
    {
      cause,
    },
  )
}

const checkLevel = oneOf(LEVELS)
const checkOutcome = oneOf(['solved', 'stuck', 'not-tried'])
const checkEffort = amount(0)
const checkRounds = wholeNumber(0)
const checkTechnique = oneOf(TECHNIQUE_NAMES)

/** What comparing and adding up look at, and no more, since lists of grades are long; `parseGrade` looks at all. */
export function checkGrade(grade: Grade, name: string): void {
  object(grade, name)
  checkOutcome(grade.status, `${name}.status`)
  checkEffort(grade.effort, `${name}.effort`)
  checkRounds(grade.rounds, `${name}.rounds`)
  if (grade.level !== null) checkLevel(grade.level, `${name}.level`)
  if (grade.bottleneck !== null) {
    object(grade.bottleneck, `${name}.bottleneck`)
    checkTechnique(grade.bottleneck.technique, `${name}.bottleneck.technique`)
    checkEffort(grade.bottleneck.effort, `${name}.bottleneck.effort`)
  }
  object(grade.techniques, `${name}.techniques`)
  for (const [technique, rounds] of Object.entries(grade.techniques)) {
    checkTechnique(technique, `${name}.techniques`)
    checkRounds(rounds, `${name}.techniques.${technique}`)
  }
}

/**
 * Orders grades by what the puzzles demand, least first: solved before stuck before not tried, then by level, by the
 * effort of the hardest moment and by that of the whole. For `Array.prototype.sort`.
 *
 * @example
 * const grades = [gradePuzzle(puzzle), gradePuzzle(puzzle)].sort(compareGrades) // easiest first
 */
export function compareGrades(a: Grade, b: Grade): number {
  checkGrade(a, 'a')
  checkGrade(b, 'b')
  const outcomes = ['solved', 'stuck', 'not-tried'] as const
  const level = (grade: Grade) => (grade.level === null ? -1 : LEVELS.indexOf(grade.level))
  return (
    outcomes.indexOf(a.status) - outcomes.indexOf(b.status) ||
    level(a) - level(b) ||
    (a.bottleneck?.effort ?? 0) - (b.bottleneck?.effort ?? 0) ||
    a.effort - b.effort
  )
}
