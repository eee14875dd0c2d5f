import type { Board } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'

/**
 * Sets of cells as runs of 32-bit words (three for 81 cells): cell c is bit `c & 31` of word `c >> 5`. A table of such
 * sets is one flat array; set number i starts at `i * words`.
 */
export function maskWords(geometry: Geometry): number {
  return (geometry.cellCount + 31) >>> 5
}

const peerCache = new WeakMap<Geometry, Uint32Array>()

/** cell -> the set of its peers. Computed once for a geometry. */
export function peerMasks(geometry: Geometry): Uint32Array {
  const known = peerCache.get(geometry)
  if (known) return known
  const words = maskWords(geometry)
  const masks = new Uint32Array(geometry.cellCount * words)
  geometry.peersOf.forEach((peers, cell) => {
    for (const peer of peers) masks[cell * words + (peer >>> 5)]! |= 1 << (peer & 31)
  })
  peerCache.set(geometry, masks)
  return masks
}

/** digit - 1 -> the set of cells that still have the digit as a candidate. */
export function digitMasks(board: Board): Uint32Array {
  const { geometry, candidates } = board
  const words = maskWords(geometry)
  const masks = new Uint32Array(geometry.order * words)
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    for (let rest = candidates[cell]!; rest !== 0; rest &= rest - 1) {
      masks[(31 - Math.clz32(rest & -rest)) * words + (cell >>> 5)]! |= 1 << (cell & 31)
    }
  }
  return masks
}
