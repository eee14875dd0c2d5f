import { StoppedError } from '../../errors.js'
import type { Task, Watch } from '../../limits.js'
import type { DigitSet } from '../digits.js'
import { lowestBit } from '../digits.js'
import type { LineGraph } from './line-graph.js'
import { pairWeights } from './pair-weights.js'
import {
  copyPartition,
  emptyPartition,
  firstPartition,
  type Partition,
  refine,
  setApart,
} from './partition.js'

/** The canonical way to number a grid's lines, and how many ways give the same. */
export interface Labelling {
  /** Canonical row, and canonical column -> line vertex. */
  readonly rows: readonly number[]
  readonly columns: readonly number[]
  /** The renumbered grid, what each cell shows with digits named by first appearance. */
  readonly form: ArrayLike<DigitSet>
  /** Ways to move lines, bands, stacks and sides after which only digits' names have changed. */
  readonly automorphisms: number
}

/** A complete path of the search: all lines that show digits and all these digits told apart. */
interface Leaf {
  readonly path: readonly number[]
  readonly traces: readonly number[]
  readonly order: Uint8Array
  readonly rows: number[]
  readonly columns: number[]
  readonly form: Uint32Array
}

/**
 * Search by setting apart one vertex after another and refining, in the manner of McKay's "Practical graph isomorphism"
 * (1981): of all complete paths the one with the smallest traces and then the smallest form wins. Paths with a larger
 * trace are left; two complete paths with the same form are an automorphism, which spares the paths it maps to others.
 *
 * @throws StoppedError `budget-spent` after `nodeBudget` refinements, `time-limit` when that was over first
 */
export function* canonicalLabelling(graph: LineGraph, nodeBudget: number, watch: Watch): Task<Labelling> {
  return yield* new LabellingSearch(graph, nodeBudget, watch).run()
}

class LabellingSearch {
  private best: Leaf | undefined
  private readonly automorphisms: Uint8Array[] = []
  private readonly partitions: Partition[]
  private readonly path: number[] = []
  private readonly traces: number[] = []
  private readonly sums: Int32Array
  /** Only for puzzles that need them: where plain refinement does not tell all lines and digits apart. */
  private weights: Int32Array | undefined
  private nodes = 0

  constructor(
    private readonly graph: LineGraph,
    private readonly nodeBudget: number,
    private readonly watch: Watch,
  ) {
    this.sums = new Int32Array(graph.vertexCount)
    this.partitions = [firstPartition(graph)]
  }

  *run(): Task<Labelling> {
    refine(this.graph, this.partitions[0]!, this.sums)
    if (this.targetClass(this.partitions[0]!) >= 0) {
      this.weights = pairWeights(this.graph)
      if (this.weights) refine(this.graph, this.partitions[0]!, this.sums, this.weights)
    }
    yield* this.visit(0)
    const { path, rows, columns, form } = this.best!
    return {
      rows,
      columns,
      form,
      automorphisms: this.groupOrder(path) * interchangeableBlankLines(this.graph),
    }
  }

  /**
   * Explores all that `partitions[depth]` leaves open.
   *
   * @returns the depth to go on from: smaller than `depth` when an automorphism made the rest of this subtree a mirror
   *   image of one seen before.
   */
  private *visit(depth: number): Task<number> {
    const partition = this.partitions[depth]!
    const target = this.targetClass(partition)
    if (target < 0) return this.finish(partition)

    const { colour } = partition
    const children: number[] = []
    for (let at = target; at < colour.length && colour[partition.order[at]!] === target; at++) {
      children.push(partition.order[at]!)
    }
    this.partitions[depth + 1] ??= emptyPartition(this.graph)
    const child = this.partitions[depth + 1]!
    const tried: number[] = []
    for (const vertex of children) {
      if (tried.length > 0 && this.isImageOfTried(vertex, tried, depth)) continue
      tried.push(vertex)
      copyPartition(partition, child)
      setApart(child, vertex)
      this.spend()
      if (this.watch.isDue()) yield
      refine(this.graph, child, this.sums, this.weights)
      if (this.isWorse(depth, child.trace)) continue
      this.path[depth] = vertex
      this.traces[depth] = child.trace
      this.path.length = this.traces.length = depth + 1
      const goOnFrom = yield* this.visit(depth + 1)
      if (goOnFrom < depth) return goOnFrom
    }
    return depth
  }

