import type { Board } from '../grid/board.js'
import { factsOf, oncePerPlaces } from './facts.js'
import { holderMask, maskWords, peerMasks } from './links/cell-masks.js'

/** Places tried for one digit before the rest count as doubtful; a digit of a 9×9 board takes some dozens. */
const BUDGET = 2_000

/**
 * The candidates of a digit that no full placement of it has: one cell in every house that lacks it, no two in a house.
 * Whatever can be proven from one digit's places alone, it is about these: a candidate that some placement has cannot be
 * removed so, nor can it be placed while others of its houses stand in placements too. On most boards most digits have none, so
 * patterns of one digit need not be looked for. Ascending; those that the search could not decide are among them.
 */
export const misplaced = oncePerPlaces((board, digit): readonly number[] =>
  new Placements(board, digit).misplaced(),
)

class Placements {
  private readonly board: Board
  private readonly cells: readonly number[]
  private readonly words: number
  private readonly peers: Uint32Array
  /** depth -> cells still free, `words` a set. */
  private readonly free: Uint32Array
  /** The rows that lack the digit, as lists of its cells there: those with few cells first. */
  private readonly rows: readonly (readonly number[])[]
  /** How many houses have a place for the digit: all of them must get it. */
  private readonly houses: number
  private readonly placed: number[] = []
  private readonly seen: Uint8Array
  private left = BUDGET

  constructor(board: Board, digit: number) {
    const { geometry } = board
    const { order } = geometry
    const { places } = factsOf(board)
    this.board = board
    this.cells = factsOf(board).cellsWith(digit)
    this.words = maskWords(geometry)
    this.peers = peerMasks(geometry)
    const rows: number[][] = []
    for (const cell of this.cells) {
      const row = Math.floor(cell / order)
      if (rows[row]) rows[row].push(cell)
      else rows[row] = [cell]
    }
    this.rows = rows.filter((cells) => cells).sort((a, b) => a.length - b.length)
    this.free = new Uint32Array((this.rows.length + 1) * this.words)
    this.free.set(holderMask(board, digit))
    let houses = 0
    for (let at = digit - 1; at < places.length; at += order) if (places[at] !== 0) houses++
    this.houses = houses
    this.seen = new Uint8Array(geometry.cellCount)
  }

  misplaced(): number[] {
    const { cells, seen, rows } = this
    return cells.filter((cell) => {
      if (seen[cell]) return false
      const own = rows.findIndex((row) => row.includes(cell))
      this.place(cell, 0)
      if (!this.fill(own, 0, 1)) return true
      for (const one of this.placed) seen[one] = 1
      return false
    })
  }

  /** Puts the digit into the rows from `next` on but for one that has it already; true when that is possible. */
  private fill(own: number, next: number, depth: number): boolean {
    if (next === own) return this.fill(own, next + 1, depth)
    if (next === this.rows.length) return this.isFull(depth)
    const row = this.rows[next]!
    const at = depth * this.words
    for (let i = 0; i < row.length; i++) {
      const cell = row[i]!
      if (!((this.free[at + (cell >>> 5)]! >>> (cell & 31)) & 1)) continue
      if (this.left-- <= 0) return false
      this.place(cell, depth)
      if (this.fill(own, next + 1, depth + 1)) return true
    }
    return false
  }

  private place(cell: number, depth: number): void {
    const { words, free, peers } = this
    this.placed.length = depth
    this.placed.push(cell)
    for (let w = 0; w < words; w++)
      free[(depth + 1) * words + w] = free[depth * words + w]! & ~peers[cell * words + w]!
  }

  /** No two of the placed cells share a house, so together they are in as many houses as each of them has. */
  private isFull(depth: number): boolean {
    this.placed.length = depth
    let houses = 0
    for (const cell of this.placed) houses += this.board.geometry.housesOf[cell]!.length
    return houses === this.houses
  }
}
