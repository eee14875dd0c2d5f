import { shown } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import type { Board } from '../board.js'
import type { Geometry } from '../geometry.js'

/** @throws InputError `argument` unless the number is within the bounds */
export function assertWithin(what: string, n: unknown, least: number, most: number, cell?: number): void {
  if (Number.isInteger(n) && (n as number) >= least && (n as number) <= most) return
  const where = cell === undefined ? '' : ` in cell ${cell}`
  throw new InputError(
    'argument',
    `There is no ${what} ${shown(n)}${where}; they go from ${least} to ${most}.`,
  )
}

/** @throws InputError `argument` unless there are such a cell and such a digit */
export function assertCandidate({ cellCount, order }: Geometry, cell: number, digit: number): void {
  assertWithin('cell', cell, 0, cellCount - 1)
  assertWithin('digit', digit, 1, order, cell)
}

/** @throws InputError `argument` unless the cell is its owner's to write in */
export function assertOwn({ geometry, given, digits }: Board, cell: number, done: string): void {
  assertWithin('cell', cell, 0, geometry.cellCount - 1)
  if (given[cell])
    throw new InputError('argument', `Cell ${cell} has the given ${digits[cell]}, so it cannot be ${done}.`)
}