  /** The first smallest class that still holds several lines with givens or several digits in use; -1 for none. */
  private targetClass({ order, colour }: Partition): number {
    const { firstDigit, firstGroup, degree, vertexCount } = this.graph
    let target = -1
    let smallest = 2 * vertexCount
    for (let start = 0; start < vertexCount; ) {
      let end = start + 1
      while (end < vertexCount && colour[order[end]!] === start) end++
      const vertex = order[start]!
      const size = end - start + (vertex < firstDigit ? 0 : vertexCount)
      if (end - start > 1 && size < smallest && vertex < firstGroup && degree[vertex]! > 0) {
        target = start
        smallest = size
      }
      start = end
    }
    return target
  }

  /** Is this path, with one more trace, already behind the best one? */
  private isWorse(depth: number, trace: number): boolean {
    const { best, traces } = this
    if (!best) return false
    for (let i = 0; i < depth; i++) {
      const there = best.traces[i]
      if (there === undefined) return true
      if (traces[i]! !== there) return traces[i]! > there
    }
    const there = best.traces[depth]
    return there === undefined || trace > there
  }

  private finish(partition: Partition): number {
    const { best, path, traces } = this
    const leaf = this.leafOf(partition)
    const compared = best ? compareLeaves(leaf, best) : -1
    if (compared < 0) {
      this.best = leaf
      return path.length
    }
    if (compared > 0) return path.length
    const map = new Uint8Array(this.graph.vertexCount)
    best!.order.forEach((vertex, at) => {
      map[vertex] = leaf.order[at]!
    })
    // Equal traces all but prove that the paths correspond; only a proof may cut the search.
    if (!isAutomorphism(this.graph, map)) return path.length
    this.automorphisms.push(map)
    // Below the place where the two paths part, this branch is the image of the best one's.
    let parted = 0
    while (path[parted] === best!.path[parted]) parted++
    traces.length = parted
    return parted
  }

  private leafOf(partition: Partition): Leaf {
    const { graph } = this
    const { order: n, firstSide, parentOf, degree, vertexCount } = graph
    const { colour } = partition
    // A group or side comes where its first line with givens comes; blank ones last. These colours are all different.
    const first = new Uint8Array(vertexCount).fill(255)
    for (let line = 0; line < 2 * n; line++) {
      if (degree[line] === 0) continue
      for (const parent of [parentOf[line]!, parentOf[parentOf[line]!]!]) {
        first[parent] = Math.min(first[parent]!, colour[line]!)
      }
    }
    const inOrder = (a: number, b: number) => {
      const groupA = parentOf[a]!
      const groupB = parentOf[b]!
      return first[groupA]! - first[groupB]! || groupA - groupB || colour[a]! - colour[b]! || a - b
    }
    const side = (from: number) => Array.from({ length: n }, (_, i) => from + i).sort(inOrder)
    const columnsFirst = graph.squareBoxes && first[firstSide + 1]! < first[firstSide]!
    const [rows, columns] = columnsFirst ? [side(n), side(0)] : [side(0), side(n)]

    const place = new Uint8Array(2 * n)
    rows.forEach((line, i) => {
      place[line] = i
    })
    columns.forEach((line, i) => {
      place[line] = i
    })
    const form = new Uint32Array(n * n)
    for (let i = 0; i < graph.ties.length; i += 3) {
      const [a, b] = columnsFirst ? [i + 1, i] : [i, i + 1]
      form[place[graph.ties[a]!]! * n + place[graph.ties[b]!]!]! |=
        1 << (graph.ties[i + 2]! - graph.firstDigit)
    }
    nameByFirstAppearance(form, colour.subarray(graph.firstDigit, graph.firstGroup))
    return {
      path: [...this.path],
      traces: [...this.traces],
      order: partition.order.slice(),
      rows,
      columns,
      form,
    }
  }

