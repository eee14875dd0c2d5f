import type { Candidate } from '../../grid/board.js'
import { digitCount, digitsOf } from '../../grid/digits.js'
import { cellsAt, factsOf } from '../facts.js'
import { type LooseSet, looseSets } from './almost-locked.js'
import type { LinkGraph, StrongReason } from './graph.js'
import { isPart, partings } from './house-ties.js'

/**
 * A chain against one candidate some of whose strong links hold only because the candidate rules out what else their
 * cell or house could take: the fins. As with a finned fish, every fin must see the candidate.
 */
export interface FinnedChain {
  readonly target: Candidate
  /** As in a plain chain: pairs joined by strong links. */
  readonly nodes: readonly number[]
  /** For each strong link: what it rests on, and the nodes that would spoil it. */
  readonly strong: readonly FinnedLink[]
}

export interface FinnedLink {
  readonly reason: StrongReason
  readonly fins: readonly number[]
}

/**
 * Chains against candidates, as in the plain search, over the graph's strong links and those that a candidate makes:
 * each candidate has links of its own, worked out when it is tried.
 */
export class FinnedSearch {
  private readonly graph: LinkGraph
  /** Nodes of the graph itself; what a candidate's own links add comes after them. */
  private readonly plainNodes: number
  private ownLinks: OwnLink[] = []
  private ownOf = new Map<number, number[]>()
  private readonly on = new Map<number, { from: number; link: FinnedLink; depth: number }>()
  private readonly failedBy = new Map<number, number>()
  private last = -1
  private readonly loose: { set: LooseSet; places: number }[][] = []

  constructor(graph: LinkGraph) {
    this.graph = graph
    this.plainNodes = graph.strongStart.length - 1
  }

