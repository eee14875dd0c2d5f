import { LEVELS, type Level } from '../logic/level.js'
import type { Step } from '../logic/steps/step.js'
import type { TechniqueName } from '../logic/technique-names.js'

/**
 * What it costs to find the next step, in looks. A look is one open cell, or one pencil mark, thought about once.
 *
 * Singles are found by looking around the open cells until one of them gives something. The more singles are open, and
 * the easier they are to see, the sooner that happens:
 *
 *     looks = open cells / (ease of all open singles, added up)^¾
 *
 * A single has ease 1 as the last open cell of a house or the only place in a box, 2/5 as the only place in a row,
 * column or diagonal, and 8/order² as the last candidate of a cell (about 1/10 on a 9×9 grid), the greatest where it
 * can be seen in several ways. An exponent of 1 would be a search at random; people look where they expect something,
 * so twice as many singles do not halve the time.
 *
 * Beyond singles all pencil marks have to be looked over, again and again:
 *
 *     looks = marks × 3^level × (pieces / removable)^¼
 *
 * `level` counts from 0 (`scan`): each further kind of thinking takes three times the looks. `pieces` are what has to
 * be seen together (`piecesOf`), and `removable` the candidates that all open steps of this ease remove or place. That
 * exponent is small, as more open steps are found sooner (¾, as above), yet more of them are needed, too.
 *
 * Worked values, on a 9×9 grid with 48 open cells and 160 marks. One hidden single in a box: 48 looks; sixteen of them:
 * 48 / 16^¾ = 6 for each. One in a row: 48 / 0.4^¾ = 95.4. One last candidate: 48 / (8/81)^¾ = 272.5. A naked pair that
 * removes two candidates: 160 × 3 × (2/2)^¼ = 480; an X-wing that does: 1440; an XY-chain of four cells that does: 160
 * × 27 × (4/2)^¼ = 5137.4.
 *
 * The formula is this project's own; `README.md` next to this file says what its numbers were fitted to, and how well.
 */
export interface EffortNumbers {
  /** Ease of the only place in a row, column or diagonal, where that in a box has ease 1. */
  readonly line: number
  /** Ease of a cell's last candidate, times order². */
  readonly lastCandidate: number
  /** How much sooner one of several singles is found: their ease to this power. */
  readonly sooner: number
  /** How many times the looks each further level takes. */
  readonly perLevel: number
  /** How the looks grow with pieces, and shrink with removable candidates, beyond singles: to this power. */
  readonly size: number
}

export const EFFORT_NUMBERS: EffortNumbers = {
  line: 0.4,
  lastCandidate: 8,
  sooner: 0.75,
  perLevel: 3,
  size: 0.25,
}

/** The singles open on a board, each counted once, as what it is easiest to see as. */
export interface SinglesSeen {
  readonly kind: 'singles'
  readonly order: number
  readonly openCells: number
  readonly inBoxes: number
  readonly inLines: number
  readonly lastCandidates: number
}

/** The easiest steps open where there is no single. */
export interface StepsSeen {
  readonly kind: 'steps'
  /** Candidates of all open cells. */
  readonly marks: number
  readonly level: Level
  /** Of the smallest. */
  readonly pieces: number
  /** Candidates that all of them remove or place. */
  readonly removable: number
}

/** Looks until one of the steps is found. */
export function looksFor(seen: SinglesSeen | StepsSeen, numbers = EFFORT_NUMBERS): number {
  if (seen.kind === 'steps') {
    const { marks, level, pieces, removable } = seen
    return marks * numbers.perLevel ** LEVELS.indexOf(level) * (pieces / removable) ** numbers.size
  }
  const { order, openCells, inBoxes, inLines, lastCandidates } = seen
  const ease = inBoxes + numbers.line * inLines + (numbers.lastCandidate / (order * order)) * lastCandidates
  return openCells / ease ** numbers.sooner
}

/** Strong links of a chain of single candidates or groups; what has to be seen together in any other pattern. */
export function piecesOf({ technique, pattern }: Pick<Step, 'technique' | 'pattern'>): number {
  if (!CHAINS.has(technique) || pattern.shape !== 'chain') return leastPieces(technique)
  let strong = 0
  for (const { kind } of pattern.links) if (kind === 'strong') strong++
  return strong
}

/** Chains whose shortest is always found first, so that their length says how easy they are. */
const CHAINS: ReadonlySet<TechniqueName> = new Set([
  'x-chain',
  'xy-chain',
  'alternating-inference-chain',
  'grouped-alternating-inference-chain',
])

/** Pieces of a technique's smallest pattern that is nothing simpler. Techniques with as many are equally easy. */
export function leastPieces(technique: TechniqueName): number {
  return PIECES[technique] ?? (technique.includes('mutant') ? 14 : OTHERS)
}

/** Franken fish, and whatever has no line below. */
const OTHERS = 13

/**
 * Cells of a set, houses of a fish and one for its fins, strong links of a chain, cells of a rectangle. A house with
 * one digit to be placed in it counts as one piece, and so does the one odd cell of a bivalue universal grave.
 */
const PIECES: Partial<Record<TechniqueName, number>> = {
  'full-house': 1,
  'hidden-single': 1,
  'naked-single': 1,

  pointing: 1,
  claiming: 1,
  'naked-pair': 2,
  'hidden-pair': 2,
  'naked-triple': 3,
  'hidden-triple': 3,
  'naked-quad': 4,
  'hidden-quad': 4,

  'bug-plus-one': 1,
  'x-wing': 2,
  skyscraper: 2,
  'two-string-kite': 2,
  'turbot-fish': 2,
  'empty-rectangle': 2,
  'xy-wing': 3,
  'xyz-wing': 3,
  'w-wing': 3,
  swordfish: 3,
  'simple-colouring': 3,
  'finned-x-wing': 3,
  'sashimi-x-wing': 3,
  'x-chain': 3,
  'unique-rectangle-type-1': 4,
  'unique-rectangle-type-2': 4,
  'unique-rectangle-type-3': 4,
  'unique-rectangle-type-4': 4,
  'unique-rectangle-type-5': 4,
  'unique-rectangle-type-6': 4,
  'hidden-rectangle': 4,
  'avoidable-rectangle': 4,
  'remote-pairs': 4,
  'wxyz-wing': 4,
  jellyfish: 4,
  'finned-swordfish': 4,
  'sashimi-swordfish': 4,
  'multi-colouring': 4,
  'bug-plus-several': 4,
  'finned-jellyfish': 5,
  'sashimi-jellyfish': 5,

  'xy-chain': 4,
  'alternating-inference-chain': 5,
  'unique-loop': 6,
  'extended-rectangle': 6,
  'grouped-alternating-inference-chain': 7,
  'continuous-loop': 7,
  'als-xz': 8,
  'sue-de-coq': 8,
  'als-xy-wing': 9,
  'als-chain': 10,
  'aligned-pair-exclusion': 10,
  'death-blossom': 10,
  'alternating-inference-chain-with-sets': 11,
  'finned-chain': 12,
  'multi-sector-locked-set': 15,

  'cell-forcing-chain': 12,
  'house-forcing-chain': 13,
  nishio: 14,
  'forcing-net': 20,
}
