import type { Board, Conclusion } from '../../grid/board.js'
import { type DigitSet, digitCount, firstDigit, lowestBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Context } from './context.js'
import { houseTables } from './house-tables.js'
import { zeros } from './number-lists.js'

/**
 * What every technique asks about a board, worked out once a board and shared. The first part is always there; the
 * rest is made when first asked for.
 */
export interface Facts {
  readonly board: Board
  /** Whose facts these are. */
  readonly context: Context
  /**
   * house × order + digit - 1 -> where the digit may still go, as a set of positions (as `board.placesIn` gives it).
   */
  readonly places: readonly DigitSet[]
  /** house -> positions of its open cells. */
  readonly open: readonly DigitSet[]
  /** An open cell has no candidate, or a house no place for a digit: `contradictionOf` says which. */
  readonly broken: boolean
  /** What has changed since an earlier board of the same path; see `Stamps`. */
  readonly stamps: Stamps
  /** Open cells, ascending. */
  readonly openCells: readonly number[]
  /** Cells with exactly two candidates, ascending. */
  readonly bivalue: readonly number[]
  /** Houses that have exactly two places for a digit, by digit. */
  bilocal(digit: number): readonly Bilocal[]
  /** house -> the digits that have exactly two places in it. */
  readonly twoPlaces: readonly DigitSet[]
  /** Cells that have this candidate, ascending. */
  cellsWith(digit: number): readonly number[]
}

/**
 * Numbers that say what has changed along a path: that of a cell, house or digit grows whenever one of its candidates
 * goes, and no number is given twice. So the greatest number of several houses is the same on two boards only if the
 * second follows from the first and all of these houses are as they were.
 */
export interface Stamps {
  readonly ofCell: readonly number[]
  readonly ofHouse: readonly number[]
  /** By digit, from 1. */
  readonly ofDigit: readonly number[]
}

/** A house with two places for a digit: a strong link. */
export interface Bilocal {
  readonly house: number
  readonly ends: readonly [number, number]
}

interface OwnStamps {
  readonly ofCell: number[]
  readonly ofHouse: number[]
  readonly ofDigit: number[]
}

class BoardFacts implements Facts {
  readonly board: Board
  readonly context: Context
  readonly places: number[]
  readonly open: number[]
  readonly broken: boolean
  readonly stamps: OwnStamps
  private openList: number[] | undefined
  private bivalueList: number[] | undefined
  private twoPlacesList: number[] | undefined
  private readonly bilocals: Bilocal[][] = []
  private readonly withDigit: number[][] = []

  private constructor(
    board: Board,
    context: Context,
    places: number[],
    open: number[],
    broken: boolean,
    stamps: OwnStamps,
  ) {
    this.board = board
    this.context = context
    this.places = places
    this.open = open
    this.broken = broken
    this.stamps = stamps
  }

  static of(board: Board, context: Context): BoardFacts {
    const { geometry, candidates, digits } = board
    const { order } = geometry
    const { houseCount, from, rowBase, positionBit } = houseTables(geometry)
    const places = zeros(houseCount * order)
    const open = zeros(houseCount)
    let broken = false
    for (let cell = 0; cell < geometry.cellCount; cell++) {
      if (digits[cell] !== 0) continue
      const set = candidates[cell]!
      if (set === 0) broken = true
      const end = from[cell + 1]!
      for (let i = from[cell]!; i < end; i++) {
        const base = rowBase[i]!
        const bit = positionBit[i]!
        open[(base / order) | 0]! |= bit
        for (let rest = set; rest !== 0; rest &= rest - 1) places[base + lowestBit(rest)]! |= bit
      }
    }
    // A house lacks as many digits as it has open cells; each of them needs a place.
    for (let house = 0, at = 0; house < houseCount && !broken; house++) {
      let digitsWithPlace = 0
      for (const end = at + order; at < end; at++) if (places[at] !== 0) digitsWithPlace++
      if (digitsWithPlace < digitCount(open[house]!)) broken = true
    }
    const stamp = context.nextStamp()
    return new BoardFacts(board, context, places, open, broken, {
      ofCell: new Array<number>(geometry.cellCount).fill(stamp),
      ofHouse: new Array<number>(houseCount).fill(stamp),
      ofDigit: new Array<number>(order + 1).fill(stamp),
    })
  }

