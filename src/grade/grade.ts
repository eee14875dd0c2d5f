import * as z from 'zod'
import { amount, object, oneOf, whole as wholeNumber } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { LEVELS } from '../logic/level.js'
import { TECHNIQUE_NAMES } from '../logic/technique-names.js'

const whole = z.number().int().nonnegative()

/** The schema of a saved grade; `gradePuzzle` returns what it describes. */
export const gradeSchema = z
  .strictObject({
    /** How many solutions counting found. */
    verdict: z.enum(['unique', 'many', 'none', 'undecided']),
    /** Where logic got to; `not-tried` for a puzzle that does not have exactly one solution. */
    status: z.enum(['solved', 'stuck', 'not-tried']),
    givens: whole,
    /** Steps of the path. */
    steps: whole,
    /** The hardest level asked for (of what was done, when stuck); null when no step was taken. */
    level: z.enum(LEVELS).nullable(),
    /** Effort of all steps together, in looks. */
    effort: z.number().nonnegative(),
    /** The step of the hardest level with the most effort, the first of equals; its number in the path is from 1. */
    bottleneck: z
      .strictObject({
        step: whole,
        technique: z.enum(TECHNIQUE_NAMES),
        level: z.enum(LEVELS),
        effort: z.number().nonnegative(),
      })
      .nullable(),
    /** Technique -> steps of the path that use it, in the order of first use. */
    techniques: z.partialRecord(z.enum(TECHNIQUE_NAMES), whole),
  })
  .readonly()

/** What a puzzle demands. Plain data: it can be saved as JSON and read back with `parseGrade`. */
export type Grade = z.infer<typeof gradeSchema>

/**
 * Reads a grade from JSON text or from a value already parsed.
 *
 * @throws InputError `json-shape` when it is not one
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
  const result = gradeSchema.safeParse(value)
  if (result.success) return result.data
  const issue = result.error.issues[0]!
  throw notAGrade(`${issue.path.map(String).join('.') || 'the whole value'}: ${issue.message}`, result.error)
}

function notAGrade(trouble: string, cause: unknown): InputError {
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
const checkSteps = wholeNumber(0)
const checkTechnique = oneOf(TECHNIQUE_NAMES)

/** What comparing and adding up look at, and no more, since lists of grades are long; `parseGrade` looks at all. */
export function checkGrade(grade: Grade, name: string): void {
  object(grade, name)
  checkOutcome(grade.status, `${name}.status`)
  checkEffort(grade.effort, `${name}.effort`)
  checkSteps(grade.steps, `${name}.steps`)
  if (grade.level !== null) checkLevel(grade.level, `${name}.level`)
  if (grade.bottleneck !== null) {
    object(grade.bottleneck, `${name}.bottleneck`)
    checkTechnique(grade.bottleneck.technique, `${name}.bottleneck.technique`)
    checkEffort(grade.bottleneck.effort, `${name}.bottleneck.effort`)
  }
  object(grade.techniques, `${name}.techniques`)
  for (const [technique, steps] of Object.entries(grade.techniques)) {
    checkTechnique(technique, `${name}.techniques`)
    checkSteps(steps, `${name}.techniques.${technique}`)
  }
}

/**
 * Orders grades by what the puzzles demand, least first: solved before stuck before not tried, then by level, by the
 * effort of the hardest step and by the effort of the whole path. For `Array.prototype.sort`.
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
