/** The parts of a directed graph whose nodes all lead to each other. */
export interface Components {
  readonly count: number
  /** node -> number of its component. A component leads to itself and to smaller numbers only. */
  readonly of: Int32Array
  /** All nodes, those of one component together, by its number. */
  readonly nodes: Int32Array
}

/** What a search notes for each node. One set of arrays serves all searches: small typed arrays cost much to make. */
class Notes {
  /** Order of discovery, 0: not yet. */
  readonly found: Int32Array
  /** The earliest node known to be reached that is in no component yet. */
  readonly earliest: Int32Array
  /** What is to be followed next. */
  readonly next: Int32Array
  readonly path: Int32Array
  readonly open: Int32Array

  constructor(size: number) {
    this.found = new Int32Array(size)
    this.earliest = new Int32Array(size)
    this.next = new Int32Array(size)
    this.path = new Int32Array(size)
    this.open = new Int32Array(size)
  }
}

let notes = new Notes(0)

/**
 * The strongly connected components of a graph (R. Tarjan, 1972). Node n leads to `to[from[n]]` … `to[from[n + 1] - 1]`.
 */
export function componentsOf(from: Int32Array, to: ArrayLike<number>): Components {
  const size = from.length - 1
  const of = new Int32Array(size).fill(-1)
  const nodes = new Int32Array(size)
  if (notes.found.length < size) notes = new Notes(2 * size)
  const { found, earliest, next, path, open } = notes
  found.fill(0, 0, size)
  for (let node = 0; node < size; node++) next[node] = from[node]!
  let discovered = 0
  let onPath = 0
  let opened = 0
  let done = 0
  let count = 0
  for (let start = 0; start < size; start++) {
    let node = found[start] === 0 ? start : -1
    while (node >= 0) {
      if (found[node] === 0) {
        found[node] = earliest[node] = ++discovered
        path[onPath++] = node
        open[opened++] = node
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
      onPath--
      if (earliest[node] === found[node]) {
        for (let member = -1; member !== node; ) {
          member = open[--opened]!
          of[member] = count
          nodes[done++] = member
        }
        count++
      }
      const before = onPath > 0 ? path[onPath - 1]! : -1
      if (before >= 0 && of[node]! < 0 && earliest[node]! < earliest[before]!)
        earliest[before] = earliest[node]!
      node = before
    }
  }
  return { count, of, nodes }
}
