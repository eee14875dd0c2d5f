import { countUpToTwo } from '../../count/count-up-to-two.js'
import { StoppedError } from '../../errors.js'
import type { Geometry } from '../../grid/geometry.js'
import type { SolutionCounter } from './search.js'

/** Printed puzzles take a few nodes; a reading that takes more than this is no printed puzzle worth waiting for. */
const NODES_AT_MOST = 20_000

export function solutionCounter(geometry: Geometry): SolutionCounter {
  return (givens) => {
    try {
      return countUpToTwo(givens, geometry, NODES_AT_MOST)
    } catch (error) {
      if (error instanceof StoppedError) return undefined
      throw error
    }
  }
}
