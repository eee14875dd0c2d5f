import type { Board } from '../../grid/board.js'
import { lowestBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'

/**
 * Sets of cells as runs of 32-bit words (three for 81 cells): cell c is bit `c & 31` of word `c >> 5`. A table of such
 * sets is one flat array; set number i starts at `i * words`.
 */
export function maskWords(geometry: Geometry): number {
  return (geometry.cellCount + 31) >>> 5
}

/** cell -> the set of its peers. Computed once for a geometry. */
export const peerMasks = perLayout(({ cellCount, peersOf }, geometry): Uint32Array => {
  const words = maskWords(geometry)
  const masks = new Uint32Array(cellCount * words)
  peersOf.forEach((peers, cell) => {
    for (const peer of peers) masks[cell * words + (peer >>> 5)]! |= 1 << (peer & 31)
  })
  return masks
})

/** digit - 1 -> the set of cells that still have the digit as a candidate. */
export function digitMasks(board: Board): readonly number[] {
  const { geometry, candidates } = board
  const words = maskWords(geometry)
  const masks = zeros(geometry.order * words)
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    for (let rest = candidates[cell]!; rest !== 0; rest &= rest - 1) {
      masks[lowestBit(rest) * words + (cell >>> 5)]! |= 1 << (cell & 31)
    }
  }
  return masks
}

/** The set of cells that still have one digit as a candidate. */
export function holderMask(facts: Facts, digit: number): Uint32Array {
  const { board } = facts
  return maskOf(board.geometry, facts.cellsWith(digit))
}

/** These cells as a set. */
export function maskOf(geometry: Geometry, cells: readonly number[]): Uint32Array {
  const mask = new Uint32Array(maskWords(geometry))
  for (const cell of cells) mask[cell >>> 5]! |= 1 << (cell & 31)
  return mask
}

/** The cells that see one of these cells or more. */
export function seenFromAny(geometry: Geometry, cells: readonly number[]): Uint32Array {
  const peers = peerMasks(geometry)
  const mask = new Uint32Array(maskWords(geometry))
  const words = mask.length
  for (const cell of cells) for (let w = 0; w < words; w++) mask[w]! |= peers[cell * words + w]!
  return mask
}

/** Have all these sets a cell in common? */
export function meet(...masks: readonly Uint32Array[]): boolean {
  for (let w = 0; w < masks[0]!.length; w++) {
    let common = -1
    for (let i = 0; i < masks.length; i++) common &= masks[i]![w]!
    if (common !== 0) return true
  }
  return false
}

/** Does one of these holders see every cell of both lists? */
export function isSeenByAll(
  geometry: Geometry,
  holders: Uint32Array,
  one: readonly number[],
  other: readonly number[],
): boolean {
  const peers = peerMasks(geometry)
  const words = holders.length
  for (let w = 0; w < words; w++) {
    let seen = holders[w]!
    for (let i = 0; i < one.length && seen !== 0; i++) seen &= peers[one[i]! * words + w]!
    for (let i = 0; i < other.length && seen !== 0; i++) seen &= peers[other[i]! * words + w]!
    if (seen !== 0) return true
  }
  return false
}