  /** A shortest chain of `most` strong links or fewer against the candidate. */
  run(target: Candidate, most: number): FinnedChain | undefined {
    const { graph, on, failedBy } = this
    const { nodes, strongStart, strongTo, strongBy, reasons } = graph
    const goal = nodes.candidate(target.cell, target.digit)
    this.makeOwnLinks(target)
    on.clear()
    failedBy.clear()
    const queue = [goal]
    const depthOf = (node: number) => (node === goal ? 0 : on.get(node)!.depth)
    const follow = (fails: number, node: number, link: FinnedLink, depth: number): boolean => {
      if (node === goal || on.has(node)) return false
      on.set(node, { from: fails, link, depth })
      queue.push(node)
      this.last = node
      return graph.areWeaklyLinked(node, goal)
    }
    const fail = (fails: number, holds: number, depth: number): boolean => {
      if (failedBy.has(fails)) return false
      failedBy.set(fails, holds)
      if (fails < this.plainNodes) {
        for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
          const link = { reason: reasons[strongBy[k]!]!, fins: [] }
          if (follow(fails, strongTo[k]!, link, depth)) return true
        }
      }
      for (const index of this.ownOf.get(fails) ?? []) {
        const own = this.ownLinks[index]!
        if (follow(fails, own.one === fails ? own.other : own.one, own.link, depth)) return true
      }
      return false
    }
    for (const holds of queue) {
      const depth = depthOf(holds) + 1
      if (depth > most) return undefined
      for (const fails of graph.weakTo(holds)) if (fail(fails, holds, depth)) return this.chain(target, goal)
      for (const fails of this.ownOf.keys()) {
        if (graph.areWeaklyLinked(fails, holds) && fail(fails, holds, depth)) return this.chain(target, goal)
      }
    }
    return undefined
  }

  private chain(target: Candidate, goal: number): FinnedChain {
    const nodes: number[] = []
    const strong: FinnedLink[] = []
    for (let node = this.last; node !== goal; ) {
      const { from, link } = this.on.get(node)!
      nodes.push(node, from)
      strong.push(link)
      node = this.failedBy.get(from)!
    }
    return { target, nodes: nodes.reverse(), strong: strong.reverse() }
  }

  private makeOwnLinks(target: Candidate): void {
    this.ownLinks = []
    this.ownOf = new Map()
    this.linkCells(target)
    this.linkHouses(target)
    this.linkSets(target)
  }

  private add(one: number, other: number, link: FinnedLink): void {
    const index = this.ownLinks.length
    this.ownLinks.push({ one, other, link })
    for (const end of [one, other]) {
      const list = this.ownOf.get(end)
      if (list) list.push(index)
      else this.ownOf.set(end, [index])
    }
  }

  /** Cells with three candidates that lose one of them to the target. */
  private linkCells({ cell: from, digit }: Candidate): void {
    const { nodes } = this.graph
    const { candidates, geometry } = nodes.board
    const bit = 1 << (digit - 1)
    for (const cell of geometry.peersOf[from]!) {
      const set = candidates[cell]!
      if ((set & bit) === 0 || digitCount(set) !== 3) continue
      const rest = set ^ bit
      this.add(
        nodes.candidate(cell, 32 - Math.clz32(rest & -rest)),
        nodes.candidate(cell, 32 - Math.clz32(rest)),
        {
          reason: { kind: 'cell', cell },
          fins: [nodes.candidate(cell, digit)],
        },
      )
    }
  }

  /** Sets that lose a digit to the target and are almost locked then. */
  private linkSets(target: Candidate): void {
    const { nodes } = this.graph
    const goal = nodes.candidate(target.cell, target.digit)
    for (const { set, places } of this.looseWith(target.digit)) {
      if (!nodes.sees(goal, places)) continue
      const rest = digitsOf(set.digits & ~(1 << (target.digit - 1)))
      const ends = rest.map((digit) =>
        nodes.of(
          digit,
          set.cells.filter((cell) => nodes.board.hasCandidate(cell, digit)),
        ),
      )
      const link: FinnedLink = { reason: { kind: 'set', cells: set.cells }, fins: [places] }
      ends.forEach((one, i) => {
        for (const other of ends.slice(i + 1)) this.add(one, other, link)
      })
    }
  }

  /** The loose sets that have a digit, with the node of its places there. */
  private looseWith(digit: number): { set: LooseSet; places: number }[] {
    let list = this.loose[digit]
    if (!list) {
      const { nodes } = this.graph
      const bit = 1 << (digit - 1)
      list = looseSets(nodes.board)
        .filter(({ digits }) => digits & bit)
        .map((set) => ({
          set,
          places: nodes.of(
            digit,
            set.cells.filter((cell) => nodes.board.candidates[cell]! & bit),
          ),
        }))
      this.loose[digit] = list
    }
    return list
  }

  /** Houses that lose places for a digit to the target: for its own digit where it sees them, for others its cell. */
  private linkHouses(target: Candidate): void {
    const { board } = this.graph.nodes
    const { geometry } = board
    const { places } = factsOf(board)
    for (const { index: house, cells } of geometry.houses) {
      const position = geometry.positionIn(house, target.cell)
      if (position >= 0) {
        for (let rest = board.candidates[target.cell]!; rest !== 0; rest &= rest - 1) {
          const digit = 32 - Math.clz32(rest & -rest)
          if (digit === target.digit) continue
          this.linkParts(house, digit, places[house * geometry.order + digit - 1]!, 1 << position)
        }
      } else {
        const all = places[house * geometry.order + target.digit - 1]!
        let seen = 0
        for (let i = 0; i < cells.length; i++) {
          if (all & (1 << i) && geometry.arePeers(cells[i]!, target.cell)) seen |= 1 << i
        }
        if (seen !== 0) this.linkParts(house, target.digit, all, seen)
      }
    }
  }

  /** Links between the places of a house that are left when the fins are gone. */
  private linkParts(house: number, digit: number, all: number, fins: number): void {
    const { nodes } = this.graph
    const { geometry } = nodes.board
    const left = all & ~fins
    if (left === 0 || digitCount(all) < 3) return
    const node = (places: number) => nodes.of(digit, cellsAt(geometry, house, places))
    const reason: StrongReason = { kind: 'house', house, digit }
    // all that is left at one end: the fins themselves are the other
    if (isPart(geometry, house, left)) this.add(node(left), node(fins), { reason, fins: [] })
    if (digitCount(left) < 2) return
    for (const part of partings(geometry, house, left)) {
      this.add(node(part), node(left ^ part), { reason, fins: [node(fins)] })
    }
  }
}

interface OwnLink {
  readonly one: number
  readonly other: number
  readonly link: FinnedLink
}
