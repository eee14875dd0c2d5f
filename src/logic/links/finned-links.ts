import { digitCount, digitsOf } from '../../grid/digits.js'
import { cellsAt, factsOf } from '../facts.js'
import { looseSets } from './almost-locked.js'
import type { LinkGraph, StrongReason } from './graph.js'
import { isPart, partings } from './house-ties.js'

/** What a strong link rests on, and the nodes that would spoil it: none for a plain one. */
export interface FinnedLink {
  readonly reason: StrongReason
  readonly fins: readonly number[]
}

/**
 * The strong links that hold when a certain candidate does: a cell, a house or a set of cells with one digit or place too
 * many for a plain link, the surplus (the fins) seen by the candidate. Made anew for each candidate.
 */
export class FinnedLinks {
  /** Ends and grounds of the links made for the latest candidate. */
  readonly one: number[] = []
  readonly other: number[] = []
  readonly links: FinnedLink[] = []
  /** digit -> nodes that are ends of links. */
  readonly endsByDigit: number[][]
  private readonly graph: LinkGraph
  private readonly looseByDigit: Loose[][] = []
  /** node -> latest link made at it, -1 when there is none; `next` leads on: link * 2 (+ 1 at the other end). */
  private first: Int32Array
  private readonly next: number[] = []

  constructor(graph: LinkGraph) {
    this.graph = graph
    this.first = new Int32Array(graph.nodes.size * 2).fill(-1)
    this.endsByDigit = Array.from({ length: graph.nodes.board.geometry.order + 1 }, () => [])
  }

  /** Makes the links of a candidate, given as a node. */
  makeFor(target: number): void {
    for (const ends of this.endsByDigit) {
      for (const node of ends) this.first[node] = -1
      ends.length = 0
    }
    this.one.length = 0
    this.other.length = 0
    this.links.length = 0
    this.next.length = 0
    const { nodes } = this.graph
    const cell = nodes.cells[target]![0]!
    const digit = nodes.digit[target]!
    this.fromCells(cell, digit)
    this.fromHouses(cell, digit)
    this.fromSets(target, digit)
  }

  isEnd(node: number): boolean {
    return node < this.first.length && this.first[node]! >= 0
  }

  /** Calls back with each link of a node and its other end until told to stop. */
  someAt(node: number, visit: (other: number, link: number) => boolean): boolean {
    if (node >= this.first.length) return false
    for (let at = this.first[node]!; at >= 0; at = this.next[at]!) {
      const link = at >> 1
      if (visit(at & 1 ? this.one[link]! : this.other[link]!, link)) return true
    }
    return false
  }

  private add(one: number, other: number, link: FinnedLink): void {
    const index = this.links.length
    this.one.push(one)
    this.other.push(other)
    this.links.push(link)
    this.attach(one, index * 2)
    this.attach(other, index * 2 + 1)
  }

  private attach(node: number, at: number): void {
    if (node >= this.first.length) {
      const longer = new Int32Array(node * 2).fill(-1)
      longer.set(this.first)
      this.first = longer
    }
    if (this.first[node]! < 0) this.endsByDigit[this.graph.nodes.digit[node]!]!.push(node)
    this.next[at] = this.first[node]!
    this.first[node] = at
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
      this.add(low, high, { reason: { kind: 'cell', cell }, fins: [nodes.candidate(cell, digit)] })
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
    const { nodes } = this.graph
    const { geometry } = nodes.board
    const left = all & ~fins
    if (left === 0 || digitCount(all) < 3) return
    const node = (places: number) => nodes.of(digit, cellsAt(geometry, house, places))
    const reason: StrongReason = { kind: 'house', house, digit }
    // all that is left at one end: the places ruled out are the other, and nothing spoils the link
    if (isPart(geometry, house, left)) this.add(node(left), node(fins), { reason, fins: [] })
    if ((left & (left - 1)) === 0) return
    const parts = partings(geometry, house, left)
    if (parts.length === 0) return
    const spoilers = [node(fins)]
    for (const part of parts) this.add(node(part), node(left ^ part), { reason, fins: spoilers })
  }

  /** Sets of cells with a digit too many, which the target rules out there. */
  private fromSets(target: number, digit: number): void {
    const { nodes } = this.graph
    for (const { link, ends } of this.looseWith(digit)) {
      if (!nodes.sees(target, link.fins[0]!)) continue
      for (let i = 0; i < ends.length; i++)
        for (let j = i + 1; j < ends.length; j++) this.add(ends[i]!, ends[j]!, link)
    }
  }

  private looseWith(digit: number): readonly Loose[] {
    let list = this.looseByDigit[digit]
    if (!list) {
      const { nodes } = this.graph
      const { board } = nodes
      const placesIn = (cells: readonly number[], d: number) =>
        nodes.of(
          d,
          cells.filter((cell) => board.hasCandidate(cell, d)),
        )
      list = []
      for (const { cells, digits } of looseSets(board)) {
        if ((digits & (1 << (digit - 1))) === 0) continue
        list.push({
          link: { reason: { kind: 'set', cells }, fins: [placesIn(cells, digit)] },
          ends: digitsOf(digits)
            .filter((other) => other !== digit)
            .map((other) => placesIn(cells, other)),
        })
      }
      this.looseByDigit[digit] = list
    }
    return list
  }
}

/** A loose set without one of its digits: the link it gives then, and the nodes of its other digits. */
interface Loose {
  readonly link: FinnedLink
  readonly ends: readonly number[]
}
