import { argumentError, listOf, object, oneOf, string } from '../../check-arguments.js'
import { checkBoard } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { fitted } from '../../shape.js'
import { LEVELS } from '../level.js'
import { findMalformation } from './malformation.js'
import { misplacedNumber } from './pattern-numbers.js'
import type { FoundStep, PathStep, Pattern, Step } from './step.js'
import { patternShape } from './step-shape.js'

// Whether a step is true is for `verifyStep`; here is looked at what can be worked with at all.

const ADVICE = 'Steps come from findSteps, nextStep and solve, or, without their boards, from parseStep.'
const checkLevel = oneOf(LEVELS)

/** @throws InputError `argument` for what is no step on a board of its own */
export function checkFoundStep(value: FoundStep, name = 'step'): void {
  if (typeof value !== 'object' || value === null) throw argumentError(name, 'a step', value, ADVICE)
  checkBoard(value.before, `${name}.before`)
  checkStep(value.before.geometry, value, name)
}

/** @throws InputError `argument` for what is no step on this geometry */
export function checkStep(geometry: Geometry, step: Step, name = 'step'): void {
  if (typeof step !== 'object' || step === null) throw argumentError(name, 'a step', step, ADVICE)
  string(step.technique, `${name}.technique`)
  checkLevel(step.level, `${name}.level`)
  const fault = findMalformation(geometry, step)
  if (fault)
    throw argumentError(`${name}.${fault.where}`, `right for ${geometry.name}`, fault.trouble, ADVICE)
}

/** What people look at, in every part: what words and pictures are made from. */
export function checkPattern(geometry: Geometry, pattern: Pattern, name = 'step.pattern'): void {
  const result = fitted(patternShape, pattern)
  if (!result.ok) {
    const where = result.misfit.path === '' ? name : `${name}.${result.misfit.path}`
    throw argumentError(where, 'as in a saved step', pattern, ADVICE)
  }
  const where = misplacedNumber(geometry, pattern)
  if (where) throw argumentError(`${name}.${where}`, `on a grid of ${geometry.name}`, 'a number that is not')
}

/** @throws InputError `argument` unless these are the steps of one path */
export function checkPath(path: readonly PathStep[], name = 'path'): void {
  checkSteps(path, name)
  path.forEach(({ restsOn, before }, index) => {
    if (before.geometry.key !== path[0]!.before.geometry.key)
      throw argumentError(`${name}[${index}].before`, 'of the same geometry as those before', before)
    checkRests(restsOn, index, `${name}[${index}].restsOn`)
  })
}

const checkSteps = listOf((step, name) => checkFoundStep(step as FoundStep, name), 'a list of steps')

function checkRests(restsOn: readonly number[], index: number, name: string): void {
  if (!Array.isArray(restsOn)) throw argumentError(name, 'a list of earlier steps', restsOn)
  for (const earlier of restsOn)
    if (!Number.isInteger(earlier) || earlier < 0 || earlier >= index)
      throw argumentError(name, `numbers of steps before step ${index}`, earlier)
}

/** @throws InputError `argument` for what is no list of steps */
export function checkFoundSteps(steps: readonly FoundStep[], name = 'steps'): void {
  checkSteps(steps, name)
}

/** What `solve` gives back. */
export function checkSolvePath(path: unknown, name = 'path'): void {
  object(path, name)
  const { status, steps, board } = path as { status: unknown; steps: readonly PathStep[]; board: unknown }
  checkStatus(status, `${name}.status`)
  checkPath(steps, `${name}.steps`)
  checkBoard(board, `${name}.board`)
}

const checkStatus = oneOf(['solved', 'stuck', 'invalid', 'stopped'])
