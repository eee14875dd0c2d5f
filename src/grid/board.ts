import { argumentError, arrayLike, isWhole, object, shown } from '../check-arguments.js'
import { InputError } from '../errors.js'
import { allDigits, type DigitSet, digitBit } from './digits.js'
import { checkCell, type Geometry } from './geometry.js'
import { layoutOf } from './layout.js'
import { checkPuzzle, type Puzzle, uncheckedPuzzle } from './puzzle.js'

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

/** What the owner of a board has done to it: all that a board is made of, besides its puzzle. */
export interface BoardParts {
  /** cell -> digit that stands there (givens included), 0 while open. */
  readonly digits: ArrayLike<number>
  /** cell -> candidates removed by hand. */
  readonly removed: ArrayLike<DigitSet>
  /** cell -> 1 where marks were noted, 0 where nothing was. */
  readonly noted: ArrayLike<number>
}

/**
 * A step on the way: digits placed so far and the candidates (pencil marks) left in the open cells. Never mutated: an
 * edit gives a new board, and to undo it is to go back to the board before.
 *
 * What was removed by hand is kept apart from what digits rule out, also in cells that hold a digit now. So a board
 * depends on its entries and removals alone and not on the order in which they were made: a digit that is erased, or
 * overwritten by another, leaves nothing behind.
 */
export class Board {
  readonly geometry: Geometry
  /** cell -> was it printed? 1 or 0. */
  readonly given: readonly number[]
  /** cell -> placed digit, 0 while open. */
  readonly digits: readonly number[]
  /** cell -> candidates left: neither ruled out by a digit in sight nor removed; 0 for a cell with a digit. */
  readonly candidates: readonly DigitSet[]
  /** cell -> candidates removed by hand or by a step, whether or not a digit rules them out, too; 0 for a given. */
  readonly removed: readonly DigitSet[]
  /** cell -> 1 where marks were noted, 0 where nothing was, which leaves every digit open; 1 for a given. */
  readonly noted: readonly number[]

  // Plain arrays, not typed ones: a solving path makes thousands of boards, and a small typed array costs several
  // times as much to make as a slice of 81 small integers.
  private constructor(
    geometry: Geometry,
    given: readonly number[],
    digits: readonly number[],
    candidates: readonly DigitSet[],
    removed: readonly DigitSet[],
    noted: readonly number[],
  ) {
    this.geometry = geometry
    this.given = given
    this.digits = digits
    this.candidates = candidates
    this.removed = removed
    this.noted = noted
  }

  /** All pencil marks that the givens leave. */
  static fromPuzzle(puzzle: Puzzle): Board {
    checkPuzzle(puzzle)
    const { geometry, givens } = puzzle
    return Board.fromMarks(puzzle, givens, new Array(geometry.cellCount).fill(allDigits(geometry.order)))
  }

