import { checkFoundSteps } from '../logic/steps/check-step.js'
import type { FoundStep } from '../logic/steps/step.js'
import { TECHNIQUE_NAMES } from '../logic/technique-names.js'
import { isSingle } from './workaday.js'

/**
 * The key step of a line of steps, as an index: the last step of its hardest technique, in the catalogue's order, since
 * nothing as hard is needed once it is done. `undefined` where singles are enough. Routes, grades and walkthroughs mean
 * this one; a route with the default aim is chosen so that there is as little else as hard as can be.
 *
 * @throws InputError `argument` for what is no list of steps
 *
 * @example
 * keyStep(path.steps) // the index of the first step beyond workaday techniques
 */
export function keyStep(steps: readonly FoundStep[]): number | undefined {
  checkFoundSteps(steps)
  let key: number | undefined
  let hardest = 0
  steps.forEach((step, index) => {
    const rank = TECHNIQUE_NAMES.indexOf(step.technique)
    if (isSingle(step) || rank < hardest) return
    hardest = rank
    key = index
  })
  return key
}
