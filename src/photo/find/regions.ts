/** A connected patch of free pixels (8 bits of paper between rules), with what is needed to judge its shape. */
export interface Region {
  readonly area: number
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
  /** For each row from `top` to `bottom`, the first and last column of the region: two numbers a row. */
  readonly spans: Int32Array
}

/**
 * A picture of what parts the paper into cells, row by row: stronger than `level` where a rule may run, weaker on free
 * paper.
 */
export interface BlockedPixels {
  readonly strength: Uint16Array
  readonly level: number
}

/**
 * Patches of pixels whose `strength` is at most `level`, joined through their four sides, whose bounding box is no
 * smaller than `minSide` and no larger than `maxSide` in both directions. Runs of pixels are joined row by row
 * (union-find), so one pass over the picture is enough.
 */
export function findRegions(
  { strength, level }: BlockedPixels,
  width: number,
  height: number,
  minSide: number,
  maxSide: number,
): Region[] {
  const runs = new RunTable(width * 16)
  let previousStart = 0
  let previousEnd = 0
  for (let y = 0; y < height; y++) {
    const rowStart = runs.count
    const at = y * width
    let above = previousStart
    for (let x = 0; x < width; ) {
      while (x < width && strength[at + x]! > level) x++
      if (x >= width) break
      const from = x
      while (x < width && strength[at + x]! <= level) x++
      const run = runs.add(y, from, x - 1)
      while (above < previousEnd && runs.last[above]! < from) above++
      for (let k = above; k < previousEnd && runs.first[k]! <= x - 1; k++) runs.join(run, k)
    }
    previousStart = rowStart
    previousEnd = runs.count
  }
  return runs.regions(minSide, maxSide)
}

class RunTable {
  count = 0
  row: Int32Array
  first: Int32Array
  last: Int32Array
  private parent: Int32Array

  constructor(capacity: number) {
    this.row = new Int32Array(capacity)
    this.first = new Int32Array(capacity)
    this.last = new Int32Array(capacity)
    this.parent = new Int32Array(capacity)
  }

  add(row: number, first: number, last: number): number {
    const run = this.count++
    if (run >= this.row.length) {
      this.row = doubled(this.row)
      this.first = doubled(this.first)
      this.last = doubled(this.last)
      this.parent = doubled(this.parent)
    }
    this.row[run] = row
    this.first[run] = first
    this.last[run] = last
    this.parent[run] = run
    return run
  }

  join(a: number, b: number): void {
    const rootA = this.root(a)
    const rootB = this.root(b)
    if (rootA < rootB) this.parent[rootB] = rootA
    else this.parent[rootA] = rootB
  }

  private root(run: number): number {
    const { parent } = this
    let at = run
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!
      at = parent[at]!
    }
    return at
  }

  regions(minSide: number, maxSide: number): Region[] {
    const { count, row, first, last } = this
    const area = new Int32Array(count)
    const left = new Int32Array(count).fill(1 << 30)
    const right = new Int32Array(count)
    const bottom = new Int32Array(count)
    for (let run = 0; run < count; run++) {
      const root = this.root(run)
      area[root] = area[root]! + last[run]! - first[run]! + 1
      if (first[run]! < left[root]!) left[root] = first[run]!
      if (last[run]! > right[root]!) right[root] = last[run]!
      bottom[root] = row[run]!
    }
    const spansOf = new Array<Int32Array | undefined>(count)
    const found: Region[] = []
    for (let run = 0; run < count; run++) {
      if (this.root(run) !== run) continue
      const top = row[run]!
      const wide = right[run]! - left[run]! + 1
      const high = bottom[run]! - top + 1
      if (Math.min(wide, high) < minSide || Math.max(wide, high) > maxSide) continue
      const spans = new Int32Array(high * 2)
      for (let k = 0; k < spans.length; k += 2) spans[k] = 1 << 30
      spansOf[run] = spans
      found.push({ area: area[run]!, left: left[run]!, top, right: right[run]!, bottom: bottom[run]!, spans })
    }
    for (let run = 0; run < count; run++) {
      const root = this.root(run)
      const spans = spansOf[root]
      if (!spans) continue
      const k = (row[run]! - row[root]!) * 2
      if (first[run]! < spans[k]!) spans[k] = first[run]!
      if (last[run]! > spans[k + 1]!) spans[k + 1] = last[run]!
    }
    return found
  }
}

function doubled(array: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(array.length * 2)
  larger.set(array)
  return larger
}
