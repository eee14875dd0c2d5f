import { type DigitSet, digitCount } from '../../grid/digits.js'

/** Gets the positions in the list of masks, and their union; returns true to stop the search. */
export type SelectionVisitor = (picked: readonly number[], union: DigitSet) => boolean

/**
 * Picks `size` masks that together cover exactly `size` bits, while no smaller part of the pick covers as few bits as
 * it has masks. Naked subsets (cells and their digits), hidden subsets (digits and their places) and fish (base lines
 * and the lines that cross them) are all this one question; the second condition keeps out picks that hold a smaller
 * one.
 *
 * @param masks one a thing; masks with a single bit or none are never picked
 * @returns true when the visitor stopped the search
 */
export function visitLockedSelections(
  masks: readonly number[],
  size: number,
  visit: SelectionVisitor,
): boolean {
  return mayBePicked(masks, size) && extend(masks, size, visit, [], 0, 0)
}

/**
 * Are there enough narrow masks for a pick? A house rarely has so many, so this is worth asking before anything is made
 * ready.
 */
export function mayBePicked(masks: readonly number[], size: number): boolean {
  let eligible = 0
  for (let i = 0; i < masks.length; i++) if (isEligible(masks[i]!, size)) eligible++
  return eligible >= size
}

function isEligible(mask: number, size: number): boolean {
  return (mask & (mask - 1)) !== 0 && digitCount(mask) <= size
}

function extend(
  masks: readonly number[],
  size: number,
  visit: SelectionVisitor,
  picked: number[],
  from: number,
  union: number,
): boolean {
  if (picked.length === size) return !holdsSmaller(masks, picked) && visit([...picked], union)
  for (let i = from; i <= masks.length - size + picked.length; i++) {
    const mask = masks[i]!
    if (!isEligible(mask, size)) continue
    const wider = union | mask
    if (digitCount(wider) > size) continue
    picked.push(i)
    if (extend(masks, size, visit, picked, i + 1, wider)) return true
    picked.pop()
  }
  return false
}

function holdsSmaller(masks: readonly number[], picked: readonly number[]): boolean {
  const all = (1 << picked.length) - 1
  for (let part = 1; part < all; part++) {
    let union = 0
    for (let i = 0; i < picked.length; i++) if (part & (1 << i)) union |= masks[picked[i]!]!
    if (digitCount(union) <= digitCount(part)) return true
  }
  return false
}
