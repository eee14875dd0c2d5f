import { NONE, type SectorMatching } from './sector-matching.js'

/**
 * The sectors of a matching as sets of places, in lists: for each digit one for each kind of house, and one for each
 * choice of several kinds, of the places that lead to the same holder by all of these. A set is words of 32 places
 * each.
 */
export class SectorTable {
  readonly matching: SectorMatching
  /** Words that make a set. */
  readonly words: number
  /** All but those that a holder has itself: the places that lead somewhere, digit by digit. */
  readonly candidates: readonly { readonly place: number; readonly digit: number }[]
  /** place -> the numbers of its digits, as a mask. */
  readonly digitsAt: Int32Array
  /** list -> its first sector; one more at the end. */
  readonly first: readonly number[]
  /** sector -> the place that it is matched to. */
  readonly holders: readonly number[]
  /**
   * sector -> two sets, word by word in turn: the other places that have the digit there, and those of them that the
   * holder leads to as well.
   */
  readonly sets: Int32Array

  constructor(matching: SectorMatching) {
    const { cells, digits, kinds, filling, holders } = matching
    const candidates: { place: number; digit: number }[] = []
    const digitsAt = new Int32Array(cells.length)
    for (let digit = 0; digit < digits.length; digit++)
      for (let place = 0; place < cells.length; place++) {
        if (holders[(place * digits.length + digit) * kinds] === NONE) continue
        digitsAt[place]! |= 1 << digit
        if (filling[place] !== digit) candidates.push({ place, digit })
      }
    const sectors: { holder: number; places: number[] }[] = []
    const first: number[] = []
    for (let digit = 0; digit < digits.length; digit++) {
      const places = candidates.filter((candidate) => candidate.digit === digit).map(({ place }) => place)
      for (let mask = 0; mask < 1 << kinds; mask++) {
        first.push(sectors.length)
        if (mask === 0) continue
        const byHolder = new Map<number, number[]>()
        for (const place of places) {
          const holder = commonHolder(matching, place, digit, mask)
          if (holder !== NONE) byHolder.set(holder, [...(byHolder.get(holder) ?? []), place])
        }
        for (const [holder, places] of byHolder) sectors.push({ holder, places })
      }
    }
    first.push(sectors.length)
    this.matching = matching
    this.words = (cells.length + 31) >>> 5
    this.candidates = candidates
    this.digitsAt = digitsAt
    this.first = first
    this.holders = sectors.map(({ holder }) => holder)
    this.sets = new Int32Array(2 * sectors.length * this.words)
    sectors.forEach(({ places }, sector) => {
      for (const place of places) this.sets[2 * (sector * this.words + (place >>> 5))]! |= 1 << (place & 31)
    })
  }

  /** Number of the list for a digit and these kinds, as a mask. */
  list(digit: number, kinds: number): number {
    return (digit << this.matching.kinds) + kinds
  }

  /** From now on the holder leads to this place, too, when the digit has this kind. */
  tie(place: number, digit: number, kind: number): void {
    const holder = commonHolder(this.matching, place, digit, 1 << kind)
    let sector = this.first[this.list(digit, 1 << kind)]!
    while (this.holders[sector] !== holder) sector++
    this.sets[2 * (sector * this.words + (place >>> 5)) + 1]! |= 1 << (place & 31)
  }
}

/** The holder that a place leads to by a digit, by each of these kinds the same; `NONE` when they differ. */
function commonHolder(
  { digits, kinds, holders }: SectorMatching,
  place: number,
  digit: number,
  mask: number,
): number {
  let common = NONE
  for (let kind = 0; kind < kinds; kind++) {
    if ((mask & (1 << kind)) === 0) continue
    const holder = holders[(place * digits.length + digit) * kinds + kind]!
    if (common !== NONE && common !== holder) return NONE
    common = holder
  }
  return common
}

export function bitsIn(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++
  return count
}
