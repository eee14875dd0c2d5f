import { lowestBit } from '../../grid/digits.js'
import type { NodeTable } from './nodes.js'

/**
 * Some nodes of a table, each digit's in a row, so that those in sight of a node are found by the cells that it does
 * not see: what has any of these is out of sight. One value serves graph after graph.
 */
export class Sight {
  private nodes: NodeTable | undefined
  /** digit - 1 -> its nodes, in the order of the list, and how many they are. */
  private readonly members: number[][] = []
  private readonly counts: number[] = []
  /** Words of a set of places in such a row. */
  private width = 0
  /** (word × digits + digit - 1) × cells + cell -> the places of the nodes that have the cell, a word of them. */
  private holding = new Int32Array(0)
  /** (digit - 1) × words + word -> the cells whose candidates are among the nodes, as a mask. */
  private readonly single: number[] = []

  /** @param list the nodes to look for from now on */
  take(nodes: NodeTable, list: readonly number[], count: number): void {
    const { order, cellCount } = nodes.board.geometry
    const { members, counts } = this
    this.nodes = nodes
    for (let d = 0; d < order; d++) {
      members[d] ??= []
      counts[d] = 0
    }
    for (let i = 0; i < count; i++) {
      const d = nodes.digit[list[i]!]! - 1
      members[d]![counts[d]!++] = list[i]!
    }
    let most = 0
    for (let d = 0; d < order; d++) most = Math.max(most, counts[d]!)
    const width = (most + 31) >>> 5
    this.width = width
    const size = order * cellCount * width
    if (this.holding.length < size) this.holding = new Int32Array(2 * size)
    else this.holding.fill(0, 0, size)
    const { holding } = this
    const { single } = this
    for (let i = 0; i < order * nodes.words; i++) single[i] = 0
    for (let d = 0; d < order; d++) {
      const row = members[d]!
      for (let place = 0; place < counts[d]!; place++) {
        const cells = nodes.cells[row[place]!]!
        const word = place >>> 5
        const bit = 1 << (place & 31)
        if (cells.length === 1) single[d * nodes.words + (cells[0]! >>> 5)]! |= 1 << (cells[0]! & 31)
        for (let i = 0; i < cells.length; i++) holding[(word * order + d) * cellCount + cells[i]!]! |= bit
      }
    }
  }

  /**
   * Writes those of the same digit that a node sees whole, in their order, from a place of a list on; returns the place
   * after them.
   */
  addSeen(node: number, into: number[], at: number): number {
    const { width, holding } = this
    const { words, peers, digit, digitCells, board } = this.nodes!
    const d = digit[node]! - 1
    const only = this.onlySeen(node, d)
    // most nodes of several cells see one cell or none
    if (only === NONE) return at
    if (only !== SEVERAL) {
      if ((this.single[d * words + (only >>> 5)]! >>> (only & 31)) & 1)
        into[at++] = this.nodes!.candidate(only, d + 1)
      return at
    }
    const row = this.members[d]!
    const count = this.counts[d]!
    for (let v = 0; v < width && v * 32 < count; v++) {
      const first = (v * board.geometry.order + d) * board.geometry.cellCount
      let unseen = count - v * 32 >= 32 ? 0 : -1 << (count - v * 32)
      for (let w = 0; w < words; w++) {
        let rest = digitCells[d * words + w]! & ~peers[node * words + w]!
        for (; rest !== 0; rest &= rest - 1) unseen |= holding[first + w * 32 + lowestBit(rest)]!
      }
      for (let rest = ~unseen; rest !== 0; rest &= rest - 1) into[at++] = row[v * 32 + lowestBit(rest)]!
    }
    return at
  }

  /** The only cell with its digit that a node sees. */
  private onlySeen(node: number, d: number): number {
    const { words, peers, digitCells } = this.nodes!
    let only = NONE
    for (let w = 0; w < words; w++) {
      const seen = digitCells[d * words + w]! & peers[node * words + w]!
      if (seen === 0) continue
      if (only !== NONE || (seen & (seen - 1)) !== 0) return SEVERAL
      only = w * 32 + lowestBit(seen)
    }
    return only
  }
}

const NONE = -1
const SEVERAL = -2
