import type { Board, Candidate } from '../../grid/board.js'
import type { DigitSet } from '../../grid/digits.js'
import { lowestBit } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import { type LinkGraph, type LinkKinds, linkGraph, linkGraphTask } from '../chains/graph.js'
import { nodesOf, oncePerTable } from '../chains/nodes.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'
import { exclude } from '../proof/exclude.js'
import { LARGEST_SET } from './almost-locked.js'

const SETS: LinkKinds = { setsOf: LARGEST_SET }

/**
 * What each candidate, were it true, would eliminate: what it sees, and what sees all places of a digit that an
 * almost locked set keeps once the candidate has taken another digit from it. One set deep, no chain: pairs and triples
 * of cells are excluded by this, and blossoms are made of it. Computed once for a board, candidate by candidate when
 * first asked for.
 */
export class Aftermath {
  readonly facts: Facts
  readonly board: Board
  private readonly graph: LinkGraph
  /** candidate node -> cell -> candidates left. */
  private readonly known: (readonly DigitSet[] | undefined)[]
  private readonly run: number[]
  private runs = 0
  /** What a candidate makes fail, while that is looked at. */
  private readonly failing: number[] = []

  constructor(facts: Facts) {
    this.facts = facts
    this.board = facts.board
    this.graph = linkGraph(facts, SETS)
    this.run = zeros(this.graph.nodes.size)
    this.known = new Array(this.graph.nodes.size)
  }

  /** cell -> candidates left if this candidate is true; in its own cell, itself alone. */
  leftBy({ cell, digit }: Candidate): readonly DigitSet[] {
    return this.leftByDigit(cell, digit)
  }

  leftByDigit(cell: number, digit: number): readonly DigitSet[] {
    const node = this.graph.nodes.candidate(cell, digit)
    let left = this.known[node]
    if (!left) {
      left = this.work(node)
      this.known[node] = left
    }
    return left
  }

  /** The same as `setsBetween`, but no cells at all where the two see each other. */
  waysBetween(one: Candidate, other: Candidate): (readonly number[])[] {
    return exclude(this.board.geometry, one, other) ? [[]] : this.setsBetween(one, other)
  }

  /** The cells of each almost locked set through which one candidate eliminates another, few cells first. */
  setsBetween(one: Candidate, other: Candidate): (readonly number[])[] {
    const { nodes, reasons, strongStart, strongTo, strongBy } = this.graph
    const from = nodes.candidate(one.cell, one.digit)
    const to = nodes.candidate(other.cell, other.digit)
    const sets: (readonly number[])[] = []
    for (const fails of this.graph.weakTo(from)) {
      for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
        const holds = strongTo[k]!
        if (nodes.digit[holds] !== other.digit || !nodes.sees(holds, to)) continue
        const reason = reasons[strongBy[k]!]!
        if (reason.kind === 'set') sets.push(reason.cells)
      }
    }
    return sets.sort((a, b) => a.length - b.length)
  }

  private work(node: number): readonly DigitSet[] {
    const { failing } = this
    const { nodes, strongStart, strongTo } = this.graph
    const left = nodes.board.candidates.slice()
    this.runs++
    this.strike(left, node)
    left[nodes.cells[node]![0]!] = 1 << (nodes.digit[node]! - 1)
    const count = this.graph.addWeak(node, failing, 0)
    for (let i = 0; i < count; i++) {
      const fails = failing[i]!
      for (let k = strongStart[fails]!; k < strongStart[fails + 1]!; k++) {
        const holds = strongTo[k]!
        if (this.run[holds] === this.runs) continue
        this.run[holds] = this.runs
        this.strike(left, holds)
      }
    }
    return left
  }

  /** Takes away what sees every cell of a node that holds. */
  private strike(left: DigitSet[], node: number): void {
    const { words, peers, digit, digitCells } = this.graph.nodes
    const bit = 1 << (digit[node]! - 1)
    for (let w = 0; w < words; w++) {
      let rest = peers[node * words + w]! & digitCells[(digit[node]! - 1) * words + w]!
      for (; rest !== 0; rest &= rest - 1) left[w * 32 + lowestBit(rest)]! &= ~bit
    }
  }
}

const aftermathOfNodes = oncePerTable(({ facts }) => new Aftermath(facts))

export function aftermathOf(facts: Facts): Aftermath {
  return aftermathOfNodes(nodesOf(facts))
}

/** The same for calls that may have to stop or pause before it is made. */
export function* aftermathTask(facts: Facts, watch: Watch): Task<Aftermath> {
  if (watch.isTimed) yield* linkGraphTask(facts, SETS, watch)
  return aftermathOf(facts)
}
