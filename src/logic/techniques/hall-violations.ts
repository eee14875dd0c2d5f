import type { Board } from '../../grid/board.js'
import { lowestBit } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'

/**
 * Called with houses that would need a digit more often than the covering houses, one fewer, can give it, if one
 * candidate were true. The lists are those of the search: what is kept of them must be copied.
 */
export type ViolationVisitor = (base: readonly number[], cover: readonly number[]) => void

/** Most houses in a base. */
const MOST_BASES = 4

/**
 * The view of one digit that a fish search needs: its candidate cells numbered from 0, and sets of them as runs of
 * 32-bit words.
 */
export class DigitView {
  readonly board: Board
  readonly digit: number
  /** Candidate cells, ascending; their position here is their bit. */
  readonly cells: readonly number[]
  private readonly words: number
  /** house -> its candidate cells. */
  private readonly inHouse: Int32Array
  /** candidate -> candidates that do not see it (itself left out). */
  private readonly unseen: Int32Array
  /** house -> its candidate cells that the victim in hand does not see. */
  private readonly remaining: Int32Array
  /** Places of the covers chosen so far, and of the bases, for each number of them. */
  private readonly covered: Int32Array
  private readonly taken: Int32Array
  private readonly chosenCovers: number[] = []
  private readonly chosenBases: number[] = []
  /** For each candidate: how many bases have it. */
  private readonly times: number[]

  constructor(facts: Facts, digit: number) {
    const { board } = facts
    this.board = board
    this.digit = digit
    this.cells = facts.cellsWith(digit)
    const { geometry } = board
    const layout = layoutOf(geometry)
    const { cells } = this
    this.words = Math.max(1, (cells.length + 31) >>> 5)
    this.inHouse = new Int32Array(layout.houses.length * this.words)
    this.unseen = new Int32Array(cells.length * this.words)
    this.remaining = new Int32Array(this.inHouse.length)
    this.covered = new Int32Array(MOST_BASES * this.words)
    this.taken = new Int32Array((MOST_BASES + 1) * this.words)
    this.times = zeros(cells.length)
    for (let i = 0; i < cells.length; i++) {
      for (const house of layout.housesOf[cells[i]!]!)
        this.inHouse[house * this.words + (i >>> 5)]! |= 1 << (i & 31)
      for (let j = 0; j < cells.length; j++) {
        if (i !== j && !layout.arePeers(cells[i]!, cells[j]!))
          this.unseen[i * this.words + (j >>> 5)]! |= 1 << (j & 31)
      }
    }
  }

  /**
   * Suppose the candidate in the cell `victim` is true. Which `size` base houses (none of them its own) then have all
   * their remaining places in `size - 1` covering houses, no two bases sharing a remaining place? Such bases ask for
   * the digit more often than the covers can hold it: the candidate is false.
   *
   * @param size at most four
   * @param bases houses that may serve as base, ascending
   * @param covers houses that may serve as cover, ascending
   */
  visitViolations(
    victim: number,
    size: number,
    bases: readonly number[],
    covers: readonly number[],
    visit: ViolationVisitor,
  ): void {
    const { words, remaining } = this
    const own = layoutOf(this.board.geometry).housesOf[victim]!
    const candidate = this.cells.indexOf(victim)
    for (let at = 0; at < remaining.length; at++)
      remaining[at] = this.inHouse[at]! & this.unseen[candidate * words + (at % words)]!
    // A base without remaining places is a violation of its own, and a smaller pattern: never part of a bigger one.
    const mayServe = (house: number): boolean => !own.includes(house) && this.hasRemaining(house)
    const baseHouses = bases.filter(mayServe)
    if (baseHouses.length < size) return
    this.chooseCover(size, baseHouses, covers.filter(mayServe), 0, visit)
  }

  /** Places of the bases that are counted more often than the covers and this last one cover them, ascending. */
  finsOf(base: readonly number[], cover: readonly number[], last: number): number[] {
    const { words, inHouse, times } = this
    times.fill(0)
    for (let i = 0; i < base.length; i++) this.count(base[i]!, 1)
    for (let i = 0; i < cover.length; i++) this.count(cover[i]!, -1)
    this.count(last, -1)
    const fins: number[] = []
    for (let w = 0; w < words; w++) {
      let places = 0
      for (let i = 0; i < base.length; i++) places |= inHouse[base[i]! * words + w]!
      for (; places !== 0; places &= places - 1) {
        const place = 32 * w + lowestBit(places)
        if (times[place]! > 0) fins.push(this.cells[place]!)
      }
    }
    return fins
  }

  private count(house: number, step: 1 | -1): void {
    const { words, times } = this
    for (let w = 0; w < words; w++)
      for (let rest = this.inHouse[house * words + w]!; rest !== 0; rest &= rest - 1)
        times[32 * w + lowestBit(rest)]! += step
  }

  private hasRemaining(house: number): boolean {
    const { words, remaining } = this
    for (let w = 0; w < words; w++) if (remaining[house * words + w] !== 0) return true
    return false
  }

  /** Chooses the other covers, from a place of the list on. */
  private chooseCover(
    size: number,
    bases: readonly number[],
    covers: readonly number[],
    from: number,
    visit: ViolationVisitor,
  ): void {
    const { words, remaining, covered, chosenCovers } = this
    const depth = chosenCovers.length
    if (depth === size - 1) {
      if (this.countInside(bases, depth, size) >= size) this.chooseBase(size, bases, 0, visit)
      return
    }
    for (let i = from; i <= covers.length - (size - 1) + depth; i++) {
      const at = covers[i]! * words
      for (let w = 0; w < words; w++)
        covered[(depth + 1) * words + w] = covered[depth * words + w]! | remaining[at + w]!
      chosenCovers.push(covers[i]!)
      this.chooseCover(size, bases, covers, i + 1, visit)
      chosenCovers.pop()
    }
  }

  /** How many of these houses have all their remaining places in the covers; more than enough are not counted. */
  private countInside(houses: readonly number[], depth: number, enough: number): number {
    let inside = 0
    for (let i = 0; i < houses.length && inside < enough; i++)
      if (this.isInside(houses[i]!, depth) && !this.chosenCovers.includes(houses[i]!)) inside++
    return inside
  }

  private isInside(house: number, depth: number): boolean {
    const { words, remaining, covered } = this
    for (let w = 0; w < words; w++)
      if (remaining[house * words + w]! & ~covered[depth * words + w]!) return false
    return true
  }

  /** Chooses the other bases inside the covers, from a place of the list on. */
  private chooseBase(size: number, bases: readonly number[], from: number, visit: ViolationVisitor): void {
    const { words, remaining, taken, chosenBases, chosenCovers } = this
    const depth = chosenBases.length
    if (depth === size) {
      visit(chosenBases, chosenCovers)
      return
    }
    for (let i = from; i <= bases.length - size + depth; i++) {
      const house = bases[i]!
      if (!this.isInside(house, size - 1)) continue
      let overlaps = false
      for (let w = 0; w < words; w++) {
        const mask = remaining[house * words + w]!
        if (taken[depth * words + w]! & mask) overlaps = true
        taken[(depth + 1) * words + w] = taken[depth * words + w]! | mask
      }
      if (overlaps || chosenCovers.includes(house)) continue
      chosenBases.push(house)
      this.chooseBase(size, bases, i + 1, visit)
      chosenBases.pop()
    }
  }
}
