/**
 * Picks `size` masks that together cover exactly `size` bits, while no smaller part of the pick covers as few bits as it
 * has masks. Naked subsets (cells and their digits), hidden subsets (digits and their places) and fish (base lines and the
 * lines that cross them) are all this one question; the second condition keeps out picks that hold a smaller one.
 *
 * @param masks one a thing; masks with a single bit or none are never picked
 * @param visit gets the positions in `masks` and the union; returns true to stop
 * @returns true when the visitor stopped the search
 */
export function visitLockedSelections(
  masks: ArrayLike<number>,
  size: number,
  visit: (picked: readonly number[], union: number) => boolean,
): boolean {
  const eligible: number[] = []
  for (let i = 0; i < masks.length; i++) {
    const count = bitCount(masks[i]!)
    if (count >= 2 && count <= size) eligible.push(i)
  }
  if (eligible.length < size) return false
  const picked: number[] = []
  const extend = (from: number, union: number): boolean => {
    const depth = picked.length
    if (depth === size) return !holdsSmaller(masks, picked) && visit([...picked], union)
    for (let i = from; i <= eligible.length - size + depth; i++) {
      const index = eligible[i]!
      const wider = union | masks[index]!
      if (bitCount(wider) > size) continue
      picked.push(index)
      if (extend(i + 1, wider)) return true
      picked.pop()
    }
    return false
  }
  return extend(0, 0)
}

function holdsSmaller(masks: ArrayLike<number>, picked: readonly number[]): boolean {
  const all = (1 << picked.length) - 1
  for (let part = 1; part < all; part++) {
    let union = 0
    for (let i = 0; i < picked.length; i++) if (part & (1 << i)) union |= masks[picked[i]!]!
    if (bitCount(union) <= bitCount(part)) return true
  }
  return false
}

function bitCount(set: number): number {
  let count = 0
  for (let rest = set; rest !== 0; rest &= rest - 1) count++
  return count
}
