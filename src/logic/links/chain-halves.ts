/**
 * What a search for a chain keeps while it supposes a candidate and follows breadth first what holds then. Links work both ways:
 * two nodes that hold and see each other end two halves of one chain against the candidate, so only half the length of a chain
 * need be followed.
 */
export class ChainHalves {
  /** Nodes that hold, in the order in which they were met. */
  protected readonly queue: Int32Array
  /** node that holds -> strong links from the beginning. */
  protected readonly depth: Int32Array
  /** node -> the latest run in which it held, and failed. */
  protected readonly onRun: Int32Array
  protected readonly offRun: Int32Array
  /** node that holds -> the node whose failing made it hold, and the strong link between them. */
  protected readonly from: Int32Array
  protected readonly by: Int32Array
  /** node that fails -> the node that holds and sees it. */
  protected readonly failedBy: Int32Array
  protected runs = 0
  protected tail = 0
  /** The length of the shortest chain of a run so far, and the last nodes of its halves. */
  protected shortest = 0
  protected one = -1
  protected other = -1

  /** @param size how many nodes there are */
  constructor(size: number) {
    this.queue = new Int32Array(size)
    this.depth = new Int32Array(size)
    this.onRun = new Int32Array(size)
    this.offRun = new Int32Array(size)
    this.from = new Int32Array(size)
    this.by = new Int32Array(size)
    this.failedBy = new Int32Array(size)
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
