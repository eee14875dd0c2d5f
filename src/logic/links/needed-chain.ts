import type { Candidate, Conclusion } from '../../grid/board.js'
import { digitCount, digitSet } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { exclude } from '../exclude.js'
import { cellsAt } from '../facts.js'
import type { ChainLink, ChainNode, Pattern, Premise } from '../step.js'
import type { LinkKinds } from './graph.js'
import { isPart, partings } from './house-ties.js'
import { chainLinks, type StrongLink } from './link.js'

/** A strong link that premises give: one end or the other holds, unless one of the fins does. */
interface Tie {
  readonly ends: readonly [number, number]
  readonly strong: StrongLink
}

/**
 * How to tell a conclusion from the premises that it needs, where a chain was found that takes more: by the shortest
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
  const chains = new NeededChain(geometry, kinds, premises, conclusion)
  return chains.shortest(most, false) ?? chains.shortest(most, true) ?? { shape: 'premises' }
}

class NeededChain {
  private readonly geometry: Geometry
  private readonly kinds: LinkKinds
  private readonly conclusion: Conclusion
  private readonly nodes: ChainNode[] = []
  private readonly nodeOf = new Map<string, number>()
  private readonly ties: Tie[] = []

  constructor(geometry: Geometry, kinds: LinkKinds, premises: readonly Premise[], conclusion: Conclusion) {
    const layout = layoutOf(geometry)
    this.geometry = geometry
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

  /** Breadth first from what the denied conclusion rules out to what it cannot stand beside. */
  shortest(most: number, finned: boolean): Pattern | undefined {
    const { nodes } = this
    const ties = finned ? this.ties : this.ties.filter(({ strong }) => !strong.fins)
    const size = nodes.length
    const seer: number[] = new Array(size).fill(UNSEEN)
    const by: number[] = new Array(size).fill(UNSEEN)
    let fails: number[] = []
    for (let node = 0; node < size; node++) {
      if (!this.isEnd(node)) continue
      seer[node] = START
      fails.push(node)
    }
    for (let length = 1; length <= most && fails.length > 0; length++) {
      const next: number[] = []
      for (const failing of fails) {
        for (let tie = 0; tie < ties.length; tie++) {
          const { ends } = ties[tie]!
          if (ends[0] !== failing && ends[1] !== failing) continue
          const holds = ends[0] === failing ? ends[1] : ends[0]
          if (by[holds] !== UNSEEN) continue
          by[holds] = tie
          if (this.isEnd(holds)) return this.told(holds, ties, seer, by)
          for (let other = 0; other < size; other++) {
            if (seer[other] !== UNSEEN || !this.areWeaklyLinked(holds, other)) continue
            seer[other] = holds
            next.push(other)
          }
        }
      }
      fails = next
    }
    return undefined
  }

  private told(last: number, ties: readonly Tie[], seer: readonly number[], by: readonly number[]): Pattern {
    const { nodes } = this
    const path: ChainNode[] = []
    const strong: StrongLink[] = []
    for (let holds = last; holds !== START; ) {
      const tie = ties[by[holds]!]!
      const fails = tie.ends[0] === holds ? tie.ends[1] : tie.ends[0]
      path.push(nodes[holds]!, nodes[fails]!)
      strong.push(tie.strong)
      holds = seer[fails]!
    }
    return {
      shape: 'chain',
      links: chainLinks(this.geometry, path.reverse(), strong.reverse(), false),
      loop: false,
    }
  }

  /** Can this node be the end of a chain: the digit placed, or what every candidate removed rules out? */
  private isEnd(node: number): boolean {
    const { digit, cells } = this.nodes[node]!
    const { placements } = this.conclusion
    if (placements.length > 0)
      return placements.every(
        (placed) => placed.digit === digit && cells.length === 1 && placed.cell === cells[0],
      )
    return cells.every((cell) => this.isRuledOut({ cell, digit }))
  }

  /** Does every candidate to be removed rule this one out? */
  private isRuledOut(candidate: Candidate): boolean {
    const { placements, removals } = this.conclusion
    return placements.length === 0 && removals.every((removal) => exclude(this.geometry, removal, candidate))
  }

  private areWeaklyLinked(a: number, b: number): boolean {
    const one = this.nodes[a]!
    const other = this.nodes[b]!
    if (one.digit !== other.digit)
      return one.cells.length === 1 && other.cells.length === 1 && one.cells[0] === other.cells[0]
    for (let i = 0; i < one.cells.length; i++)
      for (let j = 0; j < other.cells.length; j++)
        if (!layoutOf(this.geometry).arePeers(one.cells[i]!, other.cells[j]!)) return false
    return true
  }

  private node(digit: number, cells: readonly number[]): number {
    const key = `${digit} ${cells.join()}`
    let node = this.nodeOf.get(key)
    if (node === undefined) {
      node = this.nodes.push({ digit, cells }) - 1
      this.nodeOf.set(key, node)
    }
    return node
  }

  private tie(one: ChainNode, other: ChainNode, by: ChainLink['by'], fins: readonly Candidate[]): void {
    this.ties.push({
      ends: [this.node(one.digit, one.cells), this.node(other.digit, other.cells)],
      strong: fins.length > 0 ? { by, fins } : { by },
    })
  }

  private tieHouse({ house, digit, cells }: Premise & { readonly kind: 'house' }): void {
    const { geometry } = this
    const by = { kind: 'house', house } as const
    const positions = (of: readonly number[]) =>
      of.reduce((set, cell) => set | (1 << layoutOf(geometry).positionIn(house, cell)), 0)
    const finCells = cells.filter((cell) => this.isRuledOut({ cell, digit }))
    const all = positions(cells)
    const left = all & ~positions(finCells)
    const part = (own: number) => ({ digit, cells: cellsAt(geometry, house, own) })
    const tieParts = (places: number, fins: readonly Candidate[]) => {
      if (digitCount(places) > 2 && !this.kinds.groups) return
      for (const one of partings(geometry, house, places)) this.tie(part(one), part(places ^ one), by, fins)
    }
    tieParts(all, [])
    if (finCells.length === 0 || left === 0 || !this.kinds.setsOf) return
    // all that is left at one end, the places ruled out at the other: nothing spoils that link
    if (isPart(geometry, house, left)) this.tie(part(left), part(all ^ left), by, [])
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
    const by =
      cells.length === 1 ? ({ kind: 'cell', cell: cells[0]! } as const) : ({ kind: 'set', cells } as const)
    const places = digits.map((digit) => ({
      digit,
      cells: candidates.filter((candidate) => candidate.digit === digit).map(({ cell }) => cell),
    }))
    places.forEach((one, i) => {
      for (const other of places.slice(i + 1)) this.tie(one, other, by, fins)
    })
  }
}

type CellPremise = Premise & { readonly kind: 'cell' }

/** Marks of a search: a node not met yet, and one where it began. */
const UNSEEN = -2
const START = -1
