import type { Candidate, Conclusion } from '../../grid/board.js'
import { digitCount, digitSet } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { type Layout, layoutOf } from '../../grid/layout.js'
import { cellsAt } from '../facts/facts.js'
import { exclude } from '../proof/exclude.js'
import type { ChainNode, Pattern, Premise } from '../steps/step.js'
import type { LinkLists, StrongReason } from './chain.js'
import { ChainSearch } from './chain-search.js'
import { chainOf } from './chain-step.js'
import type { LinkKinds } from './graph.js'
import { isPart, partings } from './house-ties.js'

/** A strong link that premises give: one end or the other holds, unless one of the fins does. */
interface Tie {
  readonly ends: readonly [number, number]
  readonly reason: StrongReason
  readonly fins: readonly number[]
}

/**
 * How to explain a conclusion by the premises that it needs, where a chain was found that takes more: by the shortest
 * chain made of these premises alone, or else by the premises themselves.
 *
 * A chain as it was found can say more than its proof needs: two nodes on the way may rule each other out before its
 * end, and the candidate removed may spare a set some of its cells. What is left of the premises often makes another
 * chain, in which a link serves twice or has fins. If it makes none, several things met on the way have to be held
 * together.
 *
 * @param kinds which links the chain may have, as in a graph; fins where it may have sets
 * @param premises all of them needed, so that a chain made of them has them all
 * @param most strong links at most
 */
export function neededPattern(
  geometry: Geometry,
  kinds: LinkKinds,
  premises: readonly Premise[],
  conclusion: Conclusion,
  most: number,
): Pattern {
  const links = new PremiseLinks(geometry, kinds, premises, conclusion)
  return links.shortest(most, false) ?? links.shortest(most, true) ?? { shape: 'premises' }
}

/** What premises give for a chain: the denied conclusion is a node of its own, which sees what it rules out. */
class PremiseLinks {
  private readonly geometry: Geometry
  private readonly layout: Layout
  private readonly kinds: LinkKinds
  private readonly conclusion: Conclusion
  private readonly nodes: ChainNode[] = []
  private readonly nodeOf = new Map<string, number>()
  private readonly ties: Tie[] = []
  private seen: number[][] | undefined

  constructor(geometry: Geometry, kinds: LinkKinds, premises: readonly Premise[], conclusion: Conclusion) {
    const layout = layoutOf(geometry)
    this.geometry = geometry
    this.layout = layout
    this.kinds = kinds
    this.conclusion = conclusion
    const cells: CellPremise[] = []
    for (const premise of premises) {
      if (premise.kind === 'house') this.tieHouse(premise)
      else {
        cells.push(premise)
        this.tieCells([premise])
      }
    }
    if (!kinds.setsOf) return
    for (const { index } of layout.houses)
      this.tieSets(cells.filter(({ cell }) => layout.positionIn(index, cell) >= 0))
  }

  /** A shortest chain of `most` links or fewer, with fins where these are allowed. */
  shortest(most: number, finned: boolean): Pattern | undefined {
    const { nodes, geometry } = this
    if (finned && this.ties.every(({ fins }) => fins.length === 0)) return undefined
    const links = this.listed(finned ? this.ties : this.ties.filter(({ fins }) => fins.length === 0))
    const search = new ChainSearch(links)
    const target = nodes.length
    const limit = Math.min(most, links.nodeCount)
    const [placed] = this.conclusion.placements
    if (!placed) {
      if (search.run(target, limit) === 0) return undefined
      return chainOf(geometry, search.chain(), (node) => nodes[node]!, false)
    }
    const node = this.nodeOf.get(keyOf(placed.digit, [placed.cell]))
    if (node === undefined || this.conclusion.placements.length > 1) return undefined
    search.runFailing(node, limit, node)
    if (search.lengthTo(node) === 0) return undefined
    return chainOf(geometry, search.chainTo(node), (node) => nodes[node]!, false)
  }

  /** These ties and what sees what, as a search follows them; the denied conclusion comes last. */
  private listed(ties: readonly Tie[]): LinkLists {
    const { nodes } = this
    const size = nodes.length
    const strongTo: number[][] = nodes.map(() => [])
    const strongBy: number[][] = nodes.map(() => [])
    for (let by = 0; by < ties.length; by++) {
      const [one, other] = ties[by]!.ends
      strongTo[one]!.push(other)
      strongBy[one]!.push(by)
      strongTo[other]!.push(one)
      strongBy[other]!.push(by)
    }
    this.seen ??= this.whatSeesWhat()
    const { seen } = this
    return {
      nodeCount: size + 1,
      size,
      strongStart: startsOf(strongTo),
      strongTo: strongTo.flat(),
      strongBy: strongBy.flat(),
      weakStart: startsOf(seen),
      weakList: seen.flat(),
      reasons: ties.map(({ reason }) => reason),
      fins: ties.map(({ fins }) => fins),
      addWeak(node, into, from) {
        let at = from
        for (const other of seen[node]!) into[at++] = other
        return at
      },
      areWeaklyLinked: (one, other) => this.areWeaklyLinked(one, other),
    }
  }

  /** node -> the nodes weakly linked to it; last, those that the denied conclusion rules out. */
  private whatSeesWhat(): number[][] {
    const size = this.nodes.length
    const seen: number[][] = []
    for (let node = 0; node <= size; node++) {
      const others: number[] = []
      for (let other = 0; other < size; other++) if (this.areWeaklyLinked(node, other)) others.push(other)
      seen.push(others)
    }
    return seen
  }

