import { digitBit, digitCount, digitsOf, firstDigit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { cellsAt, factsOf } from '../facts.js'
import { zeros } from '../number-lists.js'
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
  /** Ends of ties: `ends[from[tie]]` to `ends[to[tie] - 1]`, and the fin may be among them. Ties of one set share them. */
  readonly ends: number[] = []
  readonly from: number[] = []
  readonly to: number[] = []
  /** candidate, as a node -> the ties that hold when it does, in lists that candidates share. */
  readonly ofTarget: (readonly number[])[][] = []
  /** The candidates, and the other nodes that have links, of the graph or finned ones. */
  readonly linked: readonly number[]
  /** node of one cell's or set's fin -> the ties that it would spoil. */
  private readonly spoiltBy: number[][] = []
  /** node -> is it an end of any tie? */
  private readonly isEnd: number[]
  /** The nodes that are ends of such links only, not of the graph's. */
  private readonly ownEnds: Sight
  private readonly weak: (readonly number[] | undefined)[]

  constructor(graph: LinkGraph) {
    this.graph = graph
    const { nodes } = graph
    const plainSize = graph.strongStart.length - 1
    for (let target = 0; target < nodes.candidates; target++) this.ofTarget.push([])
    this.addCells()
    this.addHouses()
    const sets = looseSets(nodes.board)
    for (let i = 0; i < sets.length; i++) this.addSet(sets[i]!)
    this.shareSpoilt()
    this.isEnd = zeros(nodes.size)
    for (let i = 0; i < this.ends.length; i++) this.isEnd[this.ends[i]!] = 1
    const own: number[] = []
    const linked: number[] = []
    for (let node = 0; node < nodes.size; node++) {
      const isPlain = node < plainSize && graph.strongStart[node + 1]! > graph.strongStart[node]!
      if (!isPlain && this.isEnd[node]) own.push(node)
      if (isPlain || this.isEnd[node] || node < nodes.candidates) linked.push(node)
    }
    this.linked = linked
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
    const { nodes, strongStart } = this.graph
    const plain = this.graph.weakTo(node)
    const own = this.ownEnds.seenBy(node)
    const cells = nodes.cells[node]!
    if (cells.length === 1) {
      const digits = nodes.board.candidates[cells[0]!]! & ~digitBit(nodes.digit[node]!)
      for (let rest = digits; rest !== 0; rest &= rest - 1) {
        const other = nodes.candidate(cells[0]!, firstDigit(rest))
        if (this.isEnd[other] && strongStart[other] === strongStart[other + 1]) own.push(other)
      }
    }
    const found = own.length === 0 ? plain : [...plain, ...own]
    this.weak[node] = found
    return found
  }

  /** Ties the latest of the ends, of which there are so many, but for the fin. */
  private add(reason: StrongReason, fin: number, count: number): number {
    this.from.push(this.ends.length - count)
    this.to.push(this.ends.length)
    this.reasons.push(reason)
    return this.fin.push(fin) - 1
  }

  /** Ties these nodes: when one is ruled out, all the others but for one. */
  private addSpoilt(reason: StrongReason, nodes: readonly number[]): void {
    for (let i = 0; i < nodes.length; i++) this.ends.push(nodes[i]!)
    for (let i = 0; i < nodes.length; i++) {
      const tie = this.add(reason, nodes[i]!, nodes.length)
      const ties = this.spoiltBy[nodes[i]!]
      if (ties) ties.push(tie)
      else this.spoiltBy[nodes[i]!] = [tie]
    }
  }

  /** Cells with three candidates, one of which the target rules out. */
  private addCells(): void {
    const { nodes } = this.graph
    const { openCells } = factsOf(nodes.board)
    for (let i = 0; i < openCells.length; i++) {
      const cell = openCells[i]!
      const digits = nodes.board.candidates[cell]!
      if (digitCount(digits) !== 3) continue
      this.addSpoilt(
        { kind: 'cell', cell },
        digitsOf(digits).map((digit) => nodes.candidate(cell, digit)),
      )
    }
  }

  /** Houses that lose places to the target: for its own digit where it sees them, for others its cell. */
  private addHouses(): void {
    const { board } = this.graph.nodes
    const { order, houses } = board.geometry
    const facts = factsOf(board)
    for (let house = 0; house < houses.length; house++) {
      for (let digit = 1; digit <= order; digit++) {
        const all = facts.places[house * order + digit - 1]!
        if (digitCount(all) > 2) this.addHouse(house, digit, all, facts.cellsWith(digit))
      }
    }
  }

  private addHouse(house: number, digit: number, all: number, holders: readonly number[]): void {
    const { nodes } = this.graph
    const { board } = nodes
    const { geometry } = board
    const { cells } = geometry.houses[house]!
    const seen = seenInHouses(geometry)
    /** Sets of places ruled out that were met, and the ties between what is left. */
    const met: number[] = []
    const ties: (readonly number[])[] = []
    for (let i = 0; i < holders.length; i++) {
      const cell = holders[i]!
      const position = geometry.positionIn(house, cell)
      const fins = position < 0 ? all & seen[cell * geometry.houses.length + house]! : 1 << position
      if (fins === 0 || fins === all) continue
      let at = met.indexOf(fins)
      if (at < 0) {
        at = met.push(fins) - 1
        ties.push(this.partTies(house, digit, all, fins))
      }
      if (ties[at]!.length === 0) continue
      if (position < 0) {
        this.ofTarget[nodes.candidate(cell, digit)]!.push(ties[at]!)
        continue
      }
      for (let rest = board.candidates[cell]! & ~digitBit(digit); rest !== 0; rest &= rest - 1)
        this.ofTarget[nodes.candidate(cells[position]!, firstDigit(rest))]!.push(ties[at]!)
    }
  }

  /** Ties between the places that a house has left when the fins are gone. */
  private partTies(house: number, digit: number, all: number, fins: number): number[] {
    const { geometry } = this.graph.nodes.board
    const left = all & ~fins
    const ties: number[] = []
    const reason: StrongReason = { kind: 'house', house, digit }
    // all that is left at one end: the places ruled out are the other, and nothing spoils the link
    if (isPart(geometry, house, left)) this.addParts(reason, 0, left, fins, ties)
    if ((left & (left - 1)) !== 0)
      for (const part of partings(geometry, house, left)) this.addParts(reason, fins, part, left ^ part, ties)
    return ties
  }

  private addParts(
    reason: StrongReason & { readonly kind: 'house' },
    fins: number,
    one: number,
    other: number,
    ties: number[],
  ): void {
    const { nodes } = this.graph
    const { house, digit } = reason
    const ones = cellsAt(nodes.board.geometry, house, one)
    const others = cellsAt(nodes.board.geometry, house, other)
    if (!nodes.isSeen(digit, ones) || !nodes.isSeen(digit, others)) return
    const fin = fins === 0 ? -1 : nodes.of(digit, cellsAt(nodes.board.geometry, house, fins))
    this.ends.push(nodes.of(digit, ones), nodes.of(digit, others))
    ties.push(this.add(reason, fin, 2))
  }

  /** A set of cells with a digit too many: one that the target rules out there. */
  private addSet({ cells, digits, places }: LooseSet): void {
    const { nodes } = this.graph
    const ends: number[] = []
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const digit = firstDigit(rest)
      if (nodes.isSeen(digit, places[i]!)) ends.push(nodes.of(digit, places[i]!))
    }
    // a fin and the two ends of a link
    if (ends.length > 2) this.addSpoilt({ kind: 'set', cells }, ends)
  }

  /** Gives every candidate the ties of the fins that it rules out. */
  private shareSpoilt(): void {
    const { nodes } = this.graph
    const { words, board } = nodes
    for (let fin = 0; fin < this.spoiltBy.length; fin++) {
      const ties = this.spoiltBy[fin]
      if (!ties) continue
      const digit = nodes.digit[fin]!
      for (let w = 0; w < words; w++) {
        let seers = nodes.peers[fin * words + w]! & nodes.digitCells[(digit - 1) * words + w]!
        for (; seers !== 0; seers &= seers - 1)
          this.ofTarget[nodes.candidate(w * 32 + 31 - Math.clz32(seers & -seers), digit)]!.push(ties)
      }
      if (nodes.cells[fin]!.length > 1) continue
      const cell = nodes.cells[fin]![0]!
      for (let rest = board.candidates[cell]! & ~digitBit(digit); rest !== 0; rest &= rest - 1)
        this.ofTarget[nodes.candidate(cell, firstDigit(rest))]!.push(ties)
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
