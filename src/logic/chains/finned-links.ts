import { digitBit, digitCount, firstDigit, lowestBit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Task, Watch } from '../../limits.js'
import { type LooseSet, looseSets, prepareLoose } from '../sets/almost-locked.js'
import type { StrongReason } from './chain.js'
import type { LinkGraph } from './graph.js'
import { isPart, partCells, partings } from './house-ties.js'
import { Sight } from './sight.js'

/** What links are made of serves board after board: only the latest board's are asked about. */
class FinnedLists {
  readonly reasons: StrongReason[] = []
  readonly fin: number[] = []
  readonly ends: number[] = []
  readonly from: number[] = []
  readonly to: number[] = []
  readonly tieList: number[] = []
  readonly listFrom: number[] = []
  readonly listTo: number[] = []
  readonly targetFrom: number[] = []
  readonly targetLists: number[] = []
  readonly linked: number[] = []
  readonly weakStart: number[] = []
  readonly weakList: number[] = []
  // What only matters while they are made: two numbers a pair, a target and a list of ties, or a fin and a tie.
  readonly targetPairs: number[] = []
  readonly finPairs: number[] = []
  readonly finFrom: number[] = []
  readonly isEnd: number[] = []
  readonly ownEnds: number[] = []
  readonly ownSight = new Sight()
  /** Sets of places ruled out in a house. */
  readonly met: number[] = []
}

const finnedLists = (): FinnedLists => new FinnedLists()

/**
 * The strong links that hold when a certain candidate does: a cell, a house or a set of cells with one digit or place
 * too many for a plain link, the surplus (the fins) seen by the candidate. Those of all candidates are made at once,
 * since many share them; each candidate knows which are its own. As in the graph, an end that no candidate sees is left
 * out.
 *
 * A tie is such a link with the nodes it ties: when one of them fails, all the others hold, but for the fin.
 */
export class FinnedLinks {
  private readonly graph: LinkGraph
  private readonly own: FinnedLists
  /** tie -> what it rests on, and the node of its fins, -1 for none. */
  readonly reasons: readonly StrongReason[]
  readonly fin: readonly number[]
  /**
   * Ends of ties: `ends[from[tie]]` to `ends[to[tie] - 1]`, and the fin may be among them. Ties of one set share them.
   */
  readonly ends: readonly number[]
  readonly from: readonly number[]
  readonly to: readonly number[]
  /**
   * Lists of ties, which candidates share: `tieList[listFrom[list]]` to `tieList[listTo[list] - 1]`. The lists of those
   * that hold when a candidate, as a node, does: `targetLists[targetFrom[node]]` to `targetLists[targetFrom[node + 1] -
   * 1]`.
   */
  readonly tieList: readonly number[]
  readonly listFrom: readonly number[]
  readonly listTo: readonly number[]
  readonly targetFrom: readonly number[]
  readonly targetLists: readonly number[]
  /** The candidates, and the other nodes that have links, of the graph or finned ones; and how many they are. */
  readonly linked: readonly number[]
  linkedCount = 0
  /**
   * Of these nodes, those that cannot hold when node n does: `weakList[weakStart[n]]` to `weakList[weakStart[n + 1] -
   * 1]`.
   */
  readonly weakStart: readonly number[]
  readonly weakList: readonly number[]
  /** How many ends and ties there are. */
  endCount = 0
  ties = 0
  private lists = 0
  /** How many ties are in lists. */
  private listed = 0
  private targets = 0
  private fins = 0

  private constructor(graph: LinkGraph) {
    const own = graph.nodes.facts.context.of(finnedLists)
    this.graph = graph
    this.own = own
    this.reasons = own.reasons
    this.fin = own.fin
    this.ends = own.ends
    this.from = own.from
    this.to = own.to
    this.tieList = own.tieList
    this.listFrom = own.listFrom
    this.listTo = own.listTo
    this.targetFrom = own.targetFrom
    this.targetLists = own.targetLists
    this.linked = own.linked
    this.weakStart = own.weakStart
    this.weakList = own.weakList
  }