  /** Does every candidate to be removed rule this one out? */
  private isRuledOut(candidate: Candidate): boolean {
    const { placements, removals } = this.conclusion
    return placements.length === 0 && removals.every((removal) => exclude(this.geometry, removal, candidate))
  }

  private areWeaklyLinked(a: number, b: number): boolean {
    const one = this.nodes[a]
    const other = this.nodes[b]
    if (!one || !other) return this.isDenied((one ?? other)!)
    if (one.digit !== other.digit)
      return one.cells.length === 1 && other.cells.length === 1 && one.cells[0] === other.cells[0]
    const { arePeers } = this.layout
    for (let i = 0; i < one.cells.length; i++)
      for (let j = 0; j < other.cells.length; j++) if (!arePeers(one.cells[i]!, other.cells[j]!)) return false
    return true
  }

  /** Does the denied conclusion rule this node out? */
  private isDenied({ digit, cells }: ChainNode): boolean {
    for (const cell of cells) if (!this.isRuledOut({ cell, digit })) return false
    return true
  }

  private node(digit: number, cells: readonly number[]): number {
    const key = keyOf(digit, cells)
    let node = this.nodeOf.get(key)
    if (node === undefined) {
      node = this.nodes.push({ digit, cells }) - 1
      this.nodeOf.set(key, node)
    }
    return node
  }

  private tie(one: ChainNode, other: ChainNode, reason: StrongReason, fins: readonly Candidate[]): void {
    this.ties.push({
      ends: [this.node(one.digit, one.cells), this.node(other.digit, other.cells)],
      reason,
      fins: fins.map(({ digit, cell }) => this.node(digit, [cell])),
    })
  }

  private tieHouse({ house, digit, cells }: Premise & { readonly kind: 'house' }): void {
    const { geometry } = this
    const reason = { kind: 'house', house, digit } as const
    const positions = (of: readonly number[]) =>
      of.reduce((set, cell) => set | (1 << this.layout.positionIn(house, cell)), 0)
    const finCells = cells.filter((cell) => this.isRuledOut({ cell, digit }))
    const all = positions(cells)
    const left = all & ~positions(finCells)
    const part = (own: number) => ({ digit, cells: cellsAt(geometry, house, own) })
    const tieParts = (places: number, fins: readonly Candidate[]) => {
      if (digitCount(places) > 2 && !this.kinds.groups) return
      for (const one of partings(geometry, house, places))
        this.tie(part(one), part(places ^ one), reason, fins)
    }
    tieParts(all, [])
    if (finCells.length === 0 || left === 0 || !this.kinds.setsOf) return
    // all that is left at one end, the places ruled out at the other: nothing spoils that link
    if (isPart(geometry, house, left)) this.tie(part(left), part(all ^ left), reason, [])
    tieParts(
      left,
      finCells.map((cell) => ({ cell, digit })),
    )
  }

  /** Links of the sets of two cells or more that these cells of one house make. */
  private tieSets(premises: readonly CellPremise[]): void {
    const own = premises.map(({ digits }) => digitSet(digits))
    const left = premises.map(({ cell, digits }) =>
      digitSet(digits.filter((digit) => !this.isRuledOut({ cell, digit }))),
    )
    // chosen premises, as a set -> their digits, and those without what the removal rules out
    const digitsOf = [0]
    const leftOf = [0]
    for (let chosen = 1; chosen < 1 << premises.length; chosen++) {
      const last = 31 - Math.clz32(chosen)
      const others = chosen ^ (1 << last)
      digitsOf.push(digitsOf[others]! | own[last]!)
      leftOf.push(leftOf[others]! | left[last]!)
      const size = digitCount(chosen)
      if (size === 1 || size > this.kinds.setsOf!) continue
      if (digitCount(digitsOf[chosen]!) === size + 1 || digitCount(leftOf[chosen]!) === size + 1)
        this.tieCells(premises.filter((_, i) => chosen & (1 << i)))
    }
  }

  /** Links of a cell or a set of cells, as they are and without what the removal rules out there. */
  private tieCells(premises: readonly CellPremise[]): void {
    const candidates = premises.flatMap(({ cell, digits }) => digits.map((digit) => ({ cell, digit })))
    const cells = premises.map(({ cell }) => cell)
    this.tieSet(cells, candidates, [])
    const fins = candidates.filter((candidate) => this.isRuledOut(candidate))
    if (fins.length === 0 || !this.kinds.setsOf) return
    const left = candidates.filter((candidate) => !fins.includes(candidate))
    this.tieSet(cells, left, fins)
  }

  /** Links between any two digits of cells that have one more than they can hold. */
  private tieSet(
    cells: readonly number[],
    candidates: readonly Candidate[],
    fins: readonly Candidate[],
  ): void {
    const digits = [...new Set(candidates.map(({ digit }) => digit))]
    if (digits.length !== cells.length + 1) return
    const reason =
      cells.length === 1 ? ({ kind: 'cell', cell: cells[0]! } as const) : ({ kind: 'set', cells } as const)
    const places = digits.map((digit) => ({
      digit,
      cells: candidates.filter((candidate) => candidate.digit === digit).map(({ cell }) => cell),
    }))
    places.forEach((one, i) => {
      for (const other of places.slice(i + 1)) this.tie(one, other, reason, fins)
    })
  }
}

type CellPremise = Premise & { readonly kind: 'cell' }

function keyOf(digit: number, cells: readonly number[]): string {
  return `${digit} ${cells.join()}`
}

/** Where each of these lists begins in all of them, one after the other, and where the last ends. */
function startsOf(lists: readonly (readonly unknown[])[]): number[] {
  const starts = [0]
  for (const list of lists) starts.push(starts.at(-1)! + list.length)
  return starts
}
