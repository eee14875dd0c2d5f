import { cellsAt, factsOf } from '../facts.js'
import { linesOf } from '../lines.js'
import { removalNeedsEach } from '../minimal.js'
import { housePremise } from '../premise-holds.js'
import type { Technique } from '../technique.js'
import { visitLockedSelections } from './locked-selection.js'

/** Fish by size: the number of base lines. */
export const FISH_SIZES = { 'x-wing': 2, swordfish: 3, jellyfish: 4 } as const
export type FishName = keyof typeof FISH_SIZES

/**
 * n rows whose places for a digit lie in n columns (or n columns in n rows): those lines take the digit where they cross,
 * so the rest of the crossing lines loses it.
 */
function fish(name: FishName): Technique {
  const size = FISH_SIZES[name]
  return {
    name,
    level: 'pattern',
    find(board, report) {
      const { geometry, candidates } = board
      const { places } = factsOf(board)
      const { order } = geometry
      const { rows, columns } = linesOf(geometry)
      const masks = new Array<number>(order)
      for (let digit = 1; digit <= order; digit++) {
        for (let turn = 0; turn < 2; turn++) {
          const [base, cover] = turn === 0 ? [rows, columns] : [columns, rows]
          // The i-th cell of a row lies in the i-th column and the other way round, so positions name cover lines.
          for (let i = 0; i < order; i++) masks[i] = places[base[i]!.index * order + digit - 1]!
          const stopped = visitLockedSelections(masks, size, (picked, union) => {
            const baseLines = picked.map((index) => base[index]!.index)
            const coverLines = cover.filter((_, index) => union & (1 << index))
            const cells = picked.flatMap((index) => cellsAt(geometry, base[index]!.index, masks[index]!))
            const bit = 1 << (digit - 1)
            const removals = coverLines.flatMap((line) =>
              line.cells
                .filter((cell) => candidates[cell]! & bit && !cells.includes(cell))
                .map((cell) => ({ cell, digit })),
            )
            if (removals.length === 0) return false
            const premises = baseLines.map((house) => housePremise(board, house, digit))
            // Boxes can make one of the base lines idle: then a smaller pattern removes all of it.
            if (!removals.some((removal) => removalNeedsEach(geometry, premises, removal))) return false
            return report({
              technique: name,
              level: 'pattern',
              placements: [],
              removals,
              premises,
              pattern: {
                shape: 'fish',
                digit,
                base: baseLines,
                cover: coverLines.map((line) => line.index),
                cells,
                fins: [],
              },
            })
          })
          if (stopped) return
        }
      }
    },
  }
}

export const xWing = fish('x-wing')
export const swordfish = fish('swordfish')
export const jellyfish = fish('jellyfish')
