import { lowestBit } from '../../grid/digits.js'
import type { Task, Watch } from '../../limits.js'
import { NONE, type SectorMatching } from './sector-matching.js'
import { bitsIn, SectorTable } from './sector-table.js'
import { sharesOf } from './shares.js'

/** Locked cells, as places of a matching, ascending. */
export type LockedPlaces = readonly number[]

/** Turns of the search between two looks at the clock. */
const STRETCH = 64

/**
 * Turns spent on each candidate and kind before the searches that go to the end: what is shown easily helps with the
 * rest.
 */
const STINTS = [0, 4, 16, 64, 256, Number.POSITIVE_INFINITY]

/** What is known of a candidate and a kind of its sector. */
const UNKNOWN = 0
/** No set removes it so: its cell is in the set whenever the holder is and the digit has this kind. */
const TIED = 1
const FREE = 2

/**
 * For every candidate that some locked cells remove, all the smallest locked cells that do.
 *
 * A candidate goes when the holder of its sector does not lead to its cell, once a kind of house is chosen for each
 * digit; then all that the holder leads to is the set. So for each candidate and each kind of its sector a search
 * decides which cells are inside the set, as all that its cells lead to, and which are outside, as all that leads to
 * the candidate's cell. Each cell inside forbids the kinds by which it would lead outside, and a digit with one kind
 * left moves more cells to either side. What is left is tried, one digit at a time: only digits that lead out of the
 * set by each of their kinds, since what can stay as it is is smaller than anything that grows from it.
 *
 * Most candidates are removed by no set, whatever the kind of their sector: then by that kind a holder leads to such a
 * cell as well as the cell to its holder, in every search after that. The more is known to be tied, the less is left to
 * try.
 */
export class SmallestLocked {
  private readonly table: SectorTable
  /** (candidate × kinds) + kind -> what is known. A candidate's number is place × digits + digit number. */
  private readonly known: number[]
  /** Candidate -> size of the smallest locked cells known to remove it. */
  private readonly leastFor: number[]
  private readonly found = new Map<string, Found>()
  /** Size of the smallest locked cells known to remove the candidate in hand. */
  private least = Number.POSITIVE_INFINITY

  // Where the search stands: the two sides as sets of places, and for each digit the kinds it may have, as a mask.
  private readonly inside: Int32Array
  private readonly outside: Int32Array
  private readonly allowed: Int32Array
  /** Digit numbers of which something has changed, as a mask. */
  private changed = 0
  /** Places that lead outside by every kind, and by one. */
  private readonly out: Int32Array
  private readonly outByKind: Int32Array
  /** The same three as they were before each digit being tried, the digit, and the kinds left to try for it. */
  private readonly before: readonly Snapshot[]
  private depth = 0

  constructor(matching: SectorMatching) {
    const { cells, digits, kinds } = matching
    const table = new SectorTable(matching)
    this.table = table
    this.known = new Array(cells.length * digits.length * kinds).fill(UNKNOWN)
    this.leastFor = new Array(cells.length * digits.length).fill(Number.POSITIVE_INFINITY)
    this.inside = new Int32Array(table.words)
    this.outside = new Int32Array(table.words)
    this.allowed = new Int32Array(digits.length)
    this.out = new Int32Array(table.words)
    this.outByKind = new Int32Array(table.words)
    this.before = digits.map(() => ({
      inside: new Int32Array(table.words),
      outside: new Int32Array(table.words),
      allowed: new Int32Array(digits.length),
      digit: NONE,
      kindsLeft: 0,
    }))
  }

  /** Each set once, in no order that matters. */
  *search(watch: Watch): Task<readonly LockedPlaces[]> {
    const { kinds } = this.table.matching
    this.tieSharers()
    for (const turns of STINTS)
      for (const { place, digit } of this.table.candidates)
        for (let kind = 0; kind < kinds; kind++) yield* this.learn(place, digit, kind, turns, watch)
    for (const { place, digit } of this.table.candidates) yield* this.findFor(place, digit, watch)
    return [...this.found.values()].filter(({ isSmallest }) => isSmallest).map(({ places }) => places)
  }

  /** What may have a share is removed by no set, by whatever kind. */
  private tieSharers(): void {
    const { table, known } = this
    const { digits, kinds } = table.matching
    const shares = sharesOf(table.matching)
    for (const { place, digit } of table.candidates) {
      const candidate = place * digits.length + digit
      if (!shares[candidate]) continue
      for (let kind = 0; kind < kinds; kind++) {
        known[candidate * kinds + kind] = TIED
        table.tie(place, digit, kind)
      }
    }
  }

  /** Finds out, as far as so many turns show, whether any set removes the candidate by a sector of this kind. */
  private *learn(place: number, digit: number, kind: number, turns: number, watch: Watch): Task<void> {
    const { digits, kinds } = this.table.matching
    const at = (place * digits.length + digit) * kinds + kind
    if (this.known[at] !== UNKNOWN) return
    this.least = Number.POSITIVE_INFINITY
    const end = yield* this.run(this.begin(place, digit, kind), NONE, turns, watch)
    this.known[at] = end
    if (end === FREE)
      this.leastFor[(at / kinds) | 0] = Math.min(this.leastFor[(at / kinds) | 0]!, sizeOf(this.inside))
    if (end === TIED) this.table.tie(place, digit, kind)
  }

