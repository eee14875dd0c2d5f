import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { CheapestFirst } from './heap.js'
import type { CellOptions } from './options.js'

/** A way to read the whole grid that makes a puzzle with exactly one solution. */
export interface SoundReading {
  readonly digits: Uint8Array
  /** Nats below the pixels' own first choice. */
  readonly cost: number
}

export interface SearchLimits {
  /** Readings dearer than this, in nats, are not looked for. */
  readonly costLimit: number
  /** How many readings may be examined. */
  readonly budget: number
}

/**
 * How many solutions the givens have, counted up to 2.
 * `undefined` when the counter gave up; such a reading is treated as not sound.
 */
export type SolutionCounter = (givens: ArrayLike<number>) => 0 | 1 | 2 | undefined

interface Node {
  readonly cost: number
  /** cell -> which of its options is taken; all earlier ones are ruled out in this branch. */
  readonly ranks: Uint8Array
  /** cell -> 1 when this branch keeps the cell as it is. */
  readonly kept: Uint8Array
}

/**
 * The sound readings, most probable first: an exact best-first search. Each examined reading that is not sound is split
 * into the readings that differ from it in at least one cell of its *reason* — two cells that clash, a smallest set of
 * givens that contradict, or any cell when there are several solutions — each branch keeping what the branches before
 * it changed, so that no reading is examined twice and none is lost (Lawler's partition of a solution space, 1972).
 *
 * @yields a sound reading, or undefined after each little work that found none, so that the caller can look at the
 *   clock
 * @returns the cost up to which the search is complete: no sound reading cheaper than it was missed.
 */
export function* soundReadings(
  geometry: Geometry,
  options: readonly CellOptions[],
  count: SolutionCounter,
  limits: SearchLimits,
): Generator<SoundReading | undefined, number, void> {
  const heap = new CheapestFirst<Node>()
  const cells = options.map((_, cell) => cell)
  heap.push({ cost: 0, ranks: new Uint8Array(options.length), kept: new Uint8Array(options.length) })
  for (let examined = 0; examined < limits.budget; examined++) {
    const node = heap.pop()
    if (!node) return limits.costLimit
    const digits = Uint8Array.from(node.ranks, (rank, cell) => options[cell]!.digits[rank]!)
    let reason: readonly number[] | undefined = firstClash(geometry, digits)
    if (!reason) {
      const solutions = count(digits)
      yield solutions === 1 ? { digits, cost: node.cost } : undefined
      reason = solutions === 0 ? yield* smallestContradiction(digits, count) : cells
    }
    splitOff(heap, node, reason, options, limits.costLimit)
    yield
  }
  return heap.pop()?.cost ?? limits.costLimit
}

function splitOff(
  heap: CheapestFirst<Node>,
  node: Node,
  reason: readonly number[],
  options: readonly CellOptions[],
  costLimit: number,
): void {
  const stepCost = (cell: number) => {
    const { costs } = options[cell]!
    const rank = node.ranks[cell]!
    return rank + 1 < costs.length ? costs[rank + 1]! - costs[rank]! : Number.POSITIVE_INFINITY
  }
  // Keep the surest cells first: the branches that matter, those of the doubtful cells, then have little left to vary.
  const order = reason
    .filter((cell) => !node.kept[cell])
    .map((cell) => ({ cell, cost: stepCost(cell) }))
    .sort((a, b) => b.cost - a.cost)
  const kept = Uint8Array.from(node.kept)
  for (const { cell, cost } of order) {
    if (node.cost + cost <= costLimit) {
      const ranks = Uint8Array.from(node.ranks)
      ranks[cell] = ranks[cell]! + 1
      heap.push({ cost: node.cost + cost, ranks, kept: Uint8Array.from(kept) })
    }
    kept[cell] = 1
  }
}

function firstClash(geometry: Geometry, digits: Uint8Array): [number, number] | undefined {
  for (const house of layoutOf(geometry).houses) {
    let seen = 0
    for (const cell of house.cells) {
      const digit = digits[cell]!
      if (digit === 0) continue
      if (seen & (1 << digit)) return [house.cells.find((other) => digits[other] === digit)!, cell]
      seen |= 1 << digit
    }
  }
  return undefined
}

/** Filled cells that contradict together, none of which can be spared: found by deleting one after the other. */
function* smallestContradiction(
  digits: Uint8Array,
  count: SolutionCounter,
): Generator<undefined, number[], void> {
  const rest = Uint8Array.from(digits)
  const needed: number[] = []
  for (let cell = 0; cell < rest.length; cell++) {
    const digit = rest[cell]!
    if (digit === 0) continue
    rest[cell] = 0
    if (count(rest) !== 0) {
      rest[cell] = digit
      needed.push(cell)
    }
    yield
  }
  return needed
}