  /** The links of a graph's board; on a large one they take some tenths of a second. */
  static *of(graph: LinkGraph, watch: Watch): Task<FinnedLinks> {
    const { board, facts } = graph.nodes
    if (watch.isTimed) yield* prepareLoose(facts, watch)
    const links = new FinnedLinks(graph)
    links.addCells()
    const { houses } = layoutOf(board.geometry)
    for (let house = 0; house < houses.length; house++) {
      if (watch.isDue(watch.read())) yield
      links.addHouse(house)
    }
    const sets = looseSets(facts)
    for (let i = 0; i < sets.length; i++) {
      if (i % SETS_A_LOOK === 0 && watch.isDue(watch.read())) yield
      links.addSet(sets[i]!)
    }
    if (watch.isDue(watch.read())) yield
    links.shareSpoilt()
    if (watch.isDue(watch.read())) yield
    links.sortTargets()
    if (watch.isDue(watch.read())) yield
    links.linkedCount = links.linkEnds()
    return links
  }

  /** The nodes that would spoil a tie. */
  finsOf(tie: number): readonly number[] {
    return this.fin[tie]! < 0 ? [] : [this.fin[tie]!]
  }

  /** Which nodes have links, and which of them see each other: those of the graph first. */
  private linkEnds(): number {
    const { isEnd, ends, ownEnds, linked, ownSight, weakStart, weakList } = this.own
    const { graph } = this
    const { nodes } = graph
    for (let node = 0; node < nodes.size; node++) isEnd[node] = 0
    for (let i = 0; i < this.endCount; i++) isEnd[ends[i]!] = 1
    let own = 0
    let count = 0
    for (let node = 0; node < nodes.size; node++) {
      const isPlain = graph.isLinked(node)
      if (!isPlain && isEnd[node]) ownEnds[own++] = node
      if (isPlain || isEnd[node] || node < nodes.candidates) linked[count++] = node
    }
    ownSight.take(nodes, ownEnds, own)
    let weak = 0
    let next = 0
    for (let node = 0; node < nodes.size; node++) {
      weakStart[node] = weak
      if (next === count || linked[next] !== node) continue
      next++
      if (graph.isLinked(node))
        for (let k = graph.weakStart[node]!; k < graph.weakStart[node + 1]!; k++)
          weakList[weak++] = graph.weakList[k]!
      else weak = graph.addWeak(node, weakList, weak)
      weak = ownSight.addSeen(node, weakList, weak)
      const cells = nodes.cells[node]!
      if (cells.length > 1) continue
      const others = nodes.board.candidates[cells[0]!]! & ~digitBit(nodes.digit[node]!)
      for (let rest = others; rest !== 0; rest &= rest - 1) {
        const other = nodes.candidate(cells[0]!, firstDigit(rest))
        if (isEnd[other] && !graph.isLinked(other)) weakList[weak++] = other
      }
    }
    weakStart[nodes.size] = weak
    return count
  }

  /** Ties the latest of the ends, of which there are so many, but for the fin. */
  private add(reason: StrongReason, spoiler: number, count: number): number {
    const { from, to, reasons, fin } = this.own
    from[this.ties] = this.endCount - count
    to[this.ties] = this.endCount
    reasons[this.ties] = reason
    fin[this.ties] = spoiler
    return this.ties++
  }

  /** Ties the latest of the ends, of which there are so many: when one is ruled out, all the others but for one. */
  private addSpoilt(reason: StrongReason, count: number): void {
    const { finPairs, ends } = this.own
    for (let i = this.endCount - count; i < this.endCount; i++) {
      finPairs[this.fins++] = ends[i]!
      finPairs[this.fins++] = this.add(reason, ends[i]!, count)
    }
  }

