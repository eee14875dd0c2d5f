import { filled, zeros } from '../number-lists.js'
import type { NodeTable } from './nodes.js'

/**
 * Some nodes of a table, listed by digit and first cell, so that those in sight of a node are found among the few that begin
 * in its peers: most nodes of several cells see hardly anything.
 */
export class Sight {
  private readonly nodes: NodeTable
  /** cell × order + digit - 1 -> place of the latest node that begins there; -1 for none. */
  private readonly latest: number[]
  /** place -> the place before it with the same beginning. */
  private readonly before: number[] = []
  private readonly list: readonly number[]
  /** digit - 1 -> the cells where a node begins, as a mask. */
  private readonly begin: number[]

  constructor(nodes: NodeTable, list: readonly number[]) {
    const { order, cellCount } = nodes.board.geometry
    this.nodes = nodes
    this.list = list
    this.latest = filled(cellCount * order, -1)
    this.begin = zeros(order * nodes.words)
    for (let place = 0; place < list.length; place++) {
      const node = list[place]!
      const cell = nodes.cells[node]![0]!
      const d = nodes.digit[node]! - 1
      this.begin[d * nodes.words + (cell >>> 5)]! |= 1 << (cell & 31)
      this.before.push(this.latest[cell * order + d]!)
      this.latest[cell * order + d] = place
    }
  }

  /** Those of the same digit that a node sees whole, ascending. */
  seenBy(node: number): number[] {
    const { nodes, list, latest, before, begin } = this
    const { words, peers, board } = nodes
    const d = nodes.digit[node]! - 1
    let count = 0
    for (let w = 0; w < words; w++) {
      for (let rest = peers[node * words + w]! & begin[d * words + w]!; rest !== 0; rest &= rest - 1) {
        const cell = w * 32 + 31 - Math.clz32(rest & -rest)
        for (let place = latest[cell * board.geometry.order + d]!; place >= 0; place = before[place]!)
          if (nodes.sees(node, list[place]!)) insert(found, list[place]!, count++)
      }
    }
    return found.slice(0, count)
  }
}

/** What is found, while it is looked for: a list that grows takes room for many more. */
const found: number[] = []

/** Into its place among the first `count` numbers, which are in ascending order. */
function insert(numbers: number[], number: number, count: number): void {
  let at = count
  for (; at > 0 && numbers[at - 1]! > number; at--) numbers[at] = numbers[at - 1]!
  numbers[at] = number
}