  /**
   * The facts of the board that a conclusion leads to, made from the facts of the board before, whose lists they take
   * over: a step changes few of hundreds of entries.
   */
  moveTo(after: Board, { placements, removals }: Conclusion): BoardFacts {
    const { candidates } = this.board
    const { order } = after.geometry
    const { peersOf } = layoutOf(after.geometry)
    let broken = this.broken
    const stamp = this.context.nextStamp()
    for (let i = 0; i < removals.length; i++) {
      const { cell, digit } = removals[i]!
      if (this.strike(after, cell, candidates[cell]! & (1 << (digit - 1)), stamp)) broken = true
    }
    const { from, rowBase, positionBit } = houseTables(after.geometry)
    for (let i = 0; i < placements.length; i++) {
      const { cell, digit } = placements[i]!
      const peers = peersOf[cell]!
      for (let j = 0; j < peers.length; j++) {
        const peer = peers[j]!
        const gone = candidates[peer]! & ~after.candidates[peer]!
        if (gone !== 0 && this.strike(after, peer, gone, stamp)) broken = true
      }
      if (this.strike(after, cell, candidates[cell]! & ~(1 << (digit - 1)), stamp)) broken = true
      this.stamps.ofDigit[digit] = stamp
      for (let at = from[cell]!; at < from[cell + 1]!; at++) {
        const house = (rowBase[at]! / order) | 0
        this.places[rowBase[at]! + digit - 1] = 0
        this.open[house]! &= ~positionBit[at]!
        this.stamps.ofHouse[house] = stamp
      }
    }
    return new BoardFacts(after, this.context, this.places, this.open, broken, this.stamps)
  }

  /** The same for another context, with lists of its own. */
  copyFor(context: Context): BoardFacts {
    const { ofCell, ofHouse, ofDigit } = this.stamps
    const stamps = { ofCell: ofCell.slice(), ofHouse: ofHouse.slice(), ofDigit: ofDigit.slice() }
    return new BoardFacts(this.board, context, this.places.slice(), this.open.slice(), this.broken, stamps)
  }

  /**
   * Takes candidates out of a cell's houses; true when a house is left without a place or an open cell without digit.
   */
  private strike(after: Board, cell: number, gone: DigitSet, stamp: number): boolean {
    const { from, rowBase, positionBit } = houseTables(after.geometry)
    let broken = after.digits[cell] === 0 && after.candidates[cell] === 0
    const { ofCell, ofHouse, ofDigit } = this.stamps
    ofCell[cell] = stamp
    for (let rest = gone; rest !== 0; rest &= rest - 1) ofDigit[firstDigit(rest)] = stamp
    for (let at = from[cell]!; at < from[cell + 1]!; at++) {
      ofHouse[(rowBase[at]! / after.geometry.order) | 0] = stamp
      for (let rest = gone; rest !== 0; rest &= rest - 1) {
        const entry = rowBase[at]! + lowestBit(rest)
        const places = this.places[entry]!
        if (places === 0) continue
        this.places[entry] = places & ~positionBit[at]!
        if (this.places[entry] === 0)
          broken ||= !standsIn(after, (rowBase[at]! / after.geometry.order) | 0, entry)
      }
    }
    return broken
  }

  get openCells(): readonly number[] {
    if (!this.openList) {
      const { digits, geometry } = this.board
      this.openList = []
      for (let cell = 0; cell < geometry.cellCount; cell++) if (digits[cell] === 0) this.openList.push(cell)
    }
    return this.openList
  }

  get bivalue(): readonly number[] {
    if (!this.bivalueList) {
      const { candidates, geometry } = this.board
      this.bivalueList = []
      for (let cell = 0; cell < geometry.cellCount; cell++)
        if (holdsTwo(candidates[cell]!)) this.bivalueList.push(cell)
    }
    return this.bivalueList
  }

