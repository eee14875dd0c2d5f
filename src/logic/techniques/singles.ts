import type { DigitSet } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts.js'
import type { Premise } from '../step.js'
import type { Technique } from '../technique.js'

function isSingle(set: DigitSet): boolean {
  return set !== 0 && (set & (set - 1)) === 0
}

function indexOf(single: DigitSet): number {
  return 31 - Math.clz32(single)
}

/** The last open cell of a house takes the digit the house still lacks. */
export const fullHouse: Technique = {
  name: 'full-house',
  level: 'scan',
  find(facts, report) {
    const { board, open } = facts
    const { houses } = layoutOf(board.geometry)
    for (let house = 0; house < houses.length; house++) {
      if (!isSingle(open[house]!)) continue
      const cell = houses[house]!.cells[indexOf(open[house]!)]!
      const set = board.candidates[cell]!
      if (!isSingle(set)) continue
      const digit = indexOf(set) + 1
      // A cell may be the last of two houses at once: the first of them tells it.
      if (isToldBefore(cell, house, facts)) continue
      const premise: Premise = { kind: 'house', house, digit, cells: [cell] }
      const step = {
        technique: 'full-house' as const,
        level: 'scan' as const,
        placements: [{ cell, digit }],
        removals: [],
        premises: [premise],
        pattern: { shape: 'single' as const, cell, digit, house },
      }
      if (report(step)) return
    }
  },
}

/** A house has one place left for a digit. Told once a candidate, by the last of its houses: boxes are seen first. */
export const hiddenSingle: Technique = {
  name: 'hidden-single',
  level: 'scan',
  find(facts, report) {
    const { board, places, open } = facts
    const { order } = board.geometry
    const { houses } = layoutOf(board.geometry)
    for (let house = houses.length - 1; house >= 0; house--) {
      if (isSingle(open[house]!)) continue
      const base = house * order
      for (let digit = 1; digit <= order; digit++) {
        const set = places[base + digit - 1]!
        if (set === 0 || (set & (set - 1)) !== 0) continue
        const cell = houses[house]!.cells[indexOf(set)]!
        if (isToldLater(cell, house, digit, facts)) continue
        const premise: Premise = { kind: 'house', house, digit, cells: [cell] }
        const step = {
          technique: 'hidden-single' as const,
          level: 'scan' as const,
          placements: [{ cell, digit }],
          removals: [],
          premises: [premise],
          pattern: { shape: 'single' as const, cell, digit, house },
        }
        if (report(step)) return
      }
    }
  },
}

/** Is the cell the last open one of an earlier house too? */
function isToldBefore(cell: number, house: number, facts: Facts): boolean {
  const { board, open } = facts
  const houses = layoutOf(board.geometry).housesOf[cell]!
  for (let i = 0; i < houses.length; i++) if (houses[i]! < house && isSingle(open[houses[i]!]!)) return true
  return false
}

/** Is the cell the digit's only place in a later house too, without being the last open cell there? */
function isToldLater(cell: number, house: number, digit: number, facts: Facts): boolean {
  const { board, places, open } = facts
  const { order } = board.geometry
  const { housesOf } = layoutOf(board.geometry)
  const houses = housesOf[cell]!
  for (let i = 0; i < houses.length; i++) {
    const other = houses[i]!
    if (other > house && isSingle(places[other * order + digit - 1]!) && !isSingle(open[other]!)) return true
  }
  return false
}

/** A cell has one candidate left. */
export const nakedSingle: Technique = {
  name: 'naked-single',
  level: 'scan',
  find(facts, report) {
    const { board } = facts
    const { candidates } = board
    for (let cell = 0; cell < candidates.length; cell++) {
      const set = candidates[cell]!
      if (set === 0 || (set & (set - 1)) !== 0) continue
      const digit = indexOf(set) + 1
      const premise: Premise = { kind: 'cell', cell, digits: [digit] }
      const step = {
        technique: 'naked-single' as const,
        level: 'scan' as const,
        placements: [{ cell, digit }],
        removals: [],
        premises: [premise],
        pattern: { shape: 'single' as const, cell, digit },
      }
      if (report(step)) return
    }
  },
}
