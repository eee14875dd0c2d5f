import { EACH_BOX, FULL } from './plain-layout.js'

/** The free bit above each box. */
const GUARDS = EACH_BOX * 512

/** All nine bits of each box that holds exactly one bit of the word (no box may be empty). */
export function boxesWithOne(word: number): number {
  const others = word & (word - EACH_BOX)
  // adding 511 to a box carries into its guard unless the box is empty
  const one = GUARDS & ~(others + FULL)
  return one - (one >> 9)
}

/** All nine bits of each box that holds any bit of the word. */
export function boxesWithAny(word: number): number {
  const any = GUARDS & (word + FULL)
  return any - (any >> 9)
}

/** The number of the lowest bit that is set. */
export function lowestBit(bits: number): number {
  return 31 - Math.clz32(bits & -bits)
}

export function bitCount(bits: number): number {
  let x = bits - ((bits >>> 1) & 0x55555555)
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333)
  return (((x + (x >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24
}
