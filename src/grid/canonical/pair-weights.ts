import type { LineGraph } from './line-graph.js'

/**
 * A number for each two lines of a side, and for each two digits, that depends on how their givens interlock: follow
 * from a cell of one line to the cell across it in the other, to the cell of that digit back in the first, and so on.
 * The lengths of these chains and rings tell pairs of full lines apart, whose colours alone say nothing: in a full grid
 * every line and every digit looks the same to colour refinement.
 *
 * Entry `a * firstGroup + b`; 0 for pairs of different kinds and for a vertex with itself. Undefined for a grid with a
 * digit twice in a line or two digits in a cell, where cells have no single partner to go on to.
 */
export function pairWeights(graph: LineGraph): Int32Array | undefined {
  const { order: n, firstDigit, firstGroup, ties } = graph
  // Each vertex as a partial map: a row sends columns to digits, a column rows to digits, a digit rows to columns and,
  // since rows and columns may change places, columns to rows.
  const mapOf = new Int16Array(firstGroup * n).fill(-1)
  const rowOf = new Int16Array(firstGroup * n).fill(-1)
  for (let i = 0; i < ties.length; i += 3) {
    const row = ties[i]!
    const column = ties[i + 1]! - n
    const digit = ties[i + 2]! - firstDigit
    if (mapOf[ties[i + 2]! * n + row]! >= 0 || rowOf[ties[i + 2]! * n + column]! >= 0) return undefined
    if (mapOf[row * n + column]! >= 0) return undefined
    mapOf[row * n + column] = digit
    mapOf[ties[i + 1]! * n + row] = digit
    mapOf[ties[i + 2]! * n + row] = column
    rowOf[ties[i + 2]! * n + column] = row
  }
  const weights = new Int32Array(firstGroup * firstGroup)
  const back = new Int16Array(n)
  const seen = new Uint8Array(n)
  for (let kind = 0; kind < 3; kind++) {
    for (let a = kind * n; a < (kind + 1) * n; a++) {
      for (let b = a + 1; b < (kind + 1) * n; b++) {
        let weight = interlocking(mapOf, a * n, b * n, n, back, seen)
        if (a >= firstDigit) weight = (weight + interlocking(rowOf, a * n, b * n, n, back, seen)) | 0
        weights[a * firstGroup + b] = weight
        weights[b * firstGroup + a] = weight
      }
    }
  }
  return weights
}

/** Sum over the chains and rings of two partial maps of a number for the kind and length of each. */
function interlocking(
  mapOf: Int16Array,
  a: number,
  b: number,
  n: number,
  back: Int16Array,
  seen: Uint8Array,
): number {
  back.fill(-1)
  seen.fill(0)
  for (let x = 0; x < n; x++) if (mapOf[a + x]! >= 0) back[mapOf[a + x]!] = x
  // From place x of the second map to the place where the first map has the same value.
  const next = (x: number) => (mapOf[b + x]! < 0 ? -1 : back[mapOf[b + x]!]!)
  const isEntered = new Uint8Array(n)
  for (let x = 0; x < n; x++) if (next(x) >= 0) isEntered[next(x)] = 1
  let sum = 1
  for (const ring of [false, true]) {
    for (let start = 0; start < n; start++) {
      if (seen[start] || (!ring && isEntered[start])) continue
      let length = 0
      for (let x = start; x >= 0 && !seen[x]; x = next(x)) {
        seen[x] = 1
        length++
      }
      sum =
        (sum + Math.imul(length * 2 + (ring ? 1 : 0) + 1, Math.imul(length + 7, 0x2c1b3c6d) ^ 0x297a2d39)) | 0
    }
  }
  return sum
}