  /** All the smallest sets that remove a candidate. */
  private *findFor(place: number, digit: number, watch: Watch): Task<void> {
    const { digits, kinds } = this.table.matching
    const candidate = place * digits.length + digit
    this.least = this.leastFor[candidate]!
    for (let kind = 0; kind < kinds; kind++) {
      if (this.known[candidate * kinds + kind] === TIED) continue
      yield* this.run(this.begin(place, digit, kind), candidate, Number.POSITIVE_INFINITY, watch)
    }
    for (const found of this.found.values())
      if (found.candidate === candidate && found.places.length === this.least) found.isSmallest = true
  }

  /** With the candidate's cell outside and its holder inside; false when that cannot be. */
  private begin(place: number, digit: number, kind: number): boolean {
    const { digits, kinds, holders } = this.table.matching
    const holder = holders[(place * digits.length + digit) * kinds + kind]!
    this.inside.fill(0)
    this.outside.fill(0)
    this.allowed.fill((1 << kinds) - 1)
    this.allowed[digit] = 1 << kind
    this.depth = 0
    this.inside[holder >>> 5] = 1 << (holder & 31)
    this.outside[place >>> 5] = 1 << (place & 31)
    this.changed = this.table.digitsAt[holder]! | this.table.digitsAt[place]!
    return this.settle()
  }

  /**
   * Tries what is left to try after the beginning.
   *
   * @param candidate number of the one that the sets remove; without one the first set is enough
   * @returns `TIED` at the end, `FREE` once there is a set that is enough, `UNKNOWN` when so many turns were not enough
   */
  private *run(isOpen: boolean, candidate: number, atMost: number, watch: Watch): Task<number> {
    if (isOpen && this.open(candidate)) return FREE
    for (let turns = 1; this.depth > 0; turns++) {
      if (turns > atMost) return UNKNOWN
      if (turns % STRETCH === 0 && watch.isDue()) yield
      const before = this.before[this.depth - 1]!
      const left = before.kindsLeft
      if (left === 0) {
        this.depth--
        continue
      }
      this.inside.set(before.inside)
      this.outside.set(before.outside)
      this.allowed.set(before.allowed)
      before.kindsLeft = left & (left - 1)
      this.allowed[before.digit] = left & -left
      this.changed = 1 << before.digit
      if (this.settle() && this.open(candidate)) return FREE
    }
    return TIED
  }

  /** Chooses the digit to be tried next; where none needs to be, the set is closed. True when that is enough. */
  private open(candidate: number): boolean {
    const { allowed } = this
    let next = NONE
    let fewest = this.table.matching.kinds + 1
    let furthest = 0
    const room = this.least === Number.POSITIVE_INFINITY ? this.least : this.least - sizeOf(this.inside)
    for (let digit = 0; digit < allowed.length; digit++) {
      const kinds = bitsIn(allowed[digit]!)
      if (kinds > fewest || kinds === 1) continue
      const out = this.leastOut(digit)
      if (out > room) return false
      if (out === 0 || (kinds === fewest && out <= furthest)) continue
      next = digit
      fewest = kinds
      furthest = out
    }
    if (next === NONE) {
      if (candidate === NONE) return true
      this.keep(candidate)
      return false
    }
    const before = this.before[this.depth++]!
    before.inside.set(this.inside)
    before.outside.set(this.outside)
    before.allowed.set(allowed)
    before.digit = next
    before.kindsLeft = allowed[next]!
    return false
  }

  /** In how many sectors the digit leads out of the set, by the kind by which they are fewest. */
  private leastOut(digit: number): number {
    const { inside, allowed, table } = this
    const { words, first, holders, sets } = table
    let least = Number.POSITIVE_INFINITY
    for (let rest = allowed[digit]!; rest !== 0; rest &= rest - 1) {
      const list = table.list(digit, rest & -rest)
      let out = 0
      for (let sector = first[list]!, end = first[list + 1]!; sector < end; sector++) {
        const holder = holders[sector]!
        // places that lead to a holder outside the set, or tied ones that a holder in the set leads to
        const isInside = (inside[holder >>> 5]! & (1 << (holder & 31))) !== 0
        let leadsOut = 0
        for (let w = 0, at = 2 * sector * words; w < words; w++, at += 2)
          leadsOut |= isInside ? sets[at + 1]! & ~inside[w]! : sets[at]! & inside[w]!
        if (leadsOut !== 0) out++
      }
      if (out < least) least = out
    }
    return least
  }

  private keep(candidate: number): void {
    const places = placesIn(this.inside)
    this.least = places.length
    const key = places.join()
    const known = this.found.get(key)
    if (known) known.candidate = candidate
    else this.found.set(key, { places, candidate, isSmallest: false })
  }

