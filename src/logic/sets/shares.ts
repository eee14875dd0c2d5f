import { filled } from '../facts/number-lists.js'
import { NONE, type SectorMatching } from './sector-matching.js'

/** Turns of scaling before the shares are looked at. */
const TURNS = 40
/** Times that they are looked at. */
const LOOKS = 6
/** What has less after that many turns is taken to lose all: then the others soon add up. */
const VANISHING = 0.02
/** Where sums are nearer to one than this, more turns change nothing that counts. */
const EXACT = 1e-9

/**
 * Which candidates may have a share of their cell and sectors, where the shares add up to one in every cell and in
 * every sector. Locked cells remove none of these: there are as many sectors as cells, and each share in the cells is
 * one of the sectors, so nothing is left for other candidates of these sectors. (Whatever removes a candidate by
 * counting shows that it has no share; here we ask only for one of the many ways to share.)
 *
 * Scaling cells and sectors to one in turn comes near to such shares, or shows which candidates have none (R. Sinkhorn
 * and P. Knopp, 1967). As the sums of `n` cells and `n` sectors are each off by an error at most, a candidate has a
 * share for certain if its own is greater than `2 n` errors.
 *
 * @returns place × digits + digit number -> 1 where there is a share; elsewhere nothing is known
 */
export function sharesOf(matching: SectorMatching): number[] {
  const { cells, digits } = matching
  const sums = sumsOf(matching)
  const shares = new Float64Array(cells.length * digits.length)
  for (let i = 0; i < sums.members.length; i++) shares[sums.members[i]!] = 1
  const known = filled(shares.length, 0)
  for (let look = 0; look < LOOKS; look++) {
    for (let turn = 0; turn < TURNS; turn++) if (!scale(shares, sums)) return known
    const error = errorOf(shares, sums)
    const least = 2 * cells.length * Math.max(error, EXACT)
    let isWhole = true
    for (let candidate = 0; candidate < shares.length; candidate++) {
      if (shares[candidate]! > least) known[candidate] = 1
      else if (shares[candidate]! > 0) isWhole = false
    }
    if (isWhole || error < EXACT) return known
    for (let candidate = 0; candidate < shares.length; candidate++)
      if (shares[candidate]! < VANISHING) shares[candidate] = 0
  }
  return known
}

/** The candidates of one sum after another. */
interface Sums {
  readonly members: readonly number[]
  /** sum -> its first member; one more at the end. */
  readonly first: readonly number[]
}

/** Each cell's candidates, then each sector's. */
function sumsOf({ cells, digits, kinds, holders }: SectorMatching): Sums {
  const members: number[] = []
  const first: number[] = []
  for (let place = 0; place < cells.length; place++) {
    first.push(members.length)
    for (let digit = 0; digit < digits.length; digit++) {
      const candidate = place * digits.length + digit
      if (holders[candidate * kinds] !== NONE) members.push(candidate)
    }
  }
  // holder -> the candidates of its sector
  const sectors: number[][] = cells.map(() => [])
  for (let kind = 0; kind < kinds; kind++) {
    for (const sector of sectors) sector.length = 0
    for (let candidate = 0; candidate < cells.length * digits.length; candidate++) {
      const holder = holders[candidate * kinds + kind]!
      if (holder !== NONE) sectors[holder]!.push(candidate)
    }
    for (const sector of sectors) {
      first.push(members.length)
      for (let i = 0; i < sector.length; i++) members.push(sector[i]!)
    }
  }
  first.push(members.length)
  return { members, first }
}

/** Scales every sum to one in turn; false where one has nothing left. */
function scale(shares: Float64Array, { members, first }: Sums): boolean {
  for (let sum = 0; sum + 1 < first.length; sum++) {
    const from = first[sum]!
    const to = first[sum + 1]!
    let total = 0
    for (let i = from; i < to; i++) total += shares[members[i]!]!
    if (total === 0) return false
    const factor = 1 / total
    for (let i = from; i < to; i++) shares[members[i]!]! *= factor
  }
  return true
}

/** How far the sum that is furthest from one is from it. */
function errorOf(shares: Float64Array, { members, first }: Sums): number {
  let error = 0
  for (let sum = 0; sum + 1 < first.length; sum++) {
    let total = 0
    for (let i = first[sum]!; i < first[sum + 1]!; i++) total += shares[members[i]!]!
    error = Math.max(error, Math.abs(total - 1))
  }
  return error
}
