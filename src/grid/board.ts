import { allDigits, type DigitSet, digitBit } from './digits.js'
import type { Geometry } from './geometry.js'
import { type Puzzle, uncheckedPuzzle } from './puzzle.js'

/** A digit in a cell, as a possibility or a fact. `cell` counts from 0, `digit` from 1. */
export interface Candidate {
  readonly cell: number
  readonly digit: number
}

/** What a deduction does to a board. */
export interface Conclusion {
  readonly placements: readonly Candidate[]
  readonly removals: readonly Candidate[]
}

/** A step on the way: digits placed so far and the candidates (pencil marks) left in the open cells. Never mutated. */
export class Board {
  readonly geometry: Geometry
  /** cell -> was it printed? 1 or 0. */
  readonly given: readonly number[]
  /** cell -> placed digit, 0 while open. */
  readonly digits: readonly number[]
  /** cell -> candidates left; 0 for a cell with a digit. */
  readonly candidates: readonly DigitSet[]

  // Plain arrays, not typed ones: a solving path makes thousands of boards, and a small typed array costs several
  // times as much to make as a slice of 81 small integers.
  private constructor(
    geometry: Geometry,
    given: readonly number[],
    digits: readonly number[],
    candidates: readonly DigitSet[],
  ) {
    this.geometry = geometry
    this.given = given
    this.digits = digits
    this.candidates = candidates
  }

  /** All pencil marks that the givens leave. */
  static fromPuzzle(puzzle: Puzzle): Board {
    const { geometry, givens } = puzzle
    return Board.fromMarks(puzzle, givens, new Array(geometry.cellCount).fill(allDigits(geometry.order)))
  }

  /**
   * A half-solved board: what is written in each cell, and which candidates its owner still allows in the open ones.
   * Candidates seen from a placed digit are struck out here, so a board never shows a mark that the digits rule out.
   *
   * @param digits cell -> placed digit (givens included) or 0
   * @param candidates cell -> candidates; ignored where a digit is placed
   * @throws RangeError when a list has another length than the board, a number makes no sense there, or a digit is not the given
   */
  static fromMarks(puzzle: Puzzle, digits: ArrayLike<number>, candidates: ArrayLike<DigitSet>): Board {
    const { geometry, givens } = puzzle
    const { cellCount, order } = geometry
    if (digits.length !== cellCount || candidates.length !== cellCount)
      throw new RangeError(
        `A board of ${geometry.name} takes ${cellCount} digits and sets of candidates, not ${digits.length} and ${candidates.length}.`,
      )
    for (let cell = 0; cell < cellCount; cell++) {
      assertWithin('digit', digits[cell], 0, order, cell)
      if (digits[cell] !== 0 && givens[cell] !== 0 && digits[cell] !== givens[cell])
        throw new RangeError(
          `Cell ${cell} has the given ${givens[cell]}, so ${digits[cell]} cannot stand there.`,
        )
      if ((givens[cell] || digits[cell]) === 0)
        assertWithin('set of candidates', candidates[cell], 0, allDigits(order), cell)
    }
    // Entry by entry: lists that come out of `map` are of two kinds, as it is compiled or not, and code that reads both is slower.
    const given: number[] = []
    const placed: number[] = []
    const marks: DigitSet[] = []
    for (let cell = 0; cell < cellCount; cell++) {
      const digit = givens[cell]! || digits[cell]!
      given.push(givens[cell] ? 1 : 0)
      placed.push(digit)
      marks.push(digit ? 0 : candidates[cell]!)
    }
    for (let cell = 0; cell < cellCount; cell++)
      if (placed[cell]) strikePeers(geometry, marks, cell, placed[cell]!)
    return new Board(geometry, given, placed, marks)
  }

  /** The printed puzzle this board began from. */
  get puzzle(): Puzzle {
    const givens = Array.from(this.digits, (digit, cell) => (this.given[cell] ? digit : 0))
    return uncheckedPuzzle(givens, this.geometry)
  }

