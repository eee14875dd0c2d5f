import type { Board } from '../../grid/board.js'
import { firstDigit } from '../../grid/digits.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Facts } from '../facts/facts.js'
import { filled } from '../facts/number-lists.js'
import { oncePerBoard } from '../facts/path-memory.js'
import { digitMasks, maskWords, peerMasks } from './cell-masks.js'

/** What tables are made of. The next table takes over the lists of the one before, so only the latest board has one. */
class NodeLists {
  readonly cells: (readonly number[])[] = []
  readonly mask: number[] = []
  readonly peers: number[] = []
  readonly digit: number[] = []
  candidateNode: number[] = []
  slots: number[] = filled(1024, -1)
}

const nodeLists = (): NodeLists => new NodeLists()

/**
 * Nodes of a link graph: a digit with one or more cells, read as "the digit is in one of these cells". One cell is a
 * plain candidate; several are a group of a box and line crossing, or the places of a digit in an almost locked set.
 * Equal nodes are one node whatever they came from. Lists by node may be longer than there are nodes: the rest is of
 * other boards.
 */
export class NodeTable {
  readonly facts: Facts
  readonly board: Board
  readonly words: number
  /** digit - 1 -> cells with that candidate. */
  readonly digitCells: readonly number[]
  /** cell * order + digit - 1 -> node, -1 where the candidate is gone. */
  readonly candidateNode: readonly number[]
  /** How many nodes are the board's candidates: they come first. */
  readonly candidates: number
  size = 0
  readonly cells: (readonly number[])[]
  /** node -> its cells as a mask. */
  readonly mask: number[]
  /** node -> cells that see every cell of the node. */
  readonly peers: number[]
  readonly digit: number[]
  private readonly lists: NodeLists
  private readonly peersOfCell: Uint32Array

