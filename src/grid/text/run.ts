import type { SheetEntry } from './entry.js'
import { joined, type Part } from './part.js'
import type { SheetReader } from './sheet-reader.js'

/** How strongly what stands between two blocks parts them: blank lines by their number, and these. */
export const GAP = { none: 0, drawn: 500, comment: 1000, title: 2000 } as const

/**
 * Blocks in a row that are no whole grids, with equal gaps between them: equal bands of one grid or of several, or
 * broken grids.
 */
export class Run {
  parts: Part[] = []
  /** Characters held. */
  length = 0
  private gap: number | undefined
  private hasDrawn = false
  /** The blocks above with the same blank lines between them: their rows, and the greatest number that divides each. */
  private above: Above = NOTHING_ABOVE
  /** `isBelowHalf` as it was before the first part. */
  private isShifted = false
  /** What came out last was broken. */
  private isBelowBroken = false

  constructor(
    private readonly reader: SheetReader,
    private readonly isSingle: boolean,
  ) {}

  /** A block begins after a gap of this strength: what a stronger gap parts from it comes out. */
  *part(gap: number): Generator<SheetEntry> {
    const { above } = this
    if (gap >= GAP.comment || above.rows === 0) this.above = NOTHING_ABOVE
    else if (above.gap === undefined || gap === above.gap) this.above = { ...above, gap }
    else
      this.above = gap > above.gap ? NOTHING_ABOVE : { ...above, rows: above.last, divisor: above.last, gap }
    if (this.parts.length === 0) return
    if (gap === GAP.drawn) this.hasDrawn = true
    if (this.gap === undefined || gap === this.gap || this.isSingle) {
      this.gap = Math.max(gap, this.gap ?? 0)
    } else if (gap > this.gap) {
      yield* this.end()
    } else {
      const last = this.parts.pop()!
      yield* this.end()
      // a drawn line below broken rows may have parted bands of one grid, not grids
      this.isShifted ||= this.isBelowBroken && last.isBelowDrawn === true
      this.hold(last)
      this.gap = gap
    }
  }

  /** A block that was seen here, whether it is held or has come out. */
  pass({ rows, width }: Part): void {
    const above = this.above.width === width ? this.above : { ...NOTHING_ABOVE, width }
    const divisor = commonDivisor(above.divisor, rows)
    this.above = { ...above, rows: above.rows + rows, divisor, last: rows }
  }

  /**
   * Do the rows above end in half a grid? Where blank lines part bands as well as grids, the second half of one grid
   * and the first half of the next make a whole block.
   */
  isBelowHalf(width: number): boolean {
    const { rows, divisor } = this.above
    return (
      width > 0 && width === this.above.width && (rows % width) * 2 === width && (divisor * 2) % width === 0
    )
  }

  *add(part: Part): Generator<SheetEntry> {
    const before = this.parts[0]
    if (before && before.width !== part.width && before.width > 0 && part.width > 0) yield* this.end()
    if (this.parts.length === 0) this.isShifted = this.isBelowHalf(part.width)
    this.hold(part)
  }

  /** Forgets what it holds. */
  drop(): void {
    this.parts = []
    this.length = 0
    this.gap = undefined
    this.hasDrawn = false
  }

  *end(): Generator<SheetEntry> {
    const { parts, gap, hasDrawn } = this
    this.drop()
    if (parts.length === 0) return
    this.isBelowBroken = false
    for (const entry of this.cut(parts, (gap ?? 0) >= GAP.title, hasDrawn)) {
      this.isBelowBroken ||= entry.error !== undefined
      yield entry
    }
  }

  private hold(part: Part): void {
    this.parts.push(part)
    for (const line of part.lines) this.length += line.text.length + 1
  }

