import type { Board } from '../grid/board.js'
import type { Geometry } from '../grid/geometry.js'
import { layoutOf } from '../grid/layout.js'
import type { JudgedProgress } from '../logic/claims/check-progress.js'
import type { Mistake } from '../logic/claims/mistakes.js'
import { HINT_DEPTHS, type HintDepth } from './hint-depth.js'
import { namesOf, type Voice } from './voice.js'

/** A mistake, spoken of at the depth asked for. */
export interface ShortMistakeHint {
  readonly kind: 'mistake'
  readonly depth: 'look' | 'method' | 'cells'
  /**
   * About the plainest mistake, a sentence for each depth: where something is off, what it is, the cells, what the
   * solution has there.
   */
  readonly says: readonly string[]
  /** Houses to look at. */
  readonly houses: readonly number[]
  /** For programs that mark mistakes on the board: all cells whose digit is not the solution's. */
  readonly wrongDigits: readonly number[]
  /** All open cells from which the right digit was removed. */
  readonly wrongMarks: readonly number[]
}

/** All mistakes of the board. */
export interface WholeMistakeHint extends Omit<ShortMistakeHint, 'depth'> {
  readonly depth: 'argument'
  /** All that is wrong, the mistake spoken of first. */
  readonly mistakes: readonly Mistake[]
}

/** A digit or a pencil mark is not what the solution says: no use going on before it is put right. */
export type MistakeHint<Depth extends HintDepth = HintDepth> = Depth extends 'argument'
  ? WholeMistakeHint
  : ShortMistakeHint

export function mistakeHint(
  { geometry }: Board,
  { mistakes, wrongDigits, wrongRemovals }: JudgedProgress,
  depth: HintDepth,
  voice: Voice,
): MistakeHint {
  const mistake = mistakes[0]!
  const house = houseOf(geometry, mistake)
  const words = voice.wording.hint.mistake(namesOf(voice, geometry), mistake, house)
  const upToCells = {
    kind: 'mistake' as const,
    says: HINT_DEPTHS.slice(0, HINT_DEPTHS.indexOf(depth) + 1).map((reached) => words[reached]),
    houses: [house],
    wrongDigits: wrongDigits.map(({ cell }) => cell),
    wrongMarks: wrongRemovals.map(({ cell }) => cell),
  }
  return depth === 'argument' ? { ...upToCells, depth, mistakes } : { ...upToCells, depth }
}

/**
 * Where to look: the house of a clash, else the box or region of the cell, which gives less away than its row and
 * column.
 */
function houseOf(geometry: Geometry, mistake: Mistake): number {
  const layout = layoutOf(geometry)
  if (mistake.kind === 'clash') return mistake.house
  const houses = layout.housesOf[mistake.cell]!
  const isPiece = (house: number) => /^(box|region)$/.test(layout.houses[house]!.kind)
  return houses.find(isPiece) ?? houses[0]!
}
