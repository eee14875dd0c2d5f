import { allDigits, type DigitSet, digitBit } from '../digits.js'
import type { Geometry } from '../geometry.js'
import { layoutOf } from '../layout.js'

/** cell -> what the digits in sight and the removals leave in it; 0 for a cell with a digit. */
export function marksLeft(
  geometry: Geometry,
  digits: readonly number[],
  removed: readonly DigitSet[],
): DigitSet[] {
  const left = leftByDigits(geometry, digits)
  for (let cell = 0; cell < left.length; cell++) left[cell] = left[cell]! & ~removed[cell]!
  return left
}

/** cell -> what the digits in sight leave in it; 0 for a cell with a digit. */
export function leftByDigits(geometry: Geometry, digits: readonly number[]): DigitSet[] {
  const { peersOf } = layoutOf(geometry)
  const all = allDigits(geometry.order)
  const left: DigitSet[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) left.push(digits[cell] ? 0 : all)
  for (let cell = 0; cell < geometry.cellCount; cell++)
    if (digits[cell]) strikePeers(peersOf[cell]!, left, digits[cell]!)
  return left
}

/** What the digits in sight leave in one cell, whether it is open or not. */
export function leftIn(geometry: Geometry, digits: readonly number[], cell: number): DigitSet {
  let left = allDigits(geometry.order)
  for (const peer of layoutOf(geometry).peersOf[cell]!) if (digits[peer]) left &= ~digitBit(digits[peer]!)
  return left
}

/** A digit rules itself out in the cells that see it. */
export function strikePeers(peers: readonly number[], candidates: DigitSet[], digit: number): void {
  const keep = ~digitBit(digit)
  for (let i = 0; i < peers.length; i++) candidates[peers[i]!] = candidates[peers[i]!]! & keep
}

/**
 * The digit that stood in this cell stands there no more: its peers have it as a candidate unless there are other
 * reasons.
 */
export function showPeers(
  geometry: Geometry,
  digits: readonly number[],
  removed: readonly DigitSet[],
  candidates: DigitSet[],
  cell: number,
  digit: number,
): void {
  const { peersOf } = layoutOf(geometry)
  const bit = digitBit(digit)
  for (const peer of peersOf[cell]!) {
    if (digits[peer] !== 0 || removed[peer]! & bit) continue
    if (peersOf[peer]!.every((other) => digits[other] !== digit)) candidates[peer] = candidates[peer]! | bit
  }
}
