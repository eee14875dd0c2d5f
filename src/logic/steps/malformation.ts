import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Step } from './step.js'

/** A step that makes no sense on its geometry. `where` is a path such as `premises[2].cells`. */
export interface Malformation {
  readonly kind: 'malformed'
  readonly where: string
  readonly trouble:
    | 'not-a-list'
    | 'not-a-cell'
    | 'not-a-digit'
    | 'not-a-house'
    | 'unknown-kind'
    | 'twice'
    | 'empty'
}

type Trouble = Malformation['trouble']

/**
 * Checks every number that a proof will use, so that a step from outside can be verified without being trusted: parts
 * are there, numbers are in range for the geometry, lists name nothing twice and are not empty.
 */
export function findMalformation(geometry: Geometry, step: Step): Malformation | undefined {
  const layout = layoutOf(geometry)
  const isCell = (n: unknown): boolean => isNumberBelow(n, geometry.cellCount, 0)
  const isDigit = (n: unknown): boolean => isNumberBelow(n, geometry.order + 1, 1)
  const isHouse = (n: unknown): boolean => isNumberBelow(n, layout.houses.length, 0)
  const fault = (where: string, trouble: Trouble): Malformation => ({ kind: 'malformed', where, trouble })

  if (typeof step !== 'object' || step === null) return fault('step', 'unknown-kind')
  if (step.assumes !== undefined && step.assumes !== 'one-solution') return fault('assumes', 'unknown-kind')

  const seen = new Set<number>()
  for (const part of ['placements', 'removals'] as const) {
    const candidates = step[part]
    if (!Array.isArray(candidates)) return fault(part, 'not-a-list')
    for (let i = 0; i < candidates.length; i++) {
      const { cell, digit } = candidates[i] ?? {}
      const where = `${part}[${i}]`
      if (!isCell(cell)) return fault(where, 'not-a-cell')
      if (!isDigit(digit)) return fault(where, 'not-a-digit')
      const key = cell * 32 + digit
      if (seen.has(key)) return fault(where, 'twice')
      seen.add(key)
    }
  }

  if (!Array.isArray(step.premises)) return fault('premises', 'not-a-list')
  for (let i = 0; i < step.premises.length; i++) {
    const premise = step.premises[i]
    const where = `premises[${i}]`
    if (typeof premise !== 'object' || premise === null) return fault(where, 'unknown-kind')
    let trouble: Trouble | undefined
    let list: string
    if (premise.kind === 'cell') {
      if (!isCell(premise.cell)) return fault(where, 'not-a-cell')
      list = 'digits'
      trouble = listTrouble(premise.digits, isDigit, 'not-a-digit')
    } else if (premise.kind === 'house') {
      if (!isHouse(premise.house)) return fault(where, 'not-a-house')
      if (!isDigit(premise.digit)) return fault(where, 'not-a-digit')
      list = 'cells'
      trouble = listTrouble(premise.cells, isCell, 'not-a-cell')
    } else return fault(where, 'unknown-kind')
    if (trouble) return fault(`${where}.${list}`, trouble)
  }
  return undefined
}

function isNumberBelow(n: unknown, limit: number, from: number): boolean {
  return Number.isInteger(n) && (n as number) >= from && (n as number) < limit
}

function listTrouble(
  list: unknown,
  isEntry: (n: unknown) => boolean,
  otherwise: Trouble,
): Trouble | undefined {
  if (!Array.isArray(list)) return 'not-a-list'
  if (list.length === 0) return 'empty'
  if (!list.every(isEntry)) return otherwise
  return new Set(list).size === list.length ? undefined : 'twice'
}
