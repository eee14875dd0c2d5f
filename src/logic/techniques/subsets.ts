import type { Board, Candidate } from '../../grid/board.js'
import { digitCount, digitsOf } from '../../grid/digits.js'
import { candidatesSeenByAll, cellsAt, factsOf } from '../facts.js'
import { LookedInVain } from '../path-memory.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'
import { mayBePicked, visitLockedSelections } from './locked-selection.js'

const SIZES = { pair: 2, triple: 3, quad: 4 } as const
type SizeName = keyof typeof SIZES

/**
 * n cells of a house with n digits between them: the digits are used up there, so any cell that sees every place a digit
 * has in the set loses it.
 */
function naked(sizeName: SizeName): Technique {
  const name = `naked-${sizeName}`
  const vain = new LookedInVain()
  return {
    name,
    level: 'mark',
    find(board, report) {
      const { geometry, candidates } = board
      const masks = new Array<number>(geometry.order)
      const { open, stamps } = factsOf(board)
      for (const house of geometry.houses) {
        const stamp = stamps.ofHouse[house.index]!
        if (vain.at(house.index, stamp)) continue
        let found = false
        // Cells that fill a house between them leave nothing there to remove.
        if (digitCount(open[house.index]!) <= SIZES[sizeName]) continue
        for (let i = 0; i < masks.length; i++) masks[i] = candidates[house.cells[i]!]!
        if (!mayBePicked(masks, SIZES[sizeName])) {
          vain.note(house.index, stamp)
          continue
        }
        const stopped = visitLockedSelections(masks, SIZES[sizeName], (picked, union) => {
          const cells = picked.map((position) => house.cells[position]!)
          // The same cells in a row and a box are one instance: the first of the houses looked at tells it.
          // (Not in vain for good: that house may be filled later but for these cells.)
          if (isTogetherBefore(board, house.index, cells, open)) {
            found = true
            return false
          }
          const digits = digitsOf(union)
          const removals = digits.flatMap((digit) =>
            candidatesSeenByAll(
              board,
              digit,
              cells.filter((cell) => board.hasCandidate(cell, digit)),
            ).map((cell) => ({ cell, digit })),
          )
          if (removals.length === 0) return false
          found = true
          return report({
            technique: name,
            level: 'mark',
            placements: [],
            removals,
            premises: cells.map((cell) => ({ kind: 'cell', cell, digits: digitsOf(candidates[cell]!) })),
            pattern: { shape: 'subset', hidden: false, house: house.index, cells, digits },
          })
        })
        if (stopped) return
        if (!found) vain.note(house.index, stamp)
      }
    },
  }
}

/** @param open house -> positions of its open cells; houses that the cells fill are not looked at */
function isTogetherBefore(
  { geometry }: Board,
  house: number,
  cells: readonly number[],
  open: readonly number[],
): boolean {
  return geometry.housesOf[cells[0]!]!.some(
    (other) =>
      other < house &&
      digitCount(open[other]!) > cells.length &&
      cells.every((cell) => geometry.positionIn(other, cell) >= 0),
  )
}

/** n digits of a house with n places between them: those cells hold nothing else. */
function hidden(sizeName: SizeName): Technique {
  const name = `hidden-${sizeName}`
  const vain = new LookedInVain()
  return {
    name,
    level: 'mark',
    find(board, report) {
      const { geometry } = board
      const { places, open, stamps } = factsOf(board)
      const { order } = geometry
      const masks = new Array<number>(order)
      for (const house of geometry.houses) {
        const stamp = stamps.ofHouse[house.index]!
        if (vain.at(house.index, stamp)) continue
        let found = false
        if (digitCount(open[house.index]!) <= SIZES[sizeName]) continue
        for (let i = 0; i < order; i++) masks[i] = places[house.index * order + i]!
        if (!mayBePicked(masks, SIZES[sizeName])) {
          vain.note(house.index, stamp)
          continue
        }
        const stopped = visitLockedSelections(masks, SIZES[sizeName], (picked, union) => {
          const digits = picked.map((index) => index + 1)
          const cells = cellsAt(geometry, house.index, union)
          const removals = othersIn(board, cells, digits)
          if (removals.length === 0) return false
          found = true
          const step: Step = {
            technique: name,
            level: 'mark',
            placements: [],
            removals,
            premises: digits.map((digit) => ({
              kind: 'house',
              house: house.index,
              digit,
              cells: cellsAt(geometry, house.index, masks[digit - 1]!),
            })),
            pattern: { shape: 'subset', hidden: true, house: house.index, cells, digits },
          }
          return report(step)
        })
        if (stopped) return
        if (!found) vain.note(house.index, stamp)
      }
    },
  }
}

/** Candidates of these cells other than these digits. */
function othersIn(board: Board, cells: readonly number[], digits: readonly number[]): Candidate[] {
  return cells.flatMap((cell) =>
    digitsOf(board.candidates[cell]!)
      .filter((digit) => !digits.includes(digit))
      .map((digit) => ({ cell, digit })),
  )
}

export const nakedPair = naked('pair')
export const nakedTriple = naked('triple')
export const nakedQuad = naked('quad')
export const hiddenPair = hidden('pair')
export const hiddenTriple = hidden('triple')
export const hiddenQuad = hidden('quad')
