import { filled } from '../number-lists.js'
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

  constructor(nodes: NodeTable, list: readonly number[]) {
    const { order, cellCount } = nodes.board.geometry
    this.nodes = nodes
    this.list = list
    this.latest = filled(cellCount * order, -1)
    for (let place = 0; place < list.length; place++) {
      const node = list[place]!
      const key = nodes.cells[node]![0]! * order + nodes.digit[node]! - 1
      this.before.push(this.latest[key]!)
      this.latest[key] = place
    }
  }

  /** Those of the same digit that a node sees whole, ascending. */
  seenBy(node: number): number[] {
    const { nodes, list, latest, before } = this
    const { words, peers, digitCells, board } = nodes
    const d = nodes.digit[node]! - 1
    const found: number[] = []
    for (let w = 0; w < words; w++) {
      for (let rest = peers[node * words + w]! & digitCells[d * words + w]!; rest !== 0; rest &= rest - 1) {
        const cell = w * 32 + 31 - Math.clz32(rest & -rest)
        for (let place = latest[cell * board.geometry.order + d]!; place >= 0; place = before[place]!)
          if (nodes.sees(node, list[place]!)) insert(found, list[place]!)
      }
    }
    return found
  }
}

/** Into its place among a few numbers in ascending order. */
function insert(numbers: number[], number: number): void {
  let at = numbers.push(number) - 1
  for (; at > 0 && numbers[at - 1]! > number; at--) numbers[at] = numbers[at - 1]!
  numbers[at] = number
}