  /**
   * Follows up every change; false when that comes to a contradiction, or the set is too large to be a smallest one.
   */
  private settle(): boolean {
    while (this.changed !== 0) {
      const digit = lowestBit(this.changed)
      this.changed &= this.changed - 1
      const kinds = this.allowed[digit]!
      if ((kinds & (kinds - 1)) !== 0 ? !this.weigh(digit, kinds) : !this.follow(digit, kinds)) return false
    }
    return this.least === Number.POSITIVE_INFINITY || sizeOf(this.inside) <= this.least
  }

  /** Follows a digit by its one kind; false when it leads from inside to outside. */
  private follow(digit: number, kind: number): boolean {
    const { inside, outside, table } = this
    const { words, first, holders, sets } = table
    const list = table.list(digit, kind)
    for (let sector = first[list]!, end = first[list + 1]!; sector < end; sector++) {
      const holder = holders[sector]!
      const word = holder >>> 5
      const bit = 1 << (holder & 31)
      let placeInside = 0
      let tiedOutside = 0
      for (let w = 0, at = 2 * sector * words; w < words; w++, at += 2) {
        placeInside |= sets[at]! & inside[w]!
        tiedOutside |= sets[at + 1]! & outside[w]!
      }
      if (placeInside !== 0 || (inside[word]! & bit) !== 0) {
        if (tiedOutside !== 0 || (outside[word]! & bit) !== 0) return false
        this.add(bit & ~inside[word]!, word, inside)
        for (let w = 0, at = 2 * sector * words + 1; w < words; w++, at += 2)
          this.add(sets[at]! & ~inside[w]!, w, inside)
      } else if (tiedOutside !== 0 || (outside[word]! & bit) !== 0) {
        this.add(bit & ~outside[word]!, word, outside)
        for (let w = 0, at = 2 * sector * words; w < words; w++, at += 2)
          this.add(sets[at]! & ~outside[w]!, w, outside)
      }
    }
    return true
  }

  /** Leaves out the kinds by which a digit leads from inside to outside; false when there is no other. */
  private weigh(digit: number, kinds: number): boolean {
    const { inside, outside, out, table } = this
    const { words, first, holders, sets } = table
    let left = kinds
    out.fill(-1)
    for (let rest = kinds; rest !== 0; rest &= rest - 1) {
      const list = table.list(digit, rest & -rest)
      let isPossible = true
      this.outByKind.fill(0)
      for (let sector = first[list]!, end = first[list + 1]!; sector < end && isPossible; sector++) {
        const holder = holders[sector]!
        const bit = 1 << (holder & 31)
        const isInside = (inside[holder >>> 5]! & bit) !== 0
        const isOutside = (outside[holder >>> 5]! & bit) !== 0
        if (!isInside && !isOutside) continue
        for (let w = 0, at = 2 * sector * words; w < words; w++, at += 2) {
          if (isInside ? (sets[at + 1]! & outside[w]!) !== 0 : (sets[at]! & inside[w]!) !== 0)
            isPossible = false
          if (isOutside) this.outByKind[w]! |= sets[at]!
        }
      }
      if (isPossible) for (let w = 0; w < words; w++) out[w]! &= this.outByKind[w]!
      else left &= ~(rest & -rest)
    }
    if (left === 0) return false
    this.allowed[digit] = left
    if ((left & (left - 1)) === 0) return this.follow(digit, left)
    for (let w = 0; w < words; w++) this.add(out[w]! & ~outside[w]!, w, outside)
    const list = table.list(digit, left)
    for (let sector = first[list]!, end = first[list + 1]!; sector < end; sector++) {
      const holder = holders[sector]!
      let placeInside = 0
      for (let w = 0, at = 2 * sector * words; w < words; w++, at += 2) placeInside |= sets[at]! & inside[w]!
      if (placeInside !== 0) this.add((1 << (holder & 31)) & ~inside[holder >>> 5]!, holder >>> 5, inside)
    }
    return true
  }

  /** Adds places to one side. */
  private add(more: number, word: number, side: Int32Array): void {
    if (more === 0) return
    side[word]! |= more
    for (let rest = more; rest !== 0; rest &= rest - 1)
      this.changed |= this.table.digitsAt[32 * word + lowestBit(rest)]!
  }
}

interface Snapshot {
  readonly inside: Int32Array
  readonly outside: Int32Array
  readonly allowed: Int32Array
  digit: number
  kindsLeft: number
}

interface Found {
  readonly places: LockedPlaces
  /** Number of the candidate for which it was found last. */
  candidate: number
  /** Does nothing smaller remove one of the candidates it was found for? */
  isSmallest: boolean
}

function sizeOf(set: Int32Array): number {
  let size = 0
  for (let w = 0; w < set.length; w++) size += bitsIn(set[w]!)
  return size
}

function placesIn(set: Int32Array): number[] {
  const places: number[] = []
  for (let w = 0; w < set.length; w++)
    for (let rest = set[w]!; rest !== 0; rest &= rest - 1) places.push(32 * w + lowestBit(rest))
  return places
}
