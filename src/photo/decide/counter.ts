import { countUpToTwo } from '../../count/count-up-to-two.js'
import { StoppedError } from '../../errors.js'
import type { Geometry } from '../../grid/geometry.js'
import { LARGEST_FIGURE } from '../digits/digit-reader.js'
import type { SolutionCounter } from './search.js'

/** Printed puzzles take a few nodes; a reading that takes more than this is no printed puzzle worth waiting for. */
const NODES_AT_MOST = 20_000
/** A node of a larger grid takes some ten times as long. */
const NODES_OF_LARGE = 200

export function solutionCounter(geometry: Geometry): SolutionCounter {
  const nodes = geometry.order <= LARGEST_FIGURE ? NODES_AT_MOST : NODES_OF_LARGE
  return (givens) => {
    try {
      return countUpToTwo(givens, geometry, nodes)
    } catch (error) {
      if (error instanceof StoppedError) return undefined
      throw error
    }
  }
}
