import { firstDigit, holdsOne, lowestBit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import type { Premise, Step } from '../steps/step.js'
import type { Technique } from '../technique.js'

type SingleName = 'full-house' | 'hidden-single' | 'naked-single'

/** The step of a single, by its one premise. */
function singleStep(technique: SingleName, cell: number, digit: number, house?: number): Step {
  const premise: Premise =
    house === undefined
      ? { kind: 'cell', cell, digits: [digit] }
      : { kind: 'house', house, digit, cells: [cell] }
  return {
    technique,
    level: 'scan',
    placements: [{ cell, digit }],
    removals: [],
    premises: [premise],
    pattern: house === undefined ? { shape: 'single', cell, digit } : { shape: 'single', cell, digit, house },
  }
}

/** The last open cell of a house takes the digit the house still lacks. */
export const fullHouse: Technique = {
  name: 'full-house',
  level: 'scan',
  find(facts, report) {
    const { board, open } = facts
    const { houses } = layoutOf(board.geometry)
    for (let house = 0; house < houses.length; house++) {
      if (!holdsOne(open[house]!)) continue
      const cell = houses[house]!.cells[lowestBit(open[house]!)]!
      const set = board.candidates[cell]!
      if (!holdsOne(set)) continue
      const digit = firstDigit(set)
      // A cell may be the last of two houses at once: the first of them reports it.
      if (isReportedBefore(cell, house, facts)) continue
      if (report(singleStep('full-house', cell, digit, house))) return
    }
  },
}

/**
 * A house has one place left for a digit. Reported once a candidate, by the last of its houses: boxes are seen first.
 */
export const hiddenSingle: Technique = {
  name: 'hidden-single',
  level: 'scan',
  find(facts, report) {
    const { board, places, open } = facts
    const { order } = board.geometry
    const { houses } = layoutOf(board.geometry)
    for (let house = houses.length - 1; house >= 0; house--) {
      if (holdsOne(open[house]!)) continue
      const base = house * order
      for (let digit = 1; digit <= order; digit++) {
        const set = places[base + digit - 1]!
        if (!holdsOne(set)) continue
        const cell = houses[house]!.cells[lowestBit(set)]!
        if (isReportedLater(cell, house, digit, facts)) continue
        if (report(singleStep('hidden-single', cell, digit, house))) return
      }
    }
  },
}

/** Is the cell the last open one of an earlier house too? */
function isReportedBefore(cell: number, house: number, facts: Facts): boolean {
  const { board, open } = facts
  const houses = layoutOf(board.geometry).housesOf[cell]!
  for (let i = 0; i < houses.length; i++) if (houses[i]! < house && holdsOne(open[houses[i]!]!)) return true
  return false
}

/** Is the cell the digit's only place in a later house too, without being the last open cell there? */
function isReportedLater(cell: number, house: number, digit: number, facts: Facts): boolean {
  const { board, places, open } = facts
  const { order } = board.geometry
  const { housesOf } = layoutOf(board.geometry)
  const houses = housesOf[cell]!
  for (let i = 0; i < houses.length; i++) {
    const other = houses[i]!
    if (other > house && holdsOne(places[other * order + digit - 1]!) && !holdsOne(open[other]!)) return true
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
      if (!holdsOne(set)) continue
      const digit = firstDigit(set)
      if (report(singleStep('naked-single', cell, digit))) return
    }
  },
}
