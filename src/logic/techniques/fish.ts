import type { Board } from '../../grid/board.js'
import type { House } from '../../grid/layout.js'
import { misplaced } from '../facts/digit-placements.js'
import type { Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { zeros } from '../facts/number-lists.js'
import { oncePerPlaces, patternByDigit } from '../facts/path-memory.js'
import { removalNeedsEach } from '../proof/minimal.js'
import { housePremise } from '../proof/premise-holds.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import { visitLockedSelections } from './locked-selection.js'

/** Fish by size: the number of base lines. */
export const FISH_SIZES = { 'x-wing': 2, swordfish: 3, jellyfish: 4 } as const
export type FishName = keyof typeof FISH_SIZES

/**
 * n rows whose places for a digit lie in n columns (or n columns in n rows): those lines take the digit where they
 * cross, so the rest of the crossing lines loses it.
 */
function fish(name: FishName): Technique {
  return patternByDigit(
    name,
    oncePerPlaces((facts, digit) => findFish(facts, digit, name)),
  )
}

function findFish(facts: Facts, digit: number, name: FishName): readonly Step[] {
  const { board, places } = facts
  const { geometry } = board
  const { order } = geometry
  const { rows, columns } = linesOf(geometry)
  if (misplaced(facts, digit).length === 0) return NONE
  const steps: Step[] = []
  const masks = zeros(order)
  for (let turn = 0; turn < 2; turn++) {
    const [base, cover] = turn === 0 ? [rows, columns] : [columns, rows]
    // The i-th cell of a row lies in the i-th column and the other way round, so positions name cover lines.
    for (let i = 0; i < order; i++) masks[i] = places[base[i]!.index * order + digit - 1]!
    visitLockedSelections(masks, FISH_SIZES[name], (picked, union) => {
      const baseLines = picked.map((index) => base[index]!)
      const coverLines = cover.filter((_, index) => union & (1 << index))
      const step = fishStep(board, digit, name, baseLines, coverLines)
      if (step) steps.push(step)
      return false
    })
  }
  return steps
}

const NONE: readonly Step[] = []

function fishStep(
  board: Board,
  digit: number,
  name: FishName,
  base: readonly House[],
  cover: readonly House[],
): Step | undefined {
  const { geometry, candidates } = board
  const bit = 1 << (digit - 1)
  const cells = base.flatMap((line) => line.cells.filter((cell) => candidates[cell]! & bit))
  const removals = cover.flatMap((line) =>
    line.cells
      .filter((cell) => candidates[cell]! & bit && !cells.includes(cell))
      .map((cell) => ({ cell, digit })),
  )
  if (removals.length === 0) return undefined
  const premises = base.map((line) => housePremise(board, line.index, digit))
  // Boxes can make one of the base lines idle: then a smaller pattern removes all of it.
  if (!removals.some((removal) => removalNeedsEach(geometry, premises, removal))) return undefined
  return {
    technique: name,
    level: 'pattern',
    placements: [],
    removals,
    premises,
    pattern: {
      shape: 'fish',
      digit,
      base: base.map((line) => line.index),
      cover: cover.map((line) => line.index),
      cells,
      fins: [],
    },
  }
}

export const xWing = fish('x-wing')
export const swordfish = fish('swordfish')
export const jellyfish = fish('jellyfish')
