import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import type { Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { NONE, type SectorMatching, sectorMatching } from './sector-matching.js'
import { type LockedPlaces, SmallestLocked } from './smallest-locked.js'

/** Cells with as many sectors as cells: the candidates of other cells there go. */
export interface LockedCells {
  /** Ascending. */
  readonly cells: readonly number[]
  readonly sectors: readonly { readonly house: number; readonly digit: number }[]
  /** Of other cells, in the sectors that lock in all these cells and not fewer, whichever kinds are chosen. */
  readonly removals: readonly Candidate[]
}

/** Locked cells and where they stand among those of their size. */
interface Ranked {
  readonly set: LockedCells
  /** The first choice of kinds that locks them, and the first candidate removed by it. */
  readonly choice: number
  readonly first: number
}

/**
 * Most ways there may be to choose the kind of house for each open digit: all of three kinds for nine digits. With more
 * digits, rows and columns alone are looked at, and where that is still too much, nothing.
 */
const MOST_CHOICES = 20_000

/**
 * The locked cells that remove something which no smaller ones do, each counted in the fewest houses; smallest first,
 * then in the order of the choices of kinds.
 */
export function* smallestLockedCells(facts: Facts, watch: Watch): Task<readonly LockedCells[]> {
  const { board } = facts
  const digits = digitsOf(board.candidates.reduce((all, set) => all | set, 0)).sort(
    (a, b) => facts.cellsWith(a).length - facts.cellsWith(b).length,
  )
  const { rows, columns, blocks } = linesOf(board.geometry)
  const kinds = [rows, columns, blocks].filter((kind) => kind.length > 0)
  while (kinds.length ** digits.length > MOST_CHOICES) kinds.pop()
  if (kinds.length < 2) return []
  const matching = yield* sectorMatching(facts, digits, kinds, watch)
  if (!matching) return []
  const sets = yield* new SmallestLocked(matching).search(watch)
  return sets
    .map((places) => new Choices(matching, places).ranked())
    .sort((a, b) => a.set.cells.length - b.set.cells.length || a.choice - b.choice || a.first - b.first)
    .map(({ set }) => set)
}

/** The choices of kinds by which some cells are locked. */
class Choices {
  private readonly matching: SectorMatching
  private readonly places: LockedPlaces
  /** place -> whether it is one of the cells. */
  private readonly isIn: readonly boolean[]
  /** Digit number -> the kinds by which it leads from these cells to these cells only; none where they lack it. */
  private readonly kindsFor: readonly (readonly number[])[]
  /** Digit number -> the kind chosen. */
  private readonly chosen: number[]
  /** Of other cells, place × digits + digit number. */
  private readonly removed = new Set<number>()
  private fewestHouses = Number.POSITIVE_INFINITY
  private sectors: LockedCells['sectors'] = []
  private firstChoice = NONE
  private firstRemoved = NONE

  constructor(matching: SectorMatching, places: LockedPlaces) {
    const { cells, digits, kinds, holders } = matching
    const isIn: boolean[] = new Array(cells.length).fill(false)
    for (const place of places) isIn[place] = true
    this.matching = matching
    this.places = places
    this.isIn = isIn
    this.kindsFor = digits.map((_, digit) => {
      const fitting: number[] = []
      const leads = (place: number, kind: number) => holders[(place * digits.length + digit) * kinds + kind]!
      if (!places.some((place) => leads(place, 0) !== NONE)) return fitting
      for (let kind = 0; kind < kinds; kind++)
        if (places.every((place) => leads(place, kind) === NONE || isIn[leads(place, kind)]))
          fitting.push(kind)
      return fitting
    })
    this.chosen = new Array(digits.length).fill(NONE)
  }

  ranked(): Ranked {
    const { matching, places, removed } = this
    this.choose(matching.digits.length - 1, 0)
    const { cells, digits } = matching
    const removals = [...removed].map((candidate) => ({
      cell: cells[Math.floor(candidate / digits.length)]!,
      digit: digits[candidate % digits.length]!,
    }))
    return {
      set: { cells: places.map((place) => cells[place]!), sectors: this.sectors, removals },
      choice: this.firstChoice,
      first: this.firstRemoved,
    }
  }

  /** Tries every choice for this digit and those before it. `choice` numbers what is chosen for the others. */
  private choose(digit: number, choice: number): void {
    if (digit < 0) {
      this.look(choice)
      return
    }
    const { kinds } = this.matching
    const fitting = this.kindsFor[digit]!
    if (fitting.length === 0) this.choose(digit - 1, choice * kinds)
    for (const kind of fitting) {
      this.chosen[digit] = kind
      this.choose(digit - 1, choice * kinds + kind)
    }
  }

  /** Notes what the cells remove by the choice in hand. */
  private look(choice: number): void {
    const { cells, digits, kinds, filling, holders, houseOf } = this.matching
    const { places, isIn, chosen, removed } = this
    let any = false
    for (const holder of places) {
      const digit = filling[holder]!
      let locksAll: boolean | undefined
      for (let place = 0; place < cells.length; place++) {
        if (isIn[place] || holders[(place * digits.length + digit) * kinds + chosen[digit]!] !== holder)
          continue
        locksAll ??= this.leadsToAll(holder)
        if (!locksAll) break
        any = true
        removed.add(place * digits.length + digit)
        const order = place * 32 + digits[digit]!
        if (this.firstChoice === NONE || (this.firstChoice === choice && order < this.firstRemoved)) {
          this.firstChoice = choice
          this.firstRemoved = order
        }
      }
    }
    if (!any) return
    const sectors = places.map((place) => {
      const digit = filling[place]!
      return { house: houseOf[place * kinds + chosen[digit]!]!, digit: digits[digit]! }
    })
    const houses = new Set(sectors.map(({ house }) => house)).size
    if (houses >= this.fewestHouses) return
    this.fewestHouses = houses
    this.sectors = sectors
  }

  /** Does one of the cells lead to all of them by the choice in hand? */
  private leadsToAll(from: number): boolean {
    const { digits, kinds, holders } = this.matching
    const met = new Set([from])
    for (const place of met)
      for (let digit = 0; digit < digits.length; digit++) {
        const holder = holders[(place * digits.length + digit) * kinds + this.chosen[digit]!]!
        if (this.chosen[digit] !== NONE && holder !== NONE) met.add(holder)
      }
    return met.size === this.places.length
  }
}
