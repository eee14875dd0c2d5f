import { allDigits, type DigitSet, digitCount } from '../grid/digits.js'
import type { SearchEvent, SolutionSearch } from './search.js'

/** What the search needs of a geometry: any cells, and houses that each hold every digit exactly once. */
export interface SearchSpace {
  readonly order: number
  readonly cellCount: number
  /** Each has `order` cells. */
  readonly houses: readonly { readonly cells: readonly number[] }[]
  /** cell -> indices of its houses. */
  readonly housesOf: readonly (readonly number[])[]
  /** cell -> cells that share a house with it. */
  readonly peersOf: readonly (readonly number[])[]
}

/**
 * Two houses that share several cells. A digit that has no place in `own` stands in a shared cell, so not in `rest`.
 */
interface Crossing {
  readonly shared: readonly number[]
  /** The other cells of the one house … */
  readonly own: readonly number[]
  /** … and of the other. */
  readonly rest: readonly number[]
}

function crossingsOf(space: SearchSpace): Crossing[] {
  return space.houses.flatMap((house) =>
    space.houses.flatMap((other) => {
      if (other === house) return []
      const shared = house.cells.filter((cell) => other.cells.includes(cell))
      if (shared.length < 2) return []
      const isShared = (cell: number) => shared.includes(cell)
      return [
        {
          shared,
          own: house.cells.filter((cell) => !isShared(cell)),
          rest: other.cells.filter((cell) => !isShared(cell)),
        },
      ]
    }),
  )
}

/** Set together with the one digit left in a cell once that has been propagated to its peers. */
const PROPAGATED = 1 << 16

/**
 * The reference: exact search on any geometry, one integer of candidates a cell.
 *
 * A node draws what follows at once (a cell with one candidate, a digit with one place in a house, a digit confined to
 * where two houses cross) until nothing more does, then splits on one candidate: first it is taken to be right, later
 * to be wrong. The two halves share no solution and lose none, so every solution comes out exactly once.
 */
export class GeneralSearch implements SolutionSearch {
  nodes = 0

  private readonly space: SearchSpace
  private readonly crossings: readonly Crossing[]
  private readonly all: DigitSet
  /** The position in hand. */
  private readonly now: Int32Array
  /** Positions to come back to, one after another, each with the candidate to be taken for wrong then. */
  private readonly saved: Int32Array
  private readonly savedCell: Int16Array
  private readonly savedBit: Int32Array
  private depth = 0
  /** Cells with one candidate not yet propagated to their peers. */
  private readonly queue: Int16Array
  private queued = 0
  /** house -> has one of its cells lost a candidate since the house was last looked at? */
  private readonly stale: Uint8Array
  private state: 'fresh' | 'open' | 'dead' = 'dead'

  /** Numbers from 0 to below 1, for a search that takes candidates at random; by value otherwise. */
  private readonly random: (() => number) | undefined

  constructor(space: SearchSpace, random?: () => number) {
    const { cellCount, order, houses } = space
    this.space = space
    this.random = random
    this.crossings = crossingsOf(space)
    this.all = allDigits(order)
    this.now = new Int32Array(cellCount)
    // Every split settles a cell in one half and takes a candidate away in the other; only the first half goes deeper.
    this.saved = new Int32Array(cellCount * (cellCount + 1))
    this.savedCell = new Int16Array(cellCount + 1)
    this.savedBit = new Int32Array(cellCount + 1)
    this.queue = new Int16Array(cellCount + 1)
    this.stale = new Uint8Array(houses.length)
  }

  start(givens: ArrayLike<number>, marks?: ArrayLike<DigitSet>): void {
    this.nodes = 0
    this.depth = 0
    this.queued = 0
    this.stale.fill(1)
    this.state = 'fresh'
    for (let cell = 0; cell < this.now.length; cell++) {
      const digit = givens[cell]!
      const allowed = (digit === 0 ? this.all : 1 << (digit - 1)) & (marks ? marks[cell]! : this.all)
      this.now[cell] = allowed
      if (allowed === 0) this.state = 'dead'
      else if ((allowed & (allowed - 1)) === 0) this.queue[this.queued++] = cell
    }
  }

  next(nodes: number): SearchEvent {
    let left = nodes
    if (this.state === 'dead') return 'exhausted'
    // After a solution the position in hand is used up: go back to the last split.
    let alive = this.state === 'fresh'
    for (;;) {
      if (left <= 0) {
        if (!alive) this.state = 'open'
        else this.state = 'fresh'
        return 'out-of-nodes'
      }
      if (!alive && !this.back()) {
        this.state = 'dead'
        return 'exhausted'
      }
      left--
      this.nodes++
      alive = this.drawConsequences()
      if (!alive) continue
      if (!this.split()) {
        this.state = 'open'
        return 'solution'
      }
    }
  }

  readSolution(out: { [cell: number]: number }): void {
    for (let cell = 0; cell < this.now.length; cell++) out[cell] = 32 - Math.clz32(this.now[cell]! & this.all)
  }

  /** Returns to the last split and takes its candidate for wrong; false when none is left. */
  private back(): boolean {
    if (this.depth === 0) return false
    const { now, saved } = this
    const size = now.length
    const from = --this.depth * size
    for (let i = 0; i < size; i++) now[i] = saved[from + i]!
    this.queued = 0
    this.stale.fill(0)
    this.strike(this.savedCell[this.depth]!, this.savedBit[this.depth]!)
    return true
  }

