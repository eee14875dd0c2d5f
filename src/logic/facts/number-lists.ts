/**
 * Lists of numbers that live for one board. They are slices of plain lists: a typed array of more than a few entries
 * has memory of its own, which costs several times as much to get and to give back. Entries stay 32-bit integers with
 * sign, so that the runtime keeps them as such.
 */
const MOST = 4096
const ZEROS: readonly number[] = Array.from({ length: MOST }, () => 0)
const ONES: readonly number[] = Array.from({ length: MOST }, () => 1)
const MINUS_ONES: readonly number[] = Array.from({ length: MOST }, () => -1)

/** A list of so many equal numbers. */
export function filled(length: number, value: number): number[] {
  if (length <= MOST) {
    if (value === 0) return ZEROS.slice(0, length)
    if (value === -1) return MINUS_ONES.slice(0, length)
    if (value === 1) return ONES.slice(0, length)
  }
  return Array.from({ length }, () => value)
}

export function zeros(length: number): number[] {
  return filled(length, 0)
}
