/** A binary heap: cheapest first. */
export class CheapestFirst<T extends { readonly cost: number }> {
  readonly #items: T[] = []

  push(item: T): void {
    const items = this.#items
    let hole = items.length
    items.push(item)
    while (hole > 0) {
      const parent = (hole - 1) >> 1
      if (items[parent]!.cost <= item.cost) break
      items[hole] = items[parent]!
      hole = parent
    }
    items[hole] = item
  }

  pop(): T | undefined {
    const items = this.#items
    const top = items[0]
    const last = items.pop()
    if (top === undefined || last === undefined || items.length === 0) return top
    let hole = 0
    for (;;) {
      let child = 2 * hole + 1
      if (child >= items.length) break
      if (child + 1 < items.length && items[child + 1]!.cost < items[child]!.cost) child++
      if (items[child]!.cost >= last.cost) break
      items[hole] = items[child]!
      hole = child
    }
    items[hole] = last
    return top
  }
}
