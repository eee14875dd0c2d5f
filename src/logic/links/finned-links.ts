import { digitCount } from '../../grid/digits.js'
import { cellsAt, factsOf } from '../facts.js'
import { looseSets } from './almost-locked.js'
import type { LinkGraph, StrongReason } from './graph.js'
import { isPart, partings } from './house-ties.js'
import type { NodeTable } from './nodes.js'

/** What a strong link rests on, and the nodes that would spoil it: none for a plain one. */
export interface FinnedLink {
  readonly reason: StrongReason
  readonly fins: readonly number[]
}

/** A finned link with the nodes it ties: when one of them fails, all the others hold. */
interface Tie {
  readonly link: FinnedLink
  readonly ends: readonly number[]
}

/**
 * The strong links that hold when a certain candidate does: a cell, a house or a set of cells with one digit or place too
 * many for a plain link, the surplus (the fins) seen by the candidate. Candidates share what is worked out for one of them.
 */
export class FinnedLinks {
  /** digit -> nodes that are ends of links of the latest candidate: the first `endCount[digit]` of the list. */
  readonly ends: number[][]
  readonly endCount: number[]
  private readonly graph: LinkGraph
  /** The ties of the latest candidate: as many of the list as counted. Lists keep their room from one candidate to the next. */
  private readonly ties: Tie[] = []
  private tieCount = 0
  /** node -> its latest place in the lists below, -1 when there is none. */
  private first: Int32Array
  /** place -> tie there, and the node's next place. */
  private readonly tieAt: number[] = []
  private readonly next: number[] = []
  private placeCount = 0
  /** By house, digit and fins: the ties between what is left. */
  private readonly byParts = new Map<number, readonly Tie[]>()
  private readonly bySets: ReadonlyMap<number, readonly Tie[]>

  constructor(graph: LinkGraph) {
    const { order } = graph.nodes.board.geometry
    this.graph = graph
    this.first = new Int32Array(graph.nodes.size * 2).fill(-1)
    this.ends = Array.from({ length: order + 1 }, () => [])
    this.endCount = new Array<number>(order + 1).fill(0)
    this.bySets = this.setTies()
  }

  /** Makes the links of a candidate, given as a node. */
  makeFor(target: number): void {
    for (let digit = 1; digit < this.ends.length; digit++) {
      const ends = this.ends[digit]!
      for (let i = this.endCount[digit]! - 1; i >= 0; i--) this.first[ends[i]!] = -1
      this.endCount[digit] = 0
    }
    this.tieCount = 0
    this.placeCount = 0
    const { nodes } = this.graph
    const cell = nodes.cells[target]![0]!
    const digit = nodes.digit[target]!
    this.fromCells(cell, digit)
    this.fromHouses(cell, digit)
    const sets = this.bySets.get(target)
    if (sets) for (let i = 0; i < sets.length; i++) this.add(sets[i]!)
  }

  isEnd(node: number): boolean {
    return node < this.first.length && this.first[node]! >= 0
  }

  linkOf(tie: number): FinnedLink {
    return this.ties[tie]!.link
  }

  /** Calls back with each node tied to a node, and the tie. */
  forEachAt(node: number, visit: (other: number, tie: number) => void): void {
    if (node >= this.first.length) return
    for (let at = this.first[node]!; at >= 0; at = this.next[at]!) {
      const tie = this.tieAt[at]!
      const { ends } = this.ties[tie]!
      for (let i = 0; i < ends.length; i++) if (ends[i] !== node) visit(ends[i]!, tie)
    }
  }

  private add(tie: Tie): void {
    const { ends } = tie
    this.ties[this.tieCount] = tie
    for (let i = 0; i < ends.length; i++) {
      const node = ends[i]!
      if (node >= this.first.length) this.makeRoom(node)
      if (this.first[node]! < 0) {
        const digit = this.graph.nodes.digit[node]!
        this.ends[digit]![this.endCount[digit]!++] = node
      }
      this.tieAt[this.placeCount] = this.tieCount
      this.next[this.placeCount] = this.first[node]!
      this.first[node] = this.placeCount++
    }
    this.tieCount++
  }

  private makeRoom(node: number): void {
    const longer = new Int32Array(node * 2).fill(-1)
    longer.set(this.first)
    this.first = longer
  }

