import { filled } from '../facts/number-lists.js'

/**
 * The parts of a directed graph whose nodes all lead to each other. The lists serve graph after graph: what is longer
 * is left over.
 */
export interface Components {
  readonly count: number
  /** node -> number of its component. A component leads to itself and to smaller numbers only. */
  readonly of: readonly number[]
  /** All nodes, those of one component together, by its number. */
  readonly nodes: readonly number[]
}

/** What components are worked out with, and made of. */
export class ComponentLists {
  /** node -> number of its component, -1: not yet. */
  componentOf: number[] = []
  /** The nodes that are in a component by now. */
  settled: number[] = []
  /** Order of discovery, 0: not yet. */
  found: number[] = []
  /** The earliest node known to be reached that is in no component yet. */
  earliest: number[] = []
  /** What is to be followed next. */
  next: number[] = []
  readonly path: number[] = []
  /** Nodes met that are in no component yet. */
  readonly open: number[] = []
}

/**
 * The strongly connected components of a graph (R. Tarjan, 1972), until the lists serve again. Of `size` nodes, node
 * n leads to `to[from[n]]` … `to[from[n + 1] - 1]`.
 */
export function componentsOf(
  size: number,
  from: readonly number[],
  to: readonly number[],
  lists: ComponentLists,
): Components {
  if (lists.found.length < size) {
    lists.componentOf = filled(2 * size, -1)
    lists.settled = filled(2 * size, 0)
    lists.found = filled(2 * size, 0)
    lists.earliest = filled(2 * size, 0)
    lists.next = filled(2 * size, 0)
  }
  const { componentOf, settled, found, earliest, next, path, open } = lists
  for (let node = 0; node < size; node++) {
    componentOf[node] = -1
    found[node] = 0
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
      let at = next[node]!
      const end = from[node + 1]!
      let least = earliest[node]!
      let further = -1
      while (at < end) {
        const other = to[at++]!
        if (found[other] === 0) {
          further = other
          break
        }
        if (componentOf[other]! < 0 && found[other]! < least) least = found[other]!
      }
      next[node] = at
      earliest[node] = least
      if (further >= 0) {
        node = further
        continue
      }
      // all that it leads to has been followed
      path.pop()
      if (least === found[node]) {
        for (let member = -1; member !== node; ) {
          member = open.pop()!
          componentOf[member] = count
          settled[done++] = member
        }
        count++
      }
      const before = path.length > 0 ? path[path.length - 1]! : -1
      if (before >= 0 && componentOf[node]! < 0 && least < earliest[before]!) earliest[before] = least
      node = before
    }
  }
  return { count, of: componentOf, nodes: settled }
}