  bilocal(digit: number): readonly Bilocal[] {
    let list = this.bilocals[digit]
    if (!list) {
      list = []
      const { geometry } = this.board
      for (const { index, cells } of layoutOf(geometry).houses) {
        const set = this.places[index * geometry.order + digit - 1]!
        if (!holdsTwo(set)) continue
        list.push({ house: index, ends: [cells[lowestBit(set)]!, cells[31 - Math.clz32(set)]!] })
      }
      this.bilocals[digit] = list
    }
    return list
  }

  get twoPlaces(): readonly DigitSet[] {
    if (!this.twoPlacesList) {
      const { order, houses } = layoutOf(this.board.geometry)
      this.twoPlacesList = zeros(houses.length)
      for (let house = 0, at = 0; house < houses.length; house++)
        for (let bit = 1; bit < 1 << order; bit <<= 1)
          if (holdsTwo(this.places[at++]!)) this.twoPlacesList[house]! |= bit
    }
    return this.twoPlacesList
  }

  cellsWith(digit: number): readonly number[] {
    let list = this.withDigit[digit]
    if (!list) {
      list = []
      const { geometry, candidates } = this.board
      const bit = 1 << (digit - 1)
      for (let cell = 0; cell < geometry.cellCount; cell++) if (candidates[cell]! & bit) list.push(cell)
      this.withDigit[digit] = list
    }
    return list
  }
}

/** Does the digit of this entry of `places` stand in the house? */
function standsIn(board: Board, house: number, entry: number): boolean {
  const { order } = board.geometry
  const { houses } = layoutOf(board.geometry)
  const digit = (entry % order) + 1
  const { cells } = houses[house]!
  for (let i = 0; i < cells.length; i++) if (board.digits[cells[i]!] === digit) return true
  return false
}

function holdsTwo(set: DigitSet): boolean {
  const rest = set & (set - 1)
  return rest !== 0 && (rest & (rest - 1)) === 0
}

/** The facts of a context's latest board. */
class LatestFacts {
  facts: BoardFacts | undefined
}

const latestFacts = (): LatestFacts => new LatestFacts()

/**
 * The shared facts of a board; boards never change, so neither do these. A context keeps those of its latest board
 * only: techniques run one after another on the same board, and a map of all boards costs more than it saves.
 */
export function factsOf(context: Context, board: Board): Facts {
  const latest = context.of(latestFacts)
  if (latest.facts?.board !== board) latest.facts = BoardFacts.of(board, context)
  return latest.facts
}

/**
 * Moves the facts of a context on from one board to the next of a solving path, instead of working them out again.
 * Facts of the board before must not be used any more.
 */
export function moveFacts(context: Context, before: Board, after: Board, conclusion: Conclusion): void {
  const latest = context.of(latestFacts)
  if (latest.facts?.board === before) latest.facts = latest.facts.moveTo(after, conclusion)
}

/**
 * A context for what follows if a step is taken on this board: it knows all that is known of the board, and the context
 * of the board stays as it is.
 */
export function forkWith(context: Context, before: Board, after: Board, conclusion: Conclusion): Fork {
  factsOf(context, before)
  const { facts } = context.of(latestFacts)
  const fork = context.fork()
  fork.of(latestFacts).facts = facts!.copyFor(fork).moveTo(after, conclusion)
  return { context: fork, board: after }
}

/** A board that is tried out, and a context for what follows from it. */
export interface Fork {
  readonly context: Context
  readonly board: Board
}

/** Cells of a house at these positions. */
export function cellsAt(geometry: Geometry, house: number, positions: DigitSet): number[] {
  const { cells } = layoutOf(geometry).houses[house]!
  const found: number[] = []
  for (let rest = positions; rest !== 0; rest &= rest - 1) found.push(cells[lowestBit(rest)]!)
  return found
}

/** Cells that have a candidate and see every one of these cells (and are none of them), ascending. */
export function candidatesSeenByAll(board: Board, digit: number, cells: readonly number[]): number[] {
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const bit = 1 << (digit - 1)
  const seen: number[] = []
  for (const cell of layout.peersOf[cells[0]!]!) {
    if (!(candidates[cell]! & bit)) continue
    let byAll = true
    for (let i = 1; i < cells.length && byAll; i++) byAll = layout.arePeers(cell, cells[i]!)
    if (byAll) seen.push(cell)
  }
  return seen
}