  /** Cells with three candidates, one of which the target rules out. */
  private addCells(): void {
    const { ends } = this.own
    const { nodes } = this.graph
    const { openCells } = nodes.facts
    for (let i = 0; i < openCells.length; i++) {
      const cell = openCells[i]!
      const digits = nodes.board.candidates[cell]!
      if (digitCount(digits) !== 3) continue
      for (let rest = digits; rest !== 0; rest &= rest - 1)
        ends[this.endCount++] = nodes.candidate(cell, firstDigit(rest))
      this.addSpoilt({ kind: 'cell', cell }, 3)
    }
  }

  /** A house that loses places to the target: for its own digit where it sees them, for others its cell. */
  private addHouse(house: number): void {
    const { board, facts } = this.graph.nodes
    const { order } = board.geometry
    for (let digit = 1; digit <= order; digit++) {
      const all = facts.places[house * order + digit - 1]!
      if (digitCount(all) > 2) this.addPlaces(house, digit, all, facts.cellsWith(digit))
    }
  }

  private addPlaces(house: number, digit: number, all: number, holders: readonly number[]): void {
    const { met, listFrom, listTo } = this.own
    const { nodes } = this.graph
    const { board } = nodes
    const { geometry } = board
    const layout = layoutOf(geometry)
    const { cells } = layout.houses[house]!
    const seen = seenInHouses(geometry)
    const firstList = this.lists
    const reason: StrongReason = { kind: 'house', house, digit }
    /** How many sets of places ruled out were met, each with a list of the ties between what is left. */
    let sets = 0
    for (let i = 0; i < holders.length; i++) {
      const cell = holders[i]!
      const position = layout.positionIn(house, cell)
      const fins = position < 0 ? all & seen[cell * layout.houses.length + house]! : 1 << position
      if (fins === 0 || fins === all) continue
      let at = 0
      while (at < sets && met[at] !== fins) at++
      const list = firstList + at
      if (at === sets) {
        met[sets++] = fins
        this.addPartTies(reason, all, fins)
      }
      if (listFrom[list] === listTo[list]) continue
      if (position < 0) {
        this.giveList(nodes.candidate(cell, digit), list)
        continue
      }
      for (let rest = board.candidates[cell]! & ~digitBit(digit); rest !== 0; rest &= rest - 1)
        this.giveList(nodes.candidate(cells[position]!, firstDigit(rest)), list)
    }
  }

  /** A list of the ties between the places that a house has left when the fins are gone. */
  private addPartTies(reason: StrongReason & { readonly kind: 'house' }, all: number, fins: number): void {
    const { listFrom, listTo } = this.own
    const { geometry } = this.graph.nodes.board
    const { house } = reason
    const left = all & ~fins
    listFrom[this.lists] = this.listed
    // all that is left at one end: the places ruled out are the other, and nothing spoils the link
    if (isPart(geometry, house, left)) this.addParts(reason, 0, left, fins)
    if ((left & (left - 1)) !== 0)
      for (const part of partings(geometry, house, left)) this.addParts(reason, fins, part, left ^ part)
    listTo[this.lists++] = this.listed
  }

  private addParts(
    reason: StrongReason & { readonly kind: 'house' },
    fins: number,
    one: number,
    other: number,
  ): void {
    const { ends, tieList } = this.own
    const { nodes } = this.graph
    const { geometry } = nodes.board
    const { house, digit } = reason
    const ones = partCells(geometry, house, one)
    const others = partCells(geometry, house, other)
    if (!nodes.isSeen(digit, ones) || !nodes.isSeen(digit, others)) return
    const spoiler = fins === 0 ? -1 : nodes.of(digit, partCells(geometry, house, fins))
    ends[this.endCount++] = nodes.of(digit, ones)
    ends[this.endCount++] = nodes.of(digit, others)
    tieList[this.listed++] = this.add(reason, spoiler, 2)
  }