  /** Cells with three candidates, one of which the target rules out. */
  private fromCells(target: number, digit: number): void {
    const { nodes } = this.graph
    const { candidates, geometry } = nodes.board
    const bit = 1 << (digit - 1)
    for (const cell of geometry.peersOf[target]!) {
      const set = candidates[cell]!
      if ((set & bit) === 0 || digitCount(set) !== 3) continue
      const rest = set ^ bit
      const low = nodes.candidate(cell, 32 - Math.clz32(rest & -rest))
      const high = nodes.candidate(cell, 32 - Math.clz32(rest))
      const link: FinnedLink = { reason: { kind: 'cell', cell }, fins: [nodes.candidate(cell, digit)] }
      this.add({ link, ends: [low, high] })
    }
  }

  /** Houses that lose places to the target: for its own digit where it sees them, for others its cell. */
  private fromHouses(target: number, digit: number): void {
    const { board } = this.graph.nodes
    const { geometry } = board
    const { order } = geometry
    const { places } = factsOf(board)
    for (const { index: house, cells } of geometry.houses) {
      const position = geometry.positionIn(house, target)
      if (position >= 0) {
        for (let rest = board.candidates[target]!; rest !== 0; rest &= rest - 1) {
          const other = 32 - Math.clz32(rest & -rest)
          if (other !== digit) this.fromParts(house, other, places[house * order + other - 1]!, 1 << position)
        }
        continue
      }
      const all = places[house * order + digit - 1]!
      let fins = 0
      for (let rest = all; rest !== 0; rest &= rest - 1) {
        const i = 31 - Math.clz32(rest & -rest)
        if (geometry.arePeers(cells[i]!, target)) fins |= 1 << i
      }
      if (fins !== 0) this.fromParts(house, digit, all, fins)
    }
  }

  /** Links between the places that a house has left when the fins are gone. */
  private fromParts(house: number, digit: number, all: number, fins: number): void {
    if (all === fins || digitCount(all) < 3) return
    const { order } = this.graph.nodes.board.geometry
    const key = ((house * order + digit - 1) << order) | fins
    let ties = this.byParts.get(key)
    if (!ties) {
      ties = this.makePartTies(house, digit, all, fins)
      this.byParts.set(key, ties)
    }
    for (let i = 0; i < ties.length; i++) this.add(ties[i]!)
  }

  private makePartTies(house: number, digit: number, all: number, fins: number): Tie[] {
    const { nodes } = this.graph
    const { geometry } = nodes.board
    const left = all & ~fins
    const node = (places: number) => nodes.of(digit, cellsAt(geometry, house, places))
    const reason: StrongReason = { kind: 'house', house, digit }
    const ties: Tie[] = []
    // all that is left at one end: the places ruled out are the other, and nothing spoils the link
    if (isPart(geometry, house, left))
      ties.push({ link: { reason, fins: [] }, ends: [node(left), node(fins)] })
    if ((left & (left - 1)) === 0) return ties
    const parts = partings(geometry, house, left)
    if (parts.length === 0) return ties
    const link: FinnedLink = { reason, fins: [node(fins)] }
    for (const part of parts) ties.push({ link, ends: [node(part), node(left ^ part)] })
    return ties
  }

  /** For each candidate: sets of cells with a digit too many, which the candidate rules out there. */
  private setTies(): ReadonlyMap<number, readonly Tie[]> {
    const lists = new Map<number, Tie[]>()
    const { nodes } = this.graph
    const { words, board } = nodes
    for (const { cells, digits } of looseSets(board)) {
      const places: number[] = []
      for (let rest = digits; rest !== 0; rest &= rest - 1)
        places.push(placesIn(nodes, cells, 32 - Math.clz32(rest & -rest)))
      for (const fin of places) {
        const tie: Tie = {
          link: { reason: { kind: 'set', cells }, fins: [fin] },
          ends: places.filter((other) => other !== fin),
        }
        const digit = nodes.digit[fin]!
        for (let w = 0; w < words; w++) {
          let seers = nodes.peers[fin * words + w]! & nodes.digitCells[(digit - 1) * words + w]!
          for (; seers !== 0; seers &= seers - 1)
            addTo(lists, nodes.candidate(w * 32 + 31 - Math.clz32(seers & -seers), digit), tie)
        }
        if (nodes.cells[fin]!.length > 1) continue
        const cell = nodes.cells[fin]![0]!
        for (let rest = board.candidates[cell]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1)
          addTo(lists, nodes.candidate(cell, 32 - Math.clz32(rest & -rest)), tie)
      }
    }
    return lists
  }
}

function addTo(lists: Map<number, Tie[]>, target: number, tie: Tie): void {
  const list = lists.get(target)
  if (list) list.push(tie)
  else lists.set(target, [tie])
}

/** The node of a digit in those of the cells that have it. */
function placesIn(nodes: NodeTable, cells: readonly number[], digit: number): number {
  return nodes.of(
    digit,
    cells.filter((cell) => nodes.board.hasCandidate(cell, digit)),
  )
}
