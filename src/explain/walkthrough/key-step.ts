import { LEVELS, type Level } from '../../logic/level.js'
import type { PathStep } from '../../logic/step.js'

/** The hardest level among steps, or `undefined` when there are none. */
export function hardestLevel(steps: readonly PathStep[]): Level | undefined {
  let hardest = -1
  for (const step of steps) hardest = Math.max(hardest, LEVELS.indexOf(step.level))
  return LEVELS[hardest]
}

/**
 * The index of the step that cracks a puzzle: the last one of the path's hardest level, since after it nothing as hard
 * is needed. `undefined` for a path of singles, which has no such step, and for an empty one.
 */
export function keyStep(steps: readonly PathStep[]): number | undefined {
  const hardest = hardestLevel(steps)
  if (hardest === undefined || hardest === 'scan') return undefined
  return steps.findLastIndex((step) => step.level === hardest)
}