  /** Can an automorphism that keeps the path so far send a vertex tried before to this one? */
  private isImageOfTried(vertex: number, tried: readonly number[], depth: number): boolean {
    if (this.automorphisms.length === 0) return false
    const orbit = this.orbitOf(vertex, this.path.slice(0, depth))
    return tried.some((other) => orbit.has(other))
  }

  private orbitOf(vertex: number, fixed: readonly number[]): Set<number> {
    const keeping = this.automorphisms.filter((map) => fixed.every((v) => map[v] === v))
    const orbit = new Set([vertex])
    for (const v of orbit) for (const map of keeping) orbit.add(map[v]!)
    return orbit
  }

  /** Product of the orbits along the best path, each under what keeps the path before it (orbit and stabiliser). */
  private groupOrder(path: readonly number[]): number {
    return path.reduce(
      (product, vertex, depth) => product * this.orbitOf(vertex, path.slice(0, depth)).size,
      1,
    )
  }

  private spend(): void {
    this.nodes++
    if (this.nodes > this.nodeBudget) {
      throw new StoppedError(
        'budget-spent',
        `The canonical form was not found within ${this.nodeBudget} steps of search: the puzzle is too symmetric for this budget. Raise nodeBudget.`,
      )
    }
  }
}

function compareLeaves(a: Leaf, b: Leaf): number {
  for (let i = 0; i < Math.min(a.traces.length, b.traces.length); i++) {
    if (a.traces[i] !== b.traces[i]) return a.traces[i]! - b.traces[i]!
  }
  if (a.traces.length !== b.traces.length) return a.traces.length - b.traces.length
  for (let i = 0; i < a.form.length; i++) if (a.form[i] !== b.form[i]) return a.form[i]! - b.form[i]!
  return 0
}

/** Does a map of vertices send ties to ties and keep lines with their groups? Blank lines may go anywhere. */
function isAutomorphism({ order, firstDigit, ties, shown, parentOf }: LineGraph, map: Uint8Array): boolean {
  for (let i = 0; i < ties.length; i += 3) {
    const a = map[ties[i]!]!
    const b = map[ties[i + 1]!]!
    const row = Math.min(a, b)
    const column = Math.max(a, b) - order
    if (row >= order || column < 0) return false
    if (!((shown[row * order + column]! >> (map[ties[i + 2]!]! - firstDigit)) & 1)) return false
    for (const line of [ties[i]!, ties[i + 1]!]) {
      if (map[parentOf[line]!] !== parentOf[map[line]!]) return false
    }
  }
  return true
}

/**
 * Gives digits the names 1, 2, … in the order in which the form shows them; those that first appear in one cell, in the
 * order of their colours.
 */
function nameByFirstAppearance(form: Uint32Array, colourOf: ArrayLike<number>): void {
  const nameOf = new Map<number, number>()
  for (let i = 0; i < form.length; i++) {
    const digits = bitsOf(form[i]!)
    const unnamed = digits.filter((digit) => !nameOf.has(digit))
    for (const digit of unnamed.sort((a, b) => colourOf[a]! - colourOf[b]!)) nameOf.set(digit, nameOf.size)
    form[i] = digits.reduce((set, digit) => set | (1 << nameOf.get(digit)!), 0)
  }
}

function bitsOf(set: DigitSet): number[] {
  const bits: number[] = []
  for (let rest = set; rest !== 0; rest &= rest - 1) bits.push(lowestBit(rest))
  return bits
}

/** Ways to exchange blank lines of one band (or stack), blank bands with each other, and the sides of a blank grid. */
function interchangeableBlankLines({
  order,
  firstGroup,
  firstSide,
  parentOf,
  degree,
  squareBoxes,
}: LineGraph): number {
  let ways = squareBoxes && degree[firstSide] === 0 ? 2 : 1
  const blankIn = new Map<number, number>()
  const count = (parent: number) => {
    const blank = (blankIn.get(parent) ?? 0) + 1
    blankIn.set(parent, blank)
    ways *= blank
  }
  for (let line = 0; line < 2 * order; line++) if (degree[line] === 0) count(parentOf[line]!)
  for (let group = firstGroup; group < firstSide; group++) if (degree[group] === 0) count(parentOf[group]!)
  return ways
}
