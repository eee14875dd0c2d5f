import { oneOf } from '../check-arguments.js'
import { LEVELS, type Level } from './level.js'
import type { Technique } from './technique.js'
import { TECHNIQUE_NAMES } from './technique-names.js'
import { alignedPairExclusion, alignedTripleExclusion } from './techniques/aligned-exclusion.js'
import { avoidableRectangle } from './techniques/avoidable-rectangle.js'
import { bugPlusOne, bugPlusSeveral } from './techniques/bivalue-grave.js'
import { frankenFish, mutantFish } from './techniques/box-fish.js'
import { cellForcingChain, forcingNet, houseForcingChain, nishio } from './techniques/cases.js'
import {
  alternatingInferenceChain,
  chainWithSets,
  continuousLoop,
  finnedChain,
  groupedChain,
  xChain,
  xyChain,
} from './techniques/chains.js'
import { multiColouring, simpleColouring } from './techniques/colouring.js'
import { deathBlossom, setStemBlossom } from './techniques/death-blossom.js'
import { emptyRectangle } from './techniques/empty-rectangle.js'
import { extendedRectangle } from './techniques/extended-rectangle.js'
import { finnedFish } from './techniques/finned-fish.js'
import { jellyfish, swordfish, xWing } from './techniques/fish.js'
import { juniorExocet } from './techniques/junior-exocet.js'
import { claiming, pointing } from './techniques/locked.js'
import { multiSectorLockedSet } from './techniques/multi-sector.js'
import { hiddenRectangle, uniqueRectangles } from './techniques/rectangles.js'
import { remotePairs } from './techniques/remote-pairs.js'
import { alsChain, alsXyWing, alsXz } from './techniques/sets.js'
import { fullHouse, hiddenSingle, nakedSingle } from './techniques/singles.js'
import {
  hiddenPair,
  hiddenQuad,
  hiddenTriple,
  nakedPair,
  nakedQuad,
  nakedTriple,
} from './techniques/subsets.js'
import { sueDeCoq } from './techniques/sue-de-coq.js'
import { skyscraper, turbotFish, twoStringKite } from './techniques/turbot.js'
import { uniqueLoop } from './techniques/unique-loops.js'
import { wWing, wxyzWing, xyWing, xyzWing } from './techniques/wings.js'

/** Every technique, easiest first: `solve` tries them in this order, that of `TECHNIQUE_NAMES`. */
export const CATALOGUE: readonly Technique[] = [
  // scan
  fullHouse,
  hiddenSingle,
  nakedSingle,
  // mark
  pointing,
  claiming,
  nakedPair,
  hiddenPair,
  nakedTriple,
  hiddenTriple,
  nakedQuad,
  hiddenQuad,
  // pattern
  xWing,
  skyscraper,
  twoStringKite,
  turbotFish,
  xyWing,
  simpleColouring,
  emptyRectangle,
  swordfish,
  xyzWing,
  wWing,
  ...uniqueRectangles,
  hiddenRectangle,
  avoidableRectangle,
  bugPlusOne,
  remotePairs,
  ...finnedFish,
  jellyfish,
  xChain,
  multiColouring,
  wxyzWing,
  bugPlusSeveral,
  // chain
  xyChain,
  alternatingInferenceChain,
  uniqueLoop,
  extendedRectangle,
  groupedChain,
  continuousLoop,
  alsXz,
  sueDeCoq,
  alsXyWing,
  alsChain,
  alignedPairExclusion,
  deathBlossom,
  chainWithSets,
  finnedChain,
  alignedTripleExclusion,
  setStemBlossom,
  juniorExocet,
  ...frankenFish,
  ...mutantFish,
  multiSectorLockedSet,
  // branch
  cellForcingChain,
  houseForcingChain,
  nishio,
  forcingNet,
]

const checkPreset = oneOf(LEVELS)

/**
 * A preset is a level: the techniques up to and including it.
 *
 * @throws InputError `argument` when there is no such level
 */
export function techniquesUpTo(level: Level): Technique[] {
  checkPreset(level, 'preset')
  const limit = LEVELS.indexOf(level)
  return CATALOGUE.filter((technique) => LEVELS.indexOf(technique.level) <= limit)
}

export const checkTechniqueName = oneOf(TECHNIQUE_NAMES, 'the name of a technique (see TECHNIQUE_NAMES)')

/** @throws InputError `argument` when no technique has that name */
export function techniqueNamed(name: string): Technique {
  checkTechniqueName(name, 'technique')
  return CATALOGUE.find((technique) => technique.name === name)!
}
