import { filled, zeros } from '../number-lists.js'

/** The parts of a directed graph whose nodes all lead to each other. */
export interface Components {
  readonly count: number
  /** node -> number of its component. A component leads to itself and to smaller numbers only. */
  readonly of: readonly number[]
  /** All nodes, those of one component together, by its number. */
  readonly nodes: readonly number[]
}

// What only matters while components are looked for: these lists serve graph after graph.
/** Order of discovery, 0: not yet. */
const found: number[] = []
/** The earliest node known to be reached that is in no component yet. */
const earliest: number[] = []
/** What is to be followed next. */
const next: number[] = []
const path: number[] = []
/** Nodes met that are in no component yet. */
const open: number[] = []

/**
 * The strongly connected components of a graph (R. Tarjan, 1972). Node n leads to `to[from[n]]` … `to[from[n + 1] - 1]`.
 */
export function componentsOf(from: readonly number[], to: readonly number[]): Components {
  const size = from.length - 1
  const of = filled(size, -1)
  const nodes = zeros(size)
  for (let node = 0; node < size; node++) {
    // from the first on, as a list that is filled with gaps becomes a slow one
    found[node] = 0
    earliest[node] = 0
    next[node] = from[node]!
  }
  let discovered = 0
  let done = 0
  let count = 0
  for (let start = 0; start < size; start++) {
    let node = found[start] === 0 ? start : -1
    while (node >= 0) {
      if (found[node] === 0) {
        found[node] = earliest[node] = ++discovered
        path.push(node)
        open.push(node)
      }
      let further = -1
      while (further < 0 && next[node]! < from[node + 1]!) {
        const other = to[next[node]!++]!
        if (found[other] === 0) further = other
        else if (of[other]! < 0 && found[other]! < earliest[node]!) earliest[node] = found[other]!
      }
      if (further >= 0) {
        node = further
        continue
      }
      // all that it leads to has been followed
      path.pop()
      if (earliest[node] === found[node]) {
        for (let member = -1; member !== node; ) {
          member = open.pop()!
          of[member] = count
          nodes[done++] = member
        }
        count++
      }
      const before = path.length > 0 ? path[path.length - 1]! : -1
      if (before >= 0 && of[node]! < 0 && earliest[node]! < earliest[before]!)
        earliest[before] = earliest[node]!
      node = before
    }
  }
  return { count, of, nodes }
}
