import type { House } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import { allPremises } from '../cases/propagation.js'
import type { Facts } from '../facts/facts.js'
import { PremiseSearch } from '../proof/premise-search.js'

/** Ways tried to fill the board, which serve as a beginning only; where more are needed nothing is found. */
const BUDGET = 100_000

/** What stands for "no place" where a cell has no such candidate. */
export const NONE = -1

/**
 * The open cells of a board, each matched to a sector: a digit of a house. Every digit may be counted by the houses of
 * any one kind, as a digit is missing from as many of them, so there are as many sectors as cells. Some way to fill the
 * board, right or not, is the matching: it stays one whatever kinds of houses are chosen. A cell's candidate then leads
 * to the cell that its sector is matched to, its holder, and cells which lead only to each other are locked: they have
 * as many sectors as they are cells. Which cells these are does not depend on the matching.
 *
 * (The way in which the constraint "all different" is made consistent: J.-C. Régin, 1994.)
 */
export interface SectorMatching {
  /** The open cells, ascending. A cell's place is its index here. */
  readonly cells: readonly number[]
  /** The digits that open cells have, those with the fewest cells first; a digit's number is its index here. */
  readonly digits: readonly number[]
  readonly kinds: number
  /** place -> number of its digit in the filling. */
  readonly filling: readonly number[]
  /**
   * (place × digits + digit number) × kinds + kind -> the holder's place, or `NONE` where the cell has no such
   * candidate.
   */
  readonly holders: readonly number[]
  /** place × kinds + kind -> index of the cell's house of that kind. */
  readonly houseOf: readonly number[]
}

/**
 * @param digits those that open cells have
 * @param kinds for each kind its houses, which have every cell once
 * @returns undefined where the board cannot be filled, or no way to fill it was found
 */
export function* sectorMatching(
  facts: Facts,
  digits: readonly number[],
  kinds: readonly (readonly House[])[],
  watch: Watch,
): Task<SectorMatching | undefined> {
  const { board } = facts
  const search = new PremiseSearch(board.geometry, allPremises(facts))
  const trues = yield* search.findWithin(watch, [], BUDGET)
  if (typeof trues === 'string') return undefined
  const cells = facts.openCells
  const placeOf: number[] = new Array(board.geometry.cellCount).fill(NONE)
  for (let place = 0; place < cells.length; place++) placeOf[cells[place]!] = place
  const numberOf = new Map(digits.map((digit, number) => [digit, number]))
  const filling: number[] = new Array(cells.length).fill(0)
  for (const { cell, digit } of trues) filling[placeOf[cell]!] = numberOf.get(digit)!
  const holders: number[] = new Array(cells.length * digits.length * kinds.length).fill(NONE)
  const houseOf: number[] = new Array(cells.length * kinds.length).fill(NONE)
  kinds.forEach((houses, kind) => {
    for (const house of houses) {
      const places = house.cells.map((cell) => placeOf[cell]!).filter((place) => place !== NONE)
      for (const place of places) {
        houseOf[place * kinds.length + kind] = house.index
        const set = board.candidates[cells[place]!]!
        for (const holder of places) {
          const number = filling[holder]!
          if (set & (1 << (digits[number]! - 1)))
            holders[(place * digits.length + number) * kinds.length + kind] = holder
        }
      }
    }
  })
  return { cells, digits, kinds: kinds.length, filling, holders, houseOf }
}