  /**
   * A half-solved board: what is written in each cell, and which candidates its owner has noted in the open ones.
   *
   * `undefined` is a cell in which nothing is noted: every digit stays open there that the placed digits leave. 0 is a cell
   * in which all candidates are struck out. Of what the placed digits leave, a candidate that is not noted counts as
   * removed by hand; noted ones that a placed digit rules out do not show until that digit is erased.
   *
   * ```ts
   * Board.fromMarks(puzzle, digits, new Array(81).fill(undefined)) // digits only: no pencil marks so far
   * ```
   *
   * @param digits cell -> placed digit (givens included) or 0
   * @param candidates cell -> candidates noted, or undefined; a set is ignored where a digit is placed
   * @throws InputError `argument` when a list has another length than the board, a number makes no sense there, or a digit is not the given
   */
  static fromMarks(
    puzzle: Puzzle,
    digits: ArrayLike<number>,
    candidates: ArrayLike<DigitSet | undefined>,
  ): Board {
    checkPuzzle(puzzle)
    arrayLike(digits, 'digits')
    arrayLike(candidates, 'candidates')
    const { geometry, givens } = puzzle
    assertLengths(geometry, digits, candidates)
    assertDigits(puzzle, digits)
    const all = allDigits(geometry.order)
    for (let cell = 0; cell < geometry.cellCount; cell++)
      if ((givens[cell] || digits[cell]) === 0 && candidates[cell] !== undefined)
        assertWithin('set of candidates', candidates[cell], 0, all, cell)
    const placed = standing(puzzle, digits)
    const left = leftByDigits(geometry, placed)
    // Entry by entry: lists that come out of `map` are of two kinds, as it is compiled or not, and code that reads both is slower.
    const removed: DigitSet[] = []
    const noted: number[] = []
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      const marks = placed[cell] ? all : (candidates[cell] ?? all)
      removed.push(left[cell]! & ~marks)
      noted.push(candidates[cell] === undefined && !givens[cell] ? 0 : 1)
      left[cell] = left[cell]! & marks
    }
    return new Board(geometry, givenCells(puzzle), placed, left, removed, noted)
  }

  /**
   * A board from all that its owner has done, removals under placed digits included: `Board.fromParts(puzzle, board)` gives
   * an equal board.
   *
   * @throws InputError `argument` when a list has another length than the board, a number makes no sense there, or a digit is not the given
   */
  static fromParts(puzzle: Puzzle, parts: BoardParts): Board {
    checkPuzzle(puzzle)
    object(parts, 'parts')
    arrayLike(parts.digits, 'parts.digits')
    arrayLike(parts.removed, 'parts.removed')
    arrayLike(parts.noted, 'parts.noted')
    const { geometry, givens } = puzzle
    assertLengths(geometry, parts.digits, parts.removed)
    assertLengths(geometry, parts.digits, parts.noted)
    assertDigits(puzzle, parts.digits)
    const placed = standing(puzzle, parts.digits)
    const candidates = leftByDigits(geometry, placed)
    const removed: DigitSet[] = []
    const noted: number[] = []
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      assertWithin('set of candidates', parts.removed[cell], 0, allDigits(geometry.order), cell)
      assertWithin('number of notes', parts.noted[cell], 0, 1, cell)
      removed.push(givens[cell] ? 0 : parts.removed[cell]!)
      noted.push(givens[cell] ? 1 : parts.noted[cell]!)
      candidates[cell] = candidates[cell]! & ~removed[cell]!
    }
    return new Board(geometry, givenCells(puzzle), placed, candidates, removed, noted)
  }

  /** The printed puzzle this board began from. */
  get puzzle(): Puzzle {
    const givens = Array.from(this.digits, (digit, cell) => (this.given[cell] ? digit : 0))
    return uncheckedPuzzle(givens, this.geometry)
  }

  hasCandidate(cell: number, digit: number): boolean {
    if (typeof cell !== 'number' || typeof digit !== 'number') return false
    return digit >= 1 && digit <= this.geometry.order && (this.candidates[cell]! & digitBit(digit)) !== 0
  }

  /** Cells without a digit. */
  get openCount(): number {
    let open = 0
    for (let cell = 0; cell < this.geometry.cellCount; cell++) if (this.digits[cell] === 0) open++
    return open
  }

  /** Where a digit may still go in a house, as a set of positions (bit i: the i-th cell of the house).
   *
   * @throws InputError `argument` for a house or digit that there is not
   */
  placesIn(house: number, digit: number): DigitSet {
    assertWithin('house', house, 0, layoutOf(this.geometry).houses.length - 1)
    assertWithin('digit', digit, 1, this.geometry.order)
    const bit = digitBit(digit)
    const cells = layoutOf(this.geometry).houses[house]!.cells
    let places = 0
    for (let i = 0; i < cells.length; i++) if (this.candidates[cells[i]!]! & bit) places |= 1 << i
    return places
  }

  /** Does this cell show marks of its owner? Not where nothing was noted and nothing removed. */
  isNoted(cell: number): boolean {
    assertWithin('cell', cell, 0, this.geometry.cellCount - 1)
    return this.noted[cell] === 1 || this.removed[cell]! > 0
  }

  /**
   * A new board with digits placed (and their peers' marks struck out) and candidates removed. A digit placed on another one
   * takes its place: the board is then the one that would be had the other never been there. A removal is kept where the candidate does
   * not show, too, since a digit rules it out or stands in the cell; one from a given changes nothing.
   *
   * @throws InputError `argument` for a cell or digit that there is not, or a digit placed on another that was given
   */
  apply(conclusion: Conclusion): Board {
    checkConclusion(conclusion)
    const { placements, removals } = conclusion
    const { geometry } = this
    const candidates = this.candidates.slice()
    let { digits, removed }: { digits: readonly number[]; removed: readonly DigitSet[] } = this
    if (removals.length > 0) {
      const struck = removed.slice()
      for (const { cell, digit } of removals) {
        this.assertCandidate(cell, digit)
        if (this.given[cell]) continue
        candidates[cell] = candidates[cell]! & ~digitBit(digit)
        struck[cell] = struck[cell]! | digitBit(digit)
      }
      removed = struck
    }
    if (placements.length > 0) {
      const placed = digits.slice()
      for (const { cell, digit } of placements) {
        this.assertCandidate(cell, digit)
        const before = placed[cell]!
        if (before === digit) continue
        if (this.given[cell])
          throw new InputError(
            'argument',
            `Cell ${cell} has the given ${before}, so ${digit} cannot be placed there.`,
          )
        placed[cell] = digit
        candidates[cell] = 0
        if (before !== 0) showPeers(geometry, placed, removed, candidates, cell, before)
        strikePeers(geometry, candidates, cell, digit)
      }
      digits = placed
    }
    return new Board(geometry, this.given, digits, candidates, removed, this.noted)
  }

  /**
   * A new board without the digit of a cell: the one that would be had it never been placed, with the marks that were there and
   * around it. An open cell stays as it is.
   *
   * @throws InputError `argument` for a cell that there is not, or one with a given
   */
  erase(cell: number): Board {
    this.assertOwn(cell, 'erased')
    const { geometry } = this
    const before = this.digits[cell]!
    if (before === 0) return this
    const digits = this.digits.slice()
    const candidates = this.candidates.slice()
    digits[cell] = 0
    candidates[cell] = leftIn(geometry, digits, cell) & ~this.removed[cell]!
    showPeers(geometry, digits, this.removed, candidates, cell, before)
    return new Board(geometry, this.given, digits, candidates, this.removed, this.noted)
  }

  /**
   * A new board with removals undone: the candidates show again, but for those that a digit rules out.
   *
   * @throws InputError `argument` for a cell or digit that there is not
   */
  restore(candidates: readonly Candidate[]): Board {
    checkList(candidates, 'candidates')
    const removed = this.removed.slice()
    for (const { cell, digit } of candidates) {
      this.assertCandidate(cell, digit)
      removed[cell] = removed[cell]! & ~digitBit(digit)
    }
    return this.withRemovals(removed, this.noted)
  }

  /**
   * A new board with the marks of a cell written anew: of the candidates that the digits around it leave, those in the set
   * are restored and the others removed. A candidate that is ruled out now and not in the set stays what it was: nobody had the
   * choice to note it. `undefined` clears the cell: nothing noted, nothing removed.
   *
   * @throws InputError `argument` for a cell that there is not, one with a given, or a set with other digits than there are
   */
  note(cell: number, marks: DigitSet | undefined): Board {
    this.assertOwn(cell, 'noted in')
    if (marks !== undefined) assertWithin('set of candidates', marks, 0, allDigits(this.geometry.order), cell)
    const removed = this.removed.slice()
    const noted = this.noted.slice()
    noted[cell] = marks === undefined ? 0 : 1
    removed[cell] =
      marks === undefined ? 0 : (removed[cell]! | leftIn(this.geometry, this.digits, cell)) & ~marks
    return this.withRemovals(removed, noted)
  }

  private withRemovals(removed: readonly DigitSet[], noted: readonly number[]): Board {
    const candidates = leftByDigits(this.geometry, this.digits)
    for (let cell = 0; cell < candidates.length; cell++)
      candidates[cell] = candidates[cell]! & ~removed[cell]!
    return new Board(this.geometry, this.given, this.digits, candidates, removed, noted)
  }

  private assertOwn(cell: number, done: string): void {
    assertWithin('cell', cell, 0, this.geometry.cellCount - 1)
    if (this.given[cell])
      throw new InputError(
        'argument',
        `Cell ${cell} has the given ${this.digits[cell]}, so it cannot be ${done}.`,
      )
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
    for (const house of layoutOf(geometry).houses) {
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

/** @throws InputError `argument` for what is no board, a copy through JSON or from another thread among them */
export function checkBoard(value: unknown, name = 'board'): asserts value is Board {
  if (!(value instanceof Board))
    throw argumentError(
      name,
      'a Board',
      value,
      'Make one with Board.fromPuzzle, parseBoard or, from saved data, boardFromJson.',
    )
}

/** @throws InputError `argument` for what is neither a board nor a puzzle */
export function checkSource(source: unknown, name = 'source'): asserts source is Board | Puzzle {
  if (!(source instanceof Board)) checkPuzzle(source, name)
}

/** A board as it is, or the one that a puzzle begins with. */
export function boardFrom(source: Board | Puzzle, name = 'source'): Board {
  checkSource(source, name)
  return source instanceof Board ? source : Board.fromPuzzle(source)
}

/** The shape of what a board applies; each number is looked at when it is. */
function checkConclusion(conclusion: Conclusion): void {
  object(conclusion, 'conclusion')
  checkList(conclusion.placements, 'conclusion.placements')
  checkList(conclusion.removals, 'conclusion.removals')
}

/** By hand and not by `listOf`, as solving applies thousands of conclusions. */
function checkList(list: readonly Candidate[], name: string): void {
  if (!Array.isArray(list)) throw argumentError(name, 'a list of candidates', list)
  for (let i = 0; i < list.length; i++)
    if (typeof list[i] !== 'object' || list[i] === null)
      throw argumentError(`${name}[${i}]`, 'a cell and a digit', list[i])
}

/** @throws InputError `argument` unless these are candidates of the geometry */
export function checkCandidates(geometry: Geometry, list: readonly Candidate[], name: string): void {
  checkList(list, name)
  list.forEach(({ cell, digit }, i) => {
    checkCell(geometry, cell, `${name}[${i}].cell`)
    if (!isWhole(digit, 1, geometry.order))
      throw argumentError(`${name}[${i}].digit`, `a digit from 1 to ${geometry.order}`, digit)
  })
}

function assertWithin(what: string, n: unknown, least: number, most: number, cell?: number): void {
  if (Number.isInteger(n) && (n as number) >= least && (n as number) <= most) return
  const where = cell === undefined ? '' : ` in cell ${cell}`
  throw new InputError(
    'argument',
    `There is no ${what} ${shown(n)}${where}; they go from ${least} to ${most}.`,
  )
}

function assertLengths(geometry: Geometry, digits: ArrayLike<number>, marks: ArrayLike<unknown>): void {
  const { cellCount, name } = geometry
  if (digits.length !== cellCount || marks.length !== cellCount)
    throw new InputError(
      'argument',
      `A board of ${name} takes ${cellCount} digits and sets of candidates, not ${digits.length} and ${marks.length}.`,
    )
}

function assertDigits({ geometry, givens }: Puzzle, digits: ArrayLike<number>): void {
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    assertWithin('digit', digits[cell], 0, geometry.order, cell)
    if (digits[cell] !== 0 && givens[cell] !== 0 && digits[cell] !== givens[cell])
      throw new InputError(
        'argument',
        `Cell ${cell} has the given ${givens[cell]}, so ${digits[cell]} cannot stand there.`,
      )
  }
}

function givenCells({ geometry, givens }: Puzzle): number[] {
  const given: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) given.push(givens[cell] ? 1 : 0)
  return given
}

