import * as z from 'zod'
import { argumentError, nearNames, object, shown } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { LEVELS } from './level.js'
import type { CaseTree, Step } from './step.js'
import { TECHNIQUE_NAMES } from './technique-names.js'

const number = z.number().int().nonnegative()
const numbers = z.array(number)
const candidate = z.strictObject({ cell: number, digit: number })
const candidates = z.array(candidate)

const premise = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('cell'), cell: number, digits: numbers }),
  z.strictObject({ kind: z.literal('house'), house: number, digit: number, cells: numbers }),
])

const chainNode = z.strictObject({ digit: number, cells: numbers })
const chainLink = z.strictObject({
  from: chainNode,
  to: chainNode,
  kind: z.enum(['strong', 'weak']),
  by: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('cell'), cell: number }),
    z.strictObject({ kind: z.literal('house'), house: number }),
    z.strictObject({ kind: z.literal('set'), cells: numbers }),
    z.strictObject({ kind: z.literal('premises') }),
  ]),
  fins: candidates.exactOptional(),
})
const links = z.array(chainLink)
const cellGroup = z.strictObject({ cells: numbers, digits: numbers })

const caseTree: z.ZodType<CaseTree> = z.lazy(() =>
  z.strictObject({
    split: z.union([premise, z.strictObject({ kind: z.literal('suppose'), cell: number, digit: number })]),
    branches: z.array(
      z.strictObject({
        assume: candidate,
        follows: z.array(z.strictObject({ candidate, premise })),
        end: z.discriminatedUnion('kind', [
          z.strictObject({ kind: z.literal('contradiction'), premise }),
          z.strictObject({ kind: z.literal('claim') }),
          z.strictObject({ kind: z.literal('split'), tree: caseTree }),
        ]),
      }),
    ),
  }),
)

export const patternSchema = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('single'), cell: number, digit: number, house: number.optional() }),
  z.strictObject({ shape: z.literal('locked'), digit: number, from: number, to: number, cells: numbers }),
  z.strictObject({
    shape: z.literal('subset'),
    hidden: z.boolean(),
    house: number,
    cells: numbers,
    digits: numbers,
  }),
  z.strictObject({
    shape: z.literal('fish'),
    digit: number,
    base: numbers,
    cover: numbers,
    cells: numbers,
    fins: numbers,
  }),
  z.strictObject({ shape: z.literal('wing'), pivot: number, pincers: numbers, digit: number }),
  z.strictObject({ shape: z.literal('chain'), links, loop: z.boolean() }),
  z.strictObject({
    shape: z.literal('colouring'),
    clusters: z.array(z.strictObject({ one: candidates, other: candidates })),
    links,
  }),
  z.strictObject({
    shape: z.literal('sets'),
    sets: z.array(cellGroup),
    joins: z.array(z.strictObject({ digit: number, between: z.tuple([number, number]) })),
    stem: number.optional(),
  }),
  z.strictObject({
    shape: z.literal('exchange'),
    cells: numbers,
    digits: numbers,
    extras: candidates,
    links,
  }),
  z.strictObject({
    shape: z.literal('exclusion'),
    cells: numbers,
    excluded: z.array(z.strictObject({ candidates, by: numbers })),
  }),
  z.strictObject({
    shape: z.literal('exocet'),
    base: numbers,
    targets: numbers,
    digits: numbers,
    lines: numbers,
  }),
  z.strictObject({
    shape: z.literal('sectors'),
    cells: numbers,
    houses: z.array(z.strictObject({ house: number, digits: numbers })),
  }),
  z.strictObject({ shape: z.literal('premises') }),
  z.strictObject({ shape: z.literal('cases'), tree: caseTree }),
])

/** The JSON of a step. Whether its numbers make sense on a board, and whether it is true, is for `verifyStep`. */
export const stepSchema = z.strictObject({
  technique: z.enum(TECHNIQUE_NAMES, { error: ({ input }) => unknownTechnique(input) }),
  level: z.enum(LEVELS),
  placements: candidates,
  removals: candidates,
  premises: z.array(premise),
  assumes: z.literal('one-solution').optional(),
  pattern: patternSchema,
})

function unknownTechnique(input: unknown): string {
  const near = typeof input === 'string' ? nearNames(input, TECHNIQUE_NAMES) : []
  const question = near.length > 0 ? `; did you mean ${near.join(' or ')}?` : ''
  return `${shown(input)} is the name of no technique${question}`
}

/** A step as JSON text; reads back equal with `parseStep`. The board of a found step is not part of it. */
export function formatStep(step: Step): string {
  object(step, 'step')
  const { technique, level, placements, removals, premises, assumes, pattern } = step
  const saved = { technique, level, placements, removals, premises, assumes, pattern }
  const { error } = stepSchema.safeParse(saved)
  const part = error?.issues[0]?.path.map(String).join('.')
  if (error)
    throw argumentError(
      'step',
      `a step; its ${part || 'shape'} is not one`,
      step,
      'See findSteps and parseStep.',
    )
  return JSON.stringify(saved)
}

export type StepResult =
  | { readonly ok: true; readonly step: Step }
  | { readonly ok: false; readonly error: InputError }

/** Reads a step from JSON text or from a value already parsed; says what is wrong instead of throwing. */
export function safeParseStep(source: unknown): StepResult {
  let value = source
  if (typeof source === 'string') {
    try {
      value = JSON.parse(source)
    } catch (cause) {
      return { ok: false, error: shapeError('it is not JSON', cause) }
    }
  }
  const result = stepSchema.safeParse(value)
  // zod types an optional key as `T | undefined`; JSON has no undefined, so the value is a Step as it stands.
  if (result.success) return { ok: true, step: result.data as Step }
  const issue = result.error.issues[0]!
  const where = issue.path.map(String).join('.') || 'the whole value'
  return { ok: false, error: shapeError(`${where}: ${issue.message}`, result.error) }
}

/** @throws InputError `json-shape` when the text or value is not a step. */
export function parseStep(source: unknown): Step {
  const result = safeParseStep(source)
  if (!result.ok) throw result.error
  return result.step
}

function shapeError(trouble: string, cause: unknown): InputError {
  return new InputError('json-shape', `This is not a saved step (${trouble}). Save steps with formatStep.`, {
    cause,
  })
}
