import type { Board } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import type { Step } from '../logic/steps/step.js'
import { fills } from './replay.js'

/**
 * Leaves out steps beyond singles for as long as the others still fill the board: of what is left none can be spared.
 * The last are tried first, since what comes early is what the rest stands on.
 */
export function* irreducible<Known extends Step>(
  start: Board,
  steps: readonly Known[],
  watch: Watch,
): Task<Known[]> {
  let kept = [...steps]
  for (let spared = true; spared; ) {
    spared = false
    for (let i = kept.length - 1; i >= 0; i--) {
      const others = kept.filter((_, j) => j !== i)
      if (!(yield* fills(start, others, watch))) continue
      kept = others
      spared = true
    }
  }
  return kept
}