function standing({ geometry, givens }: Puzzle, digits: ArrayLike<number>): number[] {
  const placed: number[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) placed.push(givens[cell]! || digits[cell]!)
  return placed
}

/** cell -> what the digits in sight leave in it; 0 for a cell with a digit. */
function leftByDigits(geometry: Geometry, digits: readonly number[]): DigitSet[] {
  const all = allDigits(geometry.order)
  const left: DigitSet[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) left.push(digits[cell] ? 0 : all)
  for (let cell = 0; cell < geometry.cellCount; cell++)
    if (digits[cell]) strikePeers(geometry, left, cell, digits[cell]!)
  return left
}

/** What the digits in sight leave in one cell, whether it is open or not. */
function leftIn(geometry: Geometry, digits: readonly number[], cell: number): DigitSet {
  let left = allDigits(geometry.order)
  for (const peer of layoutOf(geometry).peersOf[cell]!) if (digits[peer]) left &= ~digitBit(digits[peer]!)
  return left
}

function strikePeers(geometry: Geometry, candidates: DigitSet[], cell: number, digit: number): void {
  const keep = ~digitBit(digit)
  const peers = layoutOf(geometry).peersOf[cell]!
  for (let i = 0; i < peers.length; i++) candidates[peers[i]!] = candidates[peers[i]!]! & keep
}

/** The digit that stood in this cell stands there no more: its peers have it as a candidate unless there are other reasons. */
function showPeers(
  geometry: Geometry,
  digits: readonly number[],
  removed: readonly DigitSet[],
  candidates: DigitSet[],
  cell: number,
  digit: number,
): void {
  const layout = layoutOf(geometry)
  const bit = digitBit(digit)
  for (const peer of layout.peersOf[cell]!) {
    if (digits[peer] !== 0 || removed[peer]! & bit) continue
    if (layout.peersOf[peer]!.every((other) => digits[other] !== digit))
      candidates[peer] = candidates[peer]! | bit
  }
}
