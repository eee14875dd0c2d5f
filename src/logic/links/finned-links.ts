import { digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { cellsAt, factsOf } from '../facts.js'
import { type LooseSet, looseSets } from './almost-locked.js'
import type { LinkGraph, StrongReason } from './graph.js'
import { isPart, partings } from './house-ties.js'
import { Sight } from './sight.js'

/** What a strong link rests on, and the nodes that would spoil it: none for a plain one. */
export interface FinnedLink {
  readonly reason: StrongReason
  readonly fins: readonly number[]
}

/**
 * The strong links that hold when a certain candidate does: a cell, a house or a set of cells with one digit or place too
 * many for a plain link, the surplus (the fins) seen by the candidate. Those of all candidates are made at once, since many
 * share them; each candidate knows which are its own. As in the graph, an end that no candidate sees is left out.
 *
 * A tie is such a link with the nodes it ties: when one of them fails, all the others hold, but for the fin.
 */
export class FinnedLinks {
  private readonly graph: LinkGraph
  private readonly reasons: StrongReason[] = []
  /** tie -> the node of its fins, -1 for none. */
  readonly fin: number[] = []
  /** tie -> its ends, and perhaps the fin. */
  readonly ends: (readonly number[])[] = []
  /** candidate, as a node -> the ties that hold when it does. */
  readonly ofTarget: number[][] = []
  /** By candidate of a cell with three: the tie between its two others. */
  private readonly byFin = new Map<number, number>()
  /** By house, digit and fins: the ties between what is left. */
  private readonly byParts = new Map<number, readonly number[]>()
  /** node -> is it an end of any tie? */
  private readonly isEnd: Uint8Array
  /** The nodes that are ends of such links only, not of the graph's. */
  private readonly ownEnds: Sight
  private readonly weak: (readonly number[] | undefined)[]

  constructor(graph: LinkGraph) {
    this.graph = graph
    const { nodes } = graph
    const plainSize = graph.strongStart.length - 1
    for (const target of nodes.candidateNode) {
      if (target < 0) continue
      this.ofTarget[target] = []
      this.addCells(target)
      this.addHouses(target)
    }
    for (const set of looseSets(nodes.board)) this.addSet(set)
    this.isEnd = new Uint8Array(nodes.size)
    for (const ends of this.ends) for (let i = 0; i < ends.length; i++) this.isEnd[ends[i]!] = 1
    const own: number[] = []
    for (let node = 0; node < nodes.size; node++) {
      const isPlain = node < plainSize && graph.strongStart[node + 1]! > graph.strongStart[node]!
      if (!isPlain && this.isEnd[node]) own.push(node)
    }
    this.ownEnds = new Sight(nodes, own)
    this.weak = new Array(nodes.size)
  }

  linkOf(tie: number): FinnedLink {
    const fin = this.fin[tie]!
    return { reason: this.reasons[tie]!, fins: fin < 0 ? [] : [fin] }
  }

  /** Nodes with links, of the graph or finned ones, that cannot hold when this one does. */
  weakTo(node: number): readonly number[] {
    const known = this.weak[node]
    if (known) return known
    const { nodes } = this.graph
    const found = [...this.graph.weakTo(node), ...this.ownEnds.seenBy(node)]
    const cells = nodes.cells[node]!
    if (cells.length === 1) {
      for (let digit = 1; digit <= nodes.board.geometry.order; digit++) {
        const other = nodes.candidate(cells[0]!, digit)
        if (other >= 0 && other !== node && this.isEnd[other] && !found.includes(other)) found.push(other)
      }
    }
    this.weak[node] = found
    return found
  }

  private add(reason: StrongReason, fin: number, ends: readonly number[]): number {
    this.reasons.push(reason)
    this.fin.push(fin)
    return this.ends.push(ends) - 1
  }

  /** Cells with three candidates, one of which the target rules out. */
  private addCells(target: number): void {
    const { nodes } = this.graph
    const { candidates, geometry } = nodes.board
    const digit = nodes.digit[target]!
    const bit = 1 << (digit - 1)
    for (const cell of geometry.peersOf[nodes.cells[target]![0]!]!) {
      const set = candidates[cell]!
      if ((set & bit) === 0 || digitCount(set) !== 3) continue
      const fin = nodes.candidate(cell, digit)
      let tie = this.byFin.get(fin)
      if (tie === undefined) {
        const rest = set ^ bit
        const ends = [
          nodes.candidate(cell, 32 - Math.clz32(rest & -rest)),
          nodes.candidate(cell, 32 - Math.clz32(rest)),
        ]
        tie = this.add({ kind: 'cell', cell }, fin, ends)
        this.byFin.set(fin, tie)
      }
      this.ofTarget[target]!.push(tie)
    }
  }

  /** Houses that lose places to the target: for its own digit where it sees them, for others its cell. */
  private addHouses(target: number): void {
    const { nodes } = this.graph
    const { board } = nodes
    const { geometry } = board
    const { order } = geometry
    const { places } = factsOf(board)
    const own = nodes.cells[target]![0]!
    const digit = nodes.digit[target]!
    const houseCount = geometry.houses.length
    const seen = seenInHouses(geometry)
    for (let house = 0; house < houseCount; house++) {
      const position = geometry.positionIn(house, own)
      if (position >= 0) {
        for (let rest = board.candidates[own]!; rest !== 0; rest &= rest - 1) {
          const other = 32 - Math.clz32(rest & -rest)
          if (other !== digit)
            this.addParts(target, house, other, places[house * order + other - 1]!, 1 << position)
        }
        continue
      }
      const all = places[house * order + digit - 1]!
      const fins = all & seen[own * houseCount + house]!
      if (fins !== 0) this.addParts(target, house, digit, all, fins)
    }
  }

  /** Links between the places that a house has left when the fins are gone. */
  private addParts(target: number, house: number, digit: number, all: number, fins: number): void {
    const more = all & (all - 1)
    if (all === fins || (more & (more - 1)) === 0) return
    const { order } = this.graph.nodes.board.geometry
    const key = ((house * order + digit - 1) << order) | fins
    let ties = this.byParts.get(key)
    if (!ties) {
      ties = this.makePartTies(house, digit, all, fins)
      this.byParts.set(key, ties)
    }
    const list = this.ofTarget[target]!
    for (let i = 0; i < ties.length; i++) list.push(ties[i]!)
  }

  private makePartTies(house: number, digit: number, all: number, fins: number): number[] {
    const { nodes } = this.graph
    const { geometry } = nodes.board
    const left = all & ~fins
    const ties: number[] = []
    const reason: StrongReason = { kind: 'house', house, digit }
    const finNode = nodes.of(digit, cellsAt(geometry, house, fins))
    const tie = (fin: number, one: number, other: number) => {
      const [ones, others] = [cellsAt(geometry, house, one), cellsAt(geometry, house, other)]
      if (!nodes.isSeen(digit, ones) || !nodes.isSeen(digit, others)) return
      ties.push(this.add(reason, fin, [nodes.of(digit, ones), nodes.of(digit, others)]))
    }
    // all that is left at one end: the places ruled out are the other, and nothing spoils the link
    if (isPart(geometry, house, left)) tie(-1, left, fins)
    if ((left & (left - 1)) !== 0)
      for (const part of partings(geometry, house, left)) tie(finNode, part, left ^ part)
    return ties
  }

  /** A set of cells with a digit too many: one that the target rules out there. */
  private addSet({ cells, digits, places }: LooseSet): void {
    const { nodes } = this.graph
    const { words, board } = nodes
    const ends: number[] = []
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const digit = 32 - Math.clz32(rest & -rest)
      if (nodes.isSeen(digit, places[i]!)) ends.push(nodes.of(digit, places[i]!))
    }
    // a fin and the two ends of a link
    if (ends.length < 3) return
    const reason: StrongReason = { kind: 'set', cells }
    for (const fin of ends) {
      const tie = this.add(reason, fin, ends)
      const digit = nodes.digit[fin]!
      for (let w = 0; w < words; w++) {
        let seers = nodes.peers[fin * words + w]! & nodes.digitCells[(digit - 1) * words + w]!
        for (; seers !== 0; seers &= seers - 1)
          this.ofTarget[nodes.candidate(w * 32 + 31 - Math.clz32(seers & -seers), digit)]!.push(tie)
      }
      if (nodes.cells[fin]!.length > 1) continue
      const cell = nodes.cells[fin]![0]!
      for (let rest = board.candidates[cell]! & ~(1 << (digit - 1)); rest !== 0; rest &= rest - 1)
        this.ofTarget[nodes.candidate(cell, 32 - Math.clz32(rest & -rest))]!.push(tie)
    }
  }
}

const seenLists = new WeakMap<Geometry, readonly number[]>()

/** cell × houses + house -> the positions in the house that the cell sees. */
function seenInHouses(geometry: Geometry): readonly number[] {
  let seen = seenLists.get(geometry)
  if (!seen) {
    const { cellCount, houses } = geometry
    seen = Array.from({ length: cellCount }, (_, own) =>
      houses.map(({ cells }) =>
        cells.reduce((set, cell, i) => (geometry.arePeers(cell, own) ? set | (1 << i) : set), 0),
      ),
    ).flat()
    seenLists.set(geometry, seen)
  }
  return seen
}