  /** Takes a candidate away; false when the cell is left without any. */
  private strike(cell: number, bit: DigitSet): boolean {
    const left = this.now[cell]! & ~bit
    this.now[cell] = left
    if ((left & this.all) === 0) return false
    const houses = this.space.housesOf[cell]!
    for (let i = 0; i < houses.length; i++) this.stale[houses[i]!] = 1
    if ((left & (left - 1)) === 0) this.queue[this.queued++] = cell
    return true
  }

  /** Singles until none is left, then crossings, and again; false when the position cannot be finished. */
  private drawConsequences(): boolean {
    for (;;) {
      if (!this.propagateToPeers()) return false
      const settled = this.findHiddenSingles()
      if (settled < 0) return false
      if (settled > 0) continue
      const struck = this.strikeBeyondCrossings()
      if (struck < 0) return false
      if (struck === 0) return true
    }
  }

  private propagateToPeers(): boolean {
    const { now, queue } = this
    while (this.queued > 0) {
      const cell = queue[--this.queued]!
      const bit = now[cell]!
      if (bit & PROPAGATED) continue
      now[cell] = bit | PROPAGATED
      const peers = this.space.peersOf[cell]!
      for (let i = 0; i < peers.length; i++) {
        const peer = peers[i]!
        if (now[peer]! & bit && !this.strike(peer, bit)) {
          this.queued = 0
          return false
        }
      }
    }
    return true
  }

  /** Places digits that have one place left in a house: how many cells it settled, or -1 when a digit has no place. */
  private findHiddenSingles(): number {
    const { now, stale, all } = this
    const { houses } = this.space
    let settled = 0
    for (let h = 0; h < houses.length; h++) {
      if (stale[h] === 0) continue
      stale[h] = 0
      const cells = houses[h]!.cells
      let once = 0
      let twice = 0
      let propagated = 0
      for (let i = 0; i < cells.length; i++) {
        const marks = now[cells[i]!]!
        twice |= once & marks
        once |= marks
        if (marks & PROPAGATED) propagated |= marks
      }
      if ((once & all) !== all) return -1
      const single = once & ~twice & ~propagated & all
      if (single === 0) continue
      for (let i = 0; i < cells.length; i++) {
        const cell = cells[i]!
        const mine = now[cell]! & single
        if (mine === 0 || mine === now[cell]) continue
        // two digits that have this cell for their only place cannot both stand here
        if (mine & (mine - 1)) return -1
        this.strike(cell, now[cell]! & ~mine)
        settled++
      }
    }
    return settled + this.queued
  }

  /** How many candidates it struck, or -1 when a cell is left without any. */
  private strikeBeyondCrossings(): number {
    const { now, crossings, all } = this
    let struck = 0
    for (let i = 0; i < crossings.length; i++) {
      const { shared, own, rest } = crossings[i]!
      let confined = 0
      for (let k = 0; k < shared.length; k++) confined |= now[shared[k]!]!
      for (let k = 0; k < own.length; k++) confined &= ~now[own[k]!]!
      confined &= all
      if (confined === 0) continue
      for (let k = 0; k < rest.length; k++) {
        const bits = now[rest[k]!]! & confined
        if (bits === 0) continue
        if (!this.strike(rest[k]!, bits)) return -1
        struck++
      }
    }
    return struck
  }

  /** Saves the position and takes one candidate for right; false when every cell is settled. */
  private split(): boolean {
    const { now, saved, depth } = this
    const size = now.length
    const cell = this.pickCell()
    if (cell < 0) return false
    const marks = now[cell]!
    const bit = this.random ? this.anyOf(marks, this.random) : marks & -marks
    const to = depth * size
    for (let i = 0; i < size; i++) saved[to + i] = now[i]!
    this.savedCell[depth] = cell
    this.savedBit[depth] = bit
    this.depth = depth + 1
    this.strike(cell, marks & ~bit)
    return true
  }

  private anyOf(marks: DigitSet, random: () => number): DigitSet {
    let rest = marks
    for (let skip = Math.floor(random() * digitCount(marks)); skip > 0; skip--) rest &= rest - 1
    return rest & -rest
  }

  /** An open cell with the fewest candidates, of those with two the one that says most; -1 when none is open. */
  private pickCell(): number {
    const { now } = this
    let best = -1
    let fewest = 99
    let most = -1
    for (let cell = 0; cell < now.length; cell++) {
      const marks = now[cell]!
      if (marks & PROPAGATED) continue
      let count = 0
      for (let rest = marks; rest !== 0; rest &= rest - 1) count++
      if (count > fewest || (count === fewest && count > 2)) continue
      const worth = count === 2 ? this.worthOfPair(cell) : 0
      if (count < fewest || worth > most) {
        fewest = count
        most = worth
        best = cell
      }
    }
    return best
  }

  /**
   * What settling a cell with two candidates says to its peers: for each of the two a point for each peer that would
   * lose it, four if the peer has two itself and would be settled; the product, so that both ways are short.
   */
  private worthOfPair(cell: number): number {
    const { now } = this
    const marks = now[cell]!
    const low = marks & -marks
    const peers = this.space.peersOf[cell]!
    let ofLow = 1
    let ofHigh = 1
    for (let i = 0; i < peers.length; i++) {
      const peer = now[peers[i]!]!
      if ((peer & marks) === 0) continue
      const others = peer & (peer - 1)
      const points = (others & (others - 1)) === 0 ? 4 : 1
      if (peer & low) ofLow += points
      if (peer & (marks ^ low)) ofHigh += points
    }
    return ofLow * ofHigh
  }
}