  /** A set of cells with a digit too many: one that the target rules out there. */
  private addSet({ digits, places, reason }: LooseSet): void {
    const { ends } = this.own
    const { nodes } = this.graph
    const first = this.endCount
    for (let rest = digits, i = 0; rest !== 0; rest &= rest - 1, i++) {
      const digit = firstDigit(rest)
      if (nodes.isSeen(digit, places[i]!)) ends[this.endCount++] = nodes.of(digit, places[i]!)
    }
    // a fin and the two ends of a link
    if (this.endCount - first > 2) this.addSpoilt(reason, this.endCount - first)
    else this.endCount = first
  }

  private giveList(target: number, list: number): void {
    const { targetPairs } = this.own
    targetPairs[this.targets++] = target
    targetPairs[this.targets++] = list
  }

  /** Gives every candidate the ties of the fins that it rules out. */
  private shareSpoilt(): void {
    const { finPairs, finFrom, tieList, listFrom, listTo } = this.own
    const { nodes } = this.graph
    const { words, board } = nodes
    startsOf(finPairs, this.fins, nodes.size, finFrom)
    const before = this.listed
    for (let i = 0; i < this.fins; i += 2) tieList[this.listed++] = 0
    for (let i = 0; i < this.fins; i += 2) tieList[before + finFrom[finPairs[i]!]!++] = finPairs[i + 1]!
    // by now each fin's ties end where it says, and begin where the ties before end
    for (let node = 0, at = 0; node < nodes.size; node++) {
      if (finFrom[node] === at) continue
      const list = this.lists++
      listFrom[list] = before + at
      at = finFrom[node]!
      listTo[list] = before + at
      const digit = nodes.digit[node]!
      for (let w = 0; w < words; w++) {
        let seers = nodes.peers[node * words + w]! & nodes.digitCells[(digit - 1) * words + w]!
        for (; seers !== 0; seers &= seers - 1)
          this.giveList(nodes.candidate(w * 32 + lowestBit(seers), digit), list)
      }
      if (nodes.cells[node]!.length > 1) continue
      const cell = nodes.cells[node]![0]!
      for (let rest = board.candidates[cell]! & ~digitBit(digit); rest !== 0; rest &= rest - 1)
        this.giveList(nodes.candidate(cell, firstDigit(rest)), list)
    }
  }

  /** Sorts the lists by the candidates that they are given to. */
  private sortTargets(): void {
    const { targetPairs, targetFrom, targetLists } = this.own
    const { candidates } = this.graph.nodes
    startsOf(targetPairs, this.targets, candidates, targetFrom)
    for (let i = targetLists.length; 2 * i < this.targets; i++) targetLists[i] = 0
    for (let i = 0; i < this.targets; i += 2)
      targetLists[targetFrom[targetPairs[i]!]!++] = targetPairs[i + 1]!
    for (let target = candidates; target > 0; target--) targetFrom[target] = targetFrom[target - 1]!
    targetFrom[0] = 0
  }
}

/** Loose sets between two looks at the clock. */
const SETS_A_LOOK = 64

/** For each first number of pairs, where its pairs begin when they are sorted by it. */
function startsOf(pairs: readonly number[], length: number, count: number, starts: number[]): void {
  for (let i = 0; i <= count; i++) starts[i] = 0
  for (let i = 0; i < length; i += 2) starts[pairs[i]! + 1]!++
  for (let i = 0; i < count; i++) starts[i + 1]! += starts[i]!
}

/** cell × houses + house -> the positions in the house that the cell sees. */
const seenInHouses = perLayout(({ cellCount, houses, arePeers }): readonly number[] =>
  Array.from({ length: cellCount }, (_, own) =>
    houses.map(({ cells }) =>
      cells.reduce((set, cell, i) => (arePeers(cell, own) ? set | (1 << i) : set), 0),
    ),
  ).flat(),
)