  private *cut(parts: readonly Part[], areHeaded: boolean, hasDrawn: boolean): Generator<SheetEntry> {
    const width = parts.find((part) => part.width > 0)?.width ?? 0
    if (!areHeaded && !this.isShifted) {
      const bands = this.bandsPerGrid(parts, width)
      if (bands > 1) {
        yield* this.grids(parts, bands)
        return
      }
      const rows = parts.reduce((sum, part) => sum + part.rows, 0)
      const whole = joined(parts)
      // blank lines may stand anywhere in the only grid of a text, drawn lines between its bands alone
      const mayJoin = this.isSingle && parts.length > 1 && !hasDrawn
      if (mayJoin && (width === 0 ? this.reader.canRead(whole) : rows === width)) {
        yield* this.reader.grids({ ...whole, width: width || rows })
        return
      }
    }
    yield* this.broken(parts, width, areHeaded)
  }

  /** How many blocks make a grid, when all have as many rows, or all but one that has one more or less; else 0. */
  private bandsPerGrid(parts: readonly Part[], width: number): number {
    const rows = mostFrequent(parts.map((part) => part.rows))
    const odd = parts.filter((part) => part.rows !== rows)
    const isOneOff = odd.length === 1 && rows > 2 && Math.abs(odd[0]!.rows - rows) === 1
    if (odd.length > 0 && !isOneOff) return 0
    if (width > 0) return width % rows === 0 && parts.length % (width / rows) === 0 ? width / rows : 0
    if (odd.length > 0) return 0
    for (let bands = 2; bands <= parts.length && bands * rows <= 16; bands++) {
      if (bands * rows >= 4 && parts.length % bands === 0) {
        const grids = this.grouped(parts, bands)
        if (grids.every((grid) => this.reader.canRead(joined(grid)))) return bands
      }
    }
    return 0
  }

  private *grids(parts: readonly Part[], bands: number): Generator<SheetEntry> {
    for (const group of this.grouped(parts, bands)) {
      const whole = joined(group)
      const width = whole.width || whole.rows
      const isWhole = group.every((part) => part.rows * bands === width)
      if (isWhole) yield* this.reader.grids({ ...whole, width })
      else yield this.reader.brokenEntry(group, width, false)
    }
  }

  private grouped(parts: readonly Part[], bands: number): Part[][] {
    return Array.from({ length: parts.length / bands }, (_, i) => parts.slice(i * bands, (i + 1) * bands))
  }

  private *brokenGrids(parts: readonly Part[], width: number, areHeaded: boolean): Generator<SheetEntry> {
    const [only, ...others] = parts
    const isWhole = others.length === 0 && width > 0 && only!.rows === width
    if (isWhole)
      yield* this.reader.grids(only!, this.isShifted || only!.isPiece ? 'wrong places' : 'wrong rows')
    else yield this.reader.brokenEntry(parts, width, areHeaded)
  }

  /** One record for each block that is most of a grid, and for each sequence of smaller ones. */
  private *broken(parts: readonly Part[], width: number, areHeaded: boolean): Generator<SheetEntry> {
    let held: Part[] = []
    let rows = 0
    let wasMost = false
    for (const part of parts) {
      const isMost = part.rows * 2 > width
      // What stands in the middle of a grid breaks one grid, not two.
      const isOne = rows + part.rows === width || rows + part.rows === width - 1
      if (held.length > 0 && !isOne && (areHeaded || isMost || wasMost)) {
        yield* this.brokenGrids(held, width, areHeaded)
        held = []
        rows = 0
        wasMost = false
      }
      held.push(part)
      rows += part.rows
      wasMost ||= isMost
    }
    if (held.length > 0) yield* this.brokenGrids(held, width, areHeaded)
  }
}

interface Above {
  readonly width: number
  readonly rows: number
  readonly divisor: number
  /** Rows of the last block. */
  readonly last: number
  /** Undefined where there is one block at most. */
  readonly gap: number | undefined
}

const NOTHING_ABOVE: Above = { width: 0, rows: 0, divisor: 0, last: 0, gap: undefined }

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b)
}

function mostFrequent(numbers: readonly number[]): number {
  const counts = new Map<number, number>()
  let best = numbers[0]!
  for (const number of numbers) {
    counts.set(number, (counts.get(number) ?? 0) + 1)
    if (counts.get(number)! > counts.get(best)!) best = number
  }
  return best
}
