/**
 * Lists of numbers that live for one board. They are slices of plain lists: a typed array of more than a few entries
 * has memory of its own, which costs several times as much to get and to give back. Entries stay 32-bit integers with
 * sign, so that the runtime keeps them as such.
 */
const templates = new Map<number, number[]>()

/** A list of so many equal numbers. */
export function filled(length: number, value: number): number[] {
  let template = templates.get(value)
  if (!template || template.length < length) {
    template = Array.from({ length: Math.max(1024, 2 * length) }, () => value)
    templates.set(value, template)
  }
  return template.slice(0, length)
}

export function zeros(length: number): number[] {
  return filled(length, 0)
}
