import { zeros } from '../number-lists.js'

/**
 * What a search for a chain keeps while it supposes a candidate and follows breadth first what holds then. Links work
 * both ways: two nodes that hold and see each other end two halves of one chain against the candidate, so only half the
 * length of a chain need be followed.
 */
export class ChainHalves {
  /** Nodes that hold, in the order in which they were met. */
  protected readonly queue: number[]
  /** node that holds -> strong links from the beginning. */
  protected readonly depth: number[]
  /** node -> the latest run in which it held, and failed. */
  protected readonly onRun: number[]
  protected readonly offRun: number[]
  /** node that holds -> the node whose failing made it hold, and the strong link between them. */
  protected readonly from: number[]
  protected readonly by: number[]
  /** node that fails -> the node that holds and sees it. */
  protected readonly failedBy: number[]
  protected runs = 0
  protected tail = 0
  /** The length of the shortest chain of a run so far, and the last nodes of its halves. */
  protected shortest = 0
  protected one = -1
  protected other = -1

  /**
   * @param size how many nodes there are
   * @param before a search that is over, whose lists this one takes over if they are long enough
   */
  constructor(size: number, before?: ChainHalves) {
    const lists = before && before.queue.length >= size ? before : undefined
    this.runs = lists?.runs ?? 0
    this.queue = lists?.queue ?? zeros(2 * size)
    this.depth = lists?.depth ?? zeros(2 * size)
    this.onRun = lists?.onRun ?? zeros(2 * size)
    this.offRun = lists?.offRun ?? zeros(2 * size)
    this.from = lists?.from ?? zeros(2 * size)
    this.by = lists?.by ?? zeros(2 * size)
    this.failedBy = lists?.failedBy ?? zeros(2 * size)
  }

  /** Both nodes hold, and they see each other. */
  protected meet(one: number, other: number): void {
    const length = this.depth[one]! + this.depth[other]!
    if (length >= this.shortest) return
    this.shortest = length
    this.one = one
    this.other = other
  }

  /** The two halves that met, as one chain: its nodes, and for each strong link what `by` says of it. */
  protected joined(origin: number): { nodes: number[]; by: number[] } {
    const nodes: number[] = []
    const by: number[] = []
    this.walkBack(this.one, origin, nodes, by)
    nodes.reverse()
    by.reverse()
    this.walkBack(this.other, origin, nodes, by)
    return { nodes, by }
  }

  private walkBack(last: number, origin: number, nodes: number[], by: number[]): void {
    for (let node = last; node !== origin; node = this.failedBy[this.from[node]!]!) {
      nodes.push(node, this.from[node]!)
      by.push(this.by[node]!)
    }
  }
}
