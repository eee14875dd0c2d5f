import { LEVELS, type Level } from '../../logic/level.js'
import type { PathStep } from '../../logic/step.js'

/** The hardest level among steps, or `undefined` when there are none. */
export function hardestLevel(steps: readonly PathStep[]): Level | undefined {
  let hardest = -1
  for (const step of steps) hardest = Math.max(hardest, LEVELS.indexOf(step.level))
  return LEVELS[hardest]
}
