import { setsPattern } from '../chains/chain-step.js'
import type { LinkKinds } from '../chains/graph.js'
import { LARGEST_SET } from '../sets/almost-locked.js'
import { chainTechnique } from './chains.js'

/** Almost locked sets only, a cell with two candidates being the smallest; joined by digits that see each other. */
const kinds: LinkKinds = { setsOf: LARGEST_SET }

/**
 * ALS-XZ: two almost locked sets whose places for x all see each other. One of them lacks x and so holds z: what sees
 * every z of both goes. Joined by two digits, each set keeps its other digits as well.
 */
export const alsXz = chainTechnique({
  name: 'als-xz',
  level: 'chain',
  kinds,
  limits: { least: 2, most: 2 },
  pairLoops: true,
  pattern: setsPattern,
})

/** ALS-XY-wing: a set in the middle joined to two others by different digits; the outer two share z. */
export const alsXyWing = chainTechnique({
  name: 'als-xy-wing',
  level: 'chain',
  kinds,
  limits: { least: 3, most: 3 },
  pattern: setsPattern,
})

/** Four sets or more in a row. */
export const alsChain = chainTechnique({
  name: 'als-chain',
  level: 'chain',
  kinds,
  limits: { least: 4 },
  pattern: setsPattern,
})
