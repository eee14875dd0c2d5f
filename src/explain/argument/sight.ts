import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { ChainNode, FoundStep } from '../../logic/steps/step.js'

export function isIn(geometry: Geometry, house: number, cell: number): boolean {
  return layoutOf(geometry).positionIn(house, cell) >= 0
}

export function areIn(geometry: Geometry, house: number, cells: readonly number[]): boolean {
  return cells.every((cell) => isIn(geometry, house, cell))
}

/** The first house that has all of these cells. */
export function houseOf(geometry: Geometry, cells: readonly number[]): number | undefined {
  return layoutOf(geometry).housesOf[cells[0]!]!.find((house) => areIn(geometry, house, cells))
}

/** The places of a digit in a group of cells. */
export function placesIn(step: FoundStep, cells: readonly number[], digit: number): ChainNode {
  return { digit, cells: cells.filter((cell) => hasCandidate(step.before, cell, digit)) }
}

/** Does the candidate rule out every candidate of the node? */
export function rulesOut(geometry: Geometry, candidate: Candidate, node: ChainNode): boolean {
  return node.cells.every((cell) => exclude(geometry, { cell, digit: node.digit }, candidate))
}

/** Is the node this candidate alone? */
export function isThat({ digit, cells }: ChainNode, candidate: Candidate): boolean {
  return digit === candidate.digit && cells.length === 1 && cells[0] === candidate.cell
}

export const ascending = (numbers: Iterable<number>): number[] => [...new Set(numbers)].sort((a, b) => a - b)
