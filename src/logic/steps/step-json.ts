import { argumentError, object } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { fitted } from '../../shape.js'
import type { Step } from './step.js'
import { stepShape } from './step-shape.js'

/**
 * A step as JSON text; reads back equal with `parseStep`. The board of a found step is not part of it.
 *
 * @example
 * parseStep(formatStep(step)).technique // → 'finned-chain'
 */
export function formatStep(step: Step): string {
  object(step, 'step')
  const { technique, level, placements, removals, premises, assumes, pattern } = step
  const saved = { technique, level, placements, removals, premises, assumes, pattern }
  const result = fitted(stepShape, saved)
  if (!result.ok) {
    const part = result.misfit.path || 'shape'
    throw argumentError('step', `a step; its ${part} is not one`, step, 'See findSteps and parseStep.')
  }
  return JSON.stringify(saved)
}

/** A step, or the error that says what is wrong with the data. */
export type StepResult =
  | { readonly ok: true; readonly step: Step }
  | { readonly ok: false; readonly error: InputError }

/**
 * Reads a step from JSON text or from a value already parsed; says what is wrong instead of throwing.
 *
 * @example
 * safeParseStep('{}').ok // → false
 */
export function safeParseStep(source: unknown): StepResult {
  let value = source
  if (typeof source === 'string') {
    try {
      value = JSON.parse(source)
    } catch (cause) {
      return { ok: false, error: shapeError('it is not JSON', cause) }
    }
  }
  const result = fitted(stepShape, value)
  if (result.ok) return { ok: true, step: result.value }
  const { path, found, expected } = result.misfit
  return {
    ok: false,
    error: shapeError(`${path || 'the whole value'}: found ${found}, expected ${expected}`),
  }
}

/**
 * The step that `formatStep` wrote, off its text or what `JSON.parse` made of it.
 *
 * @throws InputError `json-shape` when the text or value is not a step.
 *
 * @example
 * const step = parseStep(await readFile('step.json', 'utf8'))
 */
export function parseStep(source: unknown): Step {
  const result = safeParseStep(source)
  if (!result.ok) throw result.error
  return result.step
}

function shapeError(trouble: string, cause?: unknown): InputError {
  return new InputError('json-shape', `This is not a saved step (${trouble}). Save steps with formatStep.`, {
    cause,
  })
}