  constructor(facts: Facts) {
    const { board, context } = facts
    const { geometry, candidates } = board
    const lists = context.of(nodeLists)
    this.facts = facts
    this.lists = lists
    this.cells = lists.cells
    this.mask = lists.mask
    this.peers = lists.peers
    this.digit = lists.digit
    this.board = board
    this.words = maskWords(geometry)
    this.peersOfCell = peerMasks(geometry)
    this.digitCells = digitMasks(board)
    const count = geometry.cellCount * geometry.order
    if (lists.candidateNode.length === count) lists.candidateNode.fill(-1)
    else lists.candidateNode = filled(count, -1)
    lists.slots.fill(-1)
    const { candidateNode } = lists
    const alone = singleCells(geometry)
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      for (let rest = candidates[cell]!; rest !== 0; rest &= rest - 1) {
        const digit = firstDigit(rest)
        candidateNode[cell * geometry.order + digit - 1] = this.append(digit, alone[cell]!)
      }
    }
    this.candidateNode = candidateNode
    this.candidates = this.size
  }

  candidate(cell: number, digit: number): number {
    return this.candidateNode[cell * this.board.geometry.order + digit - 1]!
  }

  /** The node of a digit in these cells (all of which have the candidate), added when it is new. */
  of(digit: number, cells: readonly number[]): number {
    if (cells.length === 1) return this.candidate(cells[0]!, digit)
    const { lists } = this
    if (this.size * 2 > lists.slots.length) this.rehash()
    const { slots } = lists
    let slot = slotOf(digit, cells) & (slots.length - 1)
    for (;;) {
      const node = slots[slot]!
      if (node < 0) break
      if (this.digit[node] === digit && sameCells(this.cells[node]!, cells)) return node
      slot = (slot + 1) & (slots.length - 1)
    }
    slots[slot] = this.size
    return this.append(digit, cells)
  }

  /** Does any candidate see all these places of a digit, be it another of the cell when there is but one? */
  isSeen(digit: number, places: readonly number[]): boolean {
    const count = places.length
    if (count < 2) return true
    const { words, digitCells, peersOfCell } = this
    for (let w = 0, at = (digit - 1) * words; w < words; w++, at++) {
      let seers = digitCells[at]!
      for (let i = 0; i < count && seers !== 0; i++) seers &= peersOfCell[places[i]! * words + w]!
      if (seers !== 0) return true
    }
    return false
  }

  /** The cells with the digit that see all its places in these cells: a word of their mask. */
  seersOf(digit: number, cells: readonly number[], word: number): number {
    const { words, digitCells, peersOfCell } = this
    const { candidates } = this.board
    let seers = digitCells[(digit - 1) * words + word]!
    for (let i = 0; i < cells.length && seers !== 0; i++)
      if (candidates[cells[i]!]! & (1 << (digit - 1))) seers &= peersOfCell[cells[i]! * words + word]!
    return seers
  }

  /** Do both not hold at once: the same digit in cells that all see each other, or two digits of one cell? */
  areWeaklyLinked(a: number, b: number): boolean {
    if (this.digit[a] !== this.digit[b]) {
      const cells = this.cells[a]!
      const others = this.cells[b]!
      return cells.length === 1 && others.length === 1 && cells[0] === others[0]
    }
    return this.sees(a, b)
  }

  /** Does every cell of a see every cell of b? */
  sees(a: number, b: number): boolean {
    const { words, mask, peers } = this
    for (let w = 0; w < words; w++) if ((mask[b * words + w]! & ~peers[a * words + w]!) !== 0) return false
    return true
  }

  private append(digit: number, cells: readonly number[]): number {
    const { words, mask, peers, peersOfCell } = this
    const count = cells.length
    const node = this.size++
    this.digit[node] = digit
    this.cells[node] = cells
    for (let w = 0; w < words; w++) {
      let own = 0
      let seen = -1
      for (let i = 0; i < count; i++) {
        const cell = cells[i]!
        if (cell >>> 5 === w) own |= 1 << (cell & 31)
        seen &= peersOfCell[cell * words + w]!
      }
      mask[node * words + w] = own
      peers[node * words + w] = seen
    }
    return node
  }

  private rehash(): void {
    const { lists } = this
    lists.slots = filled(lists.slots.length * 4, -1)
    const { slots } = lists
    for (let node = 0; node < this.size; node++) {
      const cells = this.cells[node]!
      if (cells.length === 1) continue
      let slot = slotOf(this.digit[node]!, cells) & (slots.length - 1)
      while (slots[slot]! >= 0) slot = (slot + 1) & (slots.length - 1)
      slots[slot] = node
    }
  }
}

/** The answer for a context's latest table. */
interface Latest<Answer> {
  table: NodeTable | undefined
  answer: Answer | undefined
}

/**
 * Remembers a function's answer for the latest table. What is made of nodes lasts no longer than their table, whose
 * lists go on to the next: when the same board is asked about again later, it has a table of its own.
 */
export function oncePerTable<Answer>(work: (nodes: NodeTable) => Answer): (nodes: NodeTable) => Answer {
  const latestAnswer = (): Latest<Answer> => ({ table: undefined, answer: undefined })
  return (nodes) => {
    const latest = nodes.facts.context.of(latestAnswer)
    if (latest.table !== nodes) {
      latest.answer = work(nodes)
      latest.table = nodes
    }
    return latest.answer!
  }
}

/** The node table of a board, shared by its graphs. */
export const nodesOf = oncePerBoard((facts) => new NodeTable(facts))

/** cell -> the list of that cell alone. */
const singleCells = perLayout(({ cellCount }): readonly (readonly number[])[] =>
  Array.from({ length: cellCount }, (_, cell) => [cell]),
)

function slotOf(digit: number, cells: readonly number[]): number {
  let hash = digit
  for (let i = 0; i < cells.length; i++) hash = Math.imul(hash, 0x01000193) ^ cells[i]!
  return hash ^ (hash >>> 15)
}

function sameCells(a: readonly number[], b: readonly number[]): boolean {
  if (a === b) return true
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}
