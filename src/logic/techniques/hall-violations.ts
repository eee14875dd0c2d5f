import type { Board } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import { factsOf } from '../facts.js'

/** Houses that would need a digit more often than the covering houses can give it, if one candidate were true. */
export interface HallViolation {
  readonly base: readonly number[]
  /** One fewer than `base`. */
  readonly cover: readonly number[]
}

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

  constructor(board: Board, digit: number) {
    this.board = board
    this.digit = digit
    this.cells = factsOf(board).cellsWith(digit)
    const { geometry } = board
    const layout = layoutOf(geometry)
    const { cells } = this
    this.words = Math.max(1, (cells.length + 31) >>> 5)
    this.inHouse = new Int32Array(layout.houses.length * this.words)
    this.unseen = new Int32Array(cells.length * this.words)
    for (let i = 0; i < cells.length; i++) {
      for (const house of layout.housesOf[cells[i]!]!)
        this.inHouse[house * this.words + (i >>> 5)]! |= 1 << (i & 31)
      for (let j = 0; j < cells.length; j++) {
        if (i !== j && !layout.arePeers(cells[i]!, cells[j]!))
          this.unseen[i * this.words + (j >>> 5)]! |= 1 << (j & 31)
      }
    }
  }

  hasPlaces(house: number): boolean {
    for (let w = 0; w < this.words; w++) if (this.inHouse[house * this.words + w] !== 0) return true
    return false
  }

  /**
   * Suppose the candidate in the cell `victim` is true. Which `size` base houses (none of them its own) then have all
   * their remaining places in `size - 1` covering houses, no two bases sharing a remaining place? Such bases ask for
   * the digit more often than the covers can hold it: the candidate is false.
   *
   * @param bases houses that may serve as base, ascending
   * @param covers houses that may serve as cover, ascending
   */
  visitViolations(
    victim: number,
    size: number,
    bases: readonly number[],
    covers: readonly number[],
    visit: (violation: HallViolation) => void,
  ): void {
    const { words, board } = this
    const own = layoutOf(board.geometry).housesOf[victim]!
    const candidate = this.cells.indexOf(victim)
    const remaining = new Int32Array(layoutOf(board.geometry).houses.length * words)
    const isEmpty = (house: number): boolean => {
      for (let w = 0; w < words; w++) if (remaining[house * words + w] !== 0) return false
      return true
    }
    for (let at = 0; at < remaining.length; at++)
      remaining[at] = this.inHouse[at]! & this.unseen[candidate * words + (at % words)]!
    // A base without remaining places is a violation of its own, and a smaller pattern: never part of a bigger one.
    const baseHouses = bases.filter((house) => !own.includes(house) && !isEmpty(house))
    const coverHouses = covers.filter((house) => !own.includes(house) && !isEmpty(house))
    if (baseHouses.length < size) return

    const union = new Int32Array(size * words)
    const cover: number[] = []
    const base: number[] = []
    const taken = new Int32Array((size + 1) * words)

    const chooseBase = (candidates: readonly number[], from: number): void => {
      const depth = base.length
      if (depth === size) {
        visit({ base: [...base], cover: [...cover] })
        return
      }
      for (let i = from; i <= candidates.length - size + depth; i++) {
        const at = candidates[i]! * words
        let overlaps = false
        for (let w = 0; w < words; w++) {
          const mask = remaining[at + w]!
          if (taken[depth * words + w]! & mask) overlaps = true
          taken[(depth + 1) * words + w] = taken[depth * words + w]! | mask
        }
        if (overlaps) continue
        base.push(candidates[i]!)
        chooseBase(candidates, i + 1)
        base.pop()
      }
    }

    const chooseCover = (from: number): void => {
      const depth = cover.length
      if (depth === size - 1) {
        const inside = baseHouses.filter((house) => {
          for (let w = 0; w < words; w++)
            if (remaining[house * words + w]! & ~union[depth * words + w]!) return false
          return !cover.includes(house)
        })
        if (inside.length >= size) chooseBase(inside, 0)
        return
      }
      for (let i = from; i <= coverHouses.length - (size - 1) + depth; i++) {
        const at = coverHouses[i]! * words
        for (let w = 0; w < words; w++)
          union[(depth + 1) * words + w] = union[depth * words + w]! | remaining[at + w]!
        cover.push(coverHouses[i]!)
        chooseCover(i + 1)
        cover.pop()
      }
    }
    chooseCover(0)
  }
}
