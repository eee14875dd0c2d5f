import { listOf, whole } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { applyTo } from '../../grid/board/edit.js'
import type { Board, Conclusion } from '../../grid/board.js'
import { digitBit, lowestBit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { filled } from '../facts/number-lists.js'
import { checkPath } from '../steps/check-step.js'
import type { PathStep, Premise } from '../steps/step.js'

/**
 * Who made a premise true? Keeps, for a path as it grows, which step removed each candidate and placed each digit. What
 * a premise leaves out was removed by those steps: the step that uses the premise rests on them.
 */
export class Dependencies {
  private readonly order: number
  /** cell × order + digit - 1 -> step that removed the candidate; -1 when it was never there. */
  private readonly removedBy: number[]
  /** cell -> step that placed its digit; -1 for what stood there at the start. */
  private readonly placedBy: number[]
  private readonly start: Board

  constructor(start: Board) {
    this.start = start
    this.order = start.geometry.order
    this.removedBy = filled(start.geometry.cellCount * this.order, -1)
    this.placedBy = filled(start.geometry.cellCount, -1)
  }

  /** Takes note of what step number `step` changed. */
  record(step: number, { placements, removals }: Conclusion, before: Board, after: Board): void {
    const { order, removedBy, placedBy } = this
    for (let i = 0; i < removals.length; i++) {
      const { cell, digit } = removals[i]!
      removedBy[cell * order + digit - 1] = step
    }
    for (let i = 0; i < placements.length; i++) {
      const { cell } = placements[i]!
      placedBy[cell] = step
      this.recordCell(step, cell, before, after)
      const peers = layoutOf(before.geometry).peersOf[cell]!
      for (let j = 0; j < peers.length; j++) this.recordCell(step, peers[j]!, before, after)
    }
  }

  private recordCell(step: number, cell: number, before: Board, after: Board): void {
    const gone = before.candidates[cell]! & ~after.candidates[cell]!
    for (let rest = gone; rest !== 0; rest &= rest - 1)
      this.removedBy[cell * this.order + lowestBit(rest)] = step
  }

  /** The steps that these premises rest on, ascending. The premises hold on a board that the path reached. */
  of(premises: readonly Premise[]): number[] {
    const steps: number[] = []
    for (let i = 0; i < premises.length; i++) {
      const premise = premises[i]!
      if (premise.kind === 'cell') this.addForCell(premise, steps)
      else this.addForHouse(premise, steps)
    }
    return steps.length > 1 ? steps.sort(ascending) : steps
  }

  private addForCell({ cell, digits }: Premise & { kind: 'cell' }, steps: number[]): void {
    if (this.placedBy[cell]! >= 0 && digits.length === 1) {
      add(steps, this.placedBy[cell]!)
      return
    }
    let others = this.start.candidates[cell]!
    for (let i = 0; i < digits.length; i++) others &= ~digitBit(digits[i]!)
    for (; others !== 0; others &= others - 1)
      add(steps, this.removedBy[cell * this.order + lowestBit(others)]!)
  }

  private addForHouse({ house, digit, cells }: Premise & { kind: 'house' }, steps: number[]): void {
    const only = cells[0]!
    if (cells.length === 1 && this.placedBy[only]! >= 0) {
      add(steps, this.placedBy[only]!)
      return
    }
    const bit = digitBit(digit)
    const houseCells = layoutOf(this.start.geometry).houses[house]!.cells
    for (let i = 0; i < houseCells.length; i++) {
      const cell = houseCells[i]!
      if (this.start.candidates[cell]! & bit && !cells.includes(cell))
        add(steps, this.removedBy[cell * this.order + digit - 1]!)
    }
  }
}

function add(steps: number[], step: number): void {
  if (step >= 0 && !steps.includes(step)) steps.push(step)
}

function ascending(a: number, b: number): number {
  return a - b
}

const checkIndex = whole(0)
const checkIndices = listOf(checkIndex)

/**
 * The steps that a step of a path needs, directly or through others, ascending: what must be shown before it, and
 * nothing else.
 *
 * @throws InputError `argument` when the path has no such step
 *
 * @example
 * setUp(path.steps, path.steps.length - 1) // indices of the steps that the last one rests on
 */
export function setUp(path: readonly PathStep[], index: number): number[] {
  checkPath(path)
  checkIndex(index, 'index')
  return neededFor(path, [index]).filter((step) => step !== index)
}

/**
 * Cuts a path back to the steps that some of its steps need (and those steps themselves). Boards and dependencies are
 * those of the shorter path; every step is still proven on its board.
 *
 * @param keep indices of the steps that matter; by default every step that places a digit, so that what drops out are
 *   removals that nothing rests on
 * @throws InputError `argument` when the path has no such step
 *
 * @example
 * cutBack(path.steps).length <= path.steps.length // → true
 */
export function cutBack(path: readonly PathStep[], keep?: readonly number[]): PathStep[] {
  checkPath(path)
  if (keep !== undefined) checkIndices(keep, 'keep')
  const targets = keep ?? path.flatMap((step, index) => (step.placements.length > 0 ? [index] : []))
  const needed = neededFor(path, targets)
  const newIndex = new Map(needed.map((old, index) => [old, index]))
  let board = path[0]?.before
  const shorter: PathStep[] = []
  for (const old of needed) {
    const step = path[old]!
    const before = board!
    shorter.push({ ...step, before, restsOn: step.restsOn.map((earlier) => newIndex.get(earlier)!) })
    board = applyTo(before, step)
  }
  return shorter
}

function neededFor(path: readonly PathStep[], targets: readonly number[]): number[] {
  const needed = new Set<number>()
  const open = [...targets]
  for (let index = open.pop(); index !== undefined; index = open.pop()) {
    const step = path[index]
    if (!step)
      throw new InputError('argument', `The path has ${path.length} steps; there is no step ${index}.`)
    if (needed.has(index)) continue
    needed.add(index)
    open.push(...step.restsOn)
  }
  return [...needed].sort((a, b) => a - b)
}