  hasCandidate(cell: number, digit: number): boolean {
    return digit >= 1 && digit <= this.geometry.order && (this.candidates[cell]! & digitBit(digit)) !== 0
  }

  /** Cells without a digit. */
  get openCount(): number {
    let open = 0
    for (let cell = 0; cell < this.geometry.cellCount; cell++) if (this.digits[cell] === 0) open++
    return open
  }

  /** Where a digit may still go in a house, as a set of positions (bit i: the i-th cell of the house). */
  placesIn(house: number, digit: number): DigitSet {
    const bit = digitBit(digit)
    const cells = this.geometry.houses[house]!.cells
    let places = 0
    for (let i = 0; i < cells.length; i++) if (this.candidates[cells[i]!]! & bit) places |= 1 << i
    return places
  }

  /**
   * A new board with digits placed (and their peers' marks struck out) and candidates removed.
   *
   * @throws RangeError for a cell or digit that there is not, or a digit placed on another that was given
   */
  apply(conclusion: Conclusion): Board {
    const digits = this.digits.slice()
    const candidates = this.candidates.slice()
    for (const { cell, digit } of conclusion.removals) {
      this.assertCandidate(cell, digit)
      candidates[cell] = candidates[cell]! & ~digitBit(digit)
    }
    for (const { cell, digit } of conclusion.placements) {
      this.assertCandidate(cell, digit)
      if (this.given[cell] && digits[cell] !== digit)
        throw new RangeError(
          `Cell ${cell} has the given ${digits[cell]}, so ${digit} cannot be placed there.`,
        )
      digits[cell] = digit
      candidates[cell] = 0
      strikePeers(this.geometry, candidates, cell, digit)
    }
    return new Board(this.geometry, this.given, digits, candidates)
  }

  private assertCandidate(cell: number, digit: number): void {
    assertWithin('cell', cell, 0, this.geometry.cellCount - 1)
    assertWithin('digit', digit, 1, this.geometry.order, cell)
  }

  /**
   * Why this board cannot be finished as it stands: an open cell without candidates, a house with a digit twice, or a
   * house without a place for a digit. `undefined` while nothing of the kind shows.
   */
  get contradiction(): BoardContradiction | undefined {
    const { geometry } = this
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      if (this.digits[cell] === 0 && this.candidates[cell] === 0) return { kind: 'empty-cell', cell }
    }
    for (const house of geometry.houses) {
      let placed = 0
      let open = 0
      for (const cell of house.cells) {
        const digit = this.digits[cell]!
        if (digit === 0) open |= this.candidates[cell]!
        else if (placed & digitBit(digit)) return { kind: 'digit-twice', house: house.index, digit }
        else placed |= digitBit(digit)
      }
      const missing = allDigits(geometry.order) & ~placed & ~open
      if (missing)
        return {
          kind: 'no-place',
          house: house.index,
          digit: 32 - Math.clz32(missing & -missing),
        }
    }
    return undefined
  }
}

export type BoardContradiction =
  | { readonly kind: 'empty-cell'; readonly cell: number }
  | {
      readonly kind: 'digit-twice'
      readonly house: number
      readonly digit: number
    }
  | {
      readonly kind: 'no-place'
      readonly house: number
      readonly digit: number
    }

function assertWithin(what: string, n: unknown, least: number, most: number, cell?: number): void {
  if (Number.isInteger(n) && (n as number) >= least && (n as number) <= most) return
  const where = cell === undefined ? '' : ` in cell ${cell}`
  throw new RangeError(`There is no ${what} ${n}${where}; they go from ${least} to ${most}.`)
}

function strikePeers(geometry: Geometry, candidates: DigitSet[], cell: number, digit: number): void {
  const keep = ~digitBit(digit)
  const peers = geometry.peersOf[cell]!
  for (let i = 0; i < peers.length; i++) candidates[peers[i]!] = candidates[peers[i]!]! & keep
}
