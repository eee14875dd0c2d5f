import { EACH_BOX } from './layout.js'

const LOW_EIGHT = EACH_BOX * 255
const NINTH = EACH_BOX * 256

/** All nine bits of each box that holds exactly one bit of the word (no box may be empty). */
export function boxesWithOne(word: number): number {
  const others = word & (word - EACH_BOX)
  const ninthIfAny = ((others & LOW_EIGHT) + LOW_EIGHT) | others
  const one = NINTH & ~ninthIfAny
  return (one << 1) - (one >> 8)
}

/** All nine bits of each box that holds any bit of the word. */
export function boxesWithAny(word: number): number {
  const any = ((((word & LOW_EIGHT) + LOW_EIGHT) | word) & NINTH) >> 8
  return (any << 9) - any
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
