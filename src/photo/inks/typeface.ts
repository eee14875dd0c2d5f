import { CELL_SIZE, type CellPicture, type CellScores } from '../digits/digit-reader.js'
import type { Point } from '../image.js'

/** Side, in pixels of the cell picture, of the window in which figures are put over each other: no rule reaches it. */
const WINDOW = 26
const PIXELS = WINDOW * WINDOW
/** Figures are shifted against each other by up to so many pixels, after their middles were put over each other. */
const SHIFT = 1
const SHIFTS = 2 * SHIFT + 1

/** A window's darkness with mean 0 and length 1, so that two windows' product is their correlation. */
type Shape = Float32Array

/** The reader is sure of a figure from here on: such figures show the page's typeface, where there are so many. */
const SURE = 0.98
const LEAST_SURE = 8
/** Where the reader is this sure of every cell there is nothing to weigh. */
const SETTLED = 0.99
/** What is so surely no figure is not weighed. */
const SURELY_NONE = 0.99
/** Of the likenesses of sure figures, so many are allowed to be worse than what counts as usual. */
const LOW_END = 0.1

/**
 * What a figure lacks in likeness to a digit's mean figure, as a share of what sure figures lack at the low end, costs
 * that digit so many nats; more than so many times that counts no more. Fitted to cells of drawn pages of families kept
 * aside (seeds 391001 and 391002): of 10,279 figures, surprise is least between 1 and 2.
 */
const LACK_COSTS = 1.5
const MOST_LACK = 3

/**
 * Nats for there being a figure at all, by how much less like any of the page's digits a cell is than sure figures are
 * like other digits than their own. On the same pages and 612 more, 1 in 1,000 figures lacked 0.25 or more, and 9 in 10
 * shadows' edges, stains and show-through that the reader had taken for figures. Half of what those shares say is
 * taken: shapes and readings hang together.
 */
const NATS_PER_LACK = 20
const USUAL_LACK = 0.05
const MOST_AGAINST = 5
const MOST_FOR = 1

/**
 * Weighs what the reader makes of cells, one at a time, by how they look beside the page's sure figures: print repeats
 * each digit's shape, blurred or not, and what is no figure is like none of them. What is sure once that has been done
 * shows the typeface too: on blurred pages few figures are sure at first.
 */
export function weighByTypeface(
  scores: readonly CellScores[],
  pictures: readonly CellPicture[],
): readonly CellScores[] {
  if (scores.every(({ digits }) => Math.max(...digits) > SETTLED)) return scores
  const shapes = new CellShapes(pictures)
  const first = sureFigures(scores)
  const seen = weighedBy(first, scores, shapes)
  const second = sureFigures(seen)
  return sameFigures(first, second) ? seen : weighedBy(second, scores, shapes)
}

function sureFigures(scores: readonly CellScores[]): ReadonlyMap<number, number> {
  const sure = new Map<number, number>()
  for (const [cell, { digits }] of scores.entries()) {
    const best = digits.indexOf(Math.max(...digits))
    if (best > 0 && digits[best]! > SURE) sure.set(cell, best)
  }
  return sure
}

function sameFigures(one: ReadonlyMap<number, number>, other: ReadonlyMap<number, number>): boolean {
  return one.size === other.size && [...one].every(([cell, digit]) => other.get(cell) === digit)
}

function weighedBy(
  sure: ReadonlyMap<number, number>,
  scores: readonly CellScores[],
  shapes: CellShapes,
): readonly CellScores[] {
  if (sure.size < LEAST_SURE) return scores
  const typeface = new Typeface(shapes, sure)
  const likenesses = scores.map(({ digits }, cell) =>
    digits[0]! > SURELY_NONE ? undefined : DIGITS.map((digit) => typeface.likeness(cell, digit)),
  )
  const own: number[] = []
  const toOthers: number[] = []
  for (const [cell, digit] of sure) {
    const here = likenesses[cell]
    const mine = here?.[digit - 1]
    if (mine !== undefined) own.push(mine)
    const others = here?.filter((value, k) => value !== undefined && k !== digit - 1) as number[] | undefined
    if (others && others.length > 0) toOthers.push(Math.max(...others))
  }
  if (own.length < LEAST_SURE) return scores
  const usual = {
    own: atShare(own, 0.5),
    lowOwn: atShare(own, LOW_END),
    lowOther: atShare(toOthers, LOW_END),
  }
  return scores.map((score, cell) => {
    const here = likenesses[cell]
    return here ? weighed(score, here, usual) : score
  })
}

const DIGITS = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const

/**
 * What likenesses of a page's sure figures are: to their own digit in the middle and at the low end, to any other at
 * the low end.
 */
interface UsualLikeness {
  readonly own: number
  readonly lowOwn: number
  readonly lowOther: number
}

function weighed(
  score: CellScores,
  likenesses: readonly (number | undefined)[],
  usual: UsualLikeness,
): CellScores {
  const { digits } = score
  const none = digits[0]!
  const known = likenesses.filter((value) => value !== undefined)
  if (known.length === 0) return score
  const lack = usual.lowOther - Math.max(...known)
  const forFigure = Math.max(-MOST_AGAINST, Math.min(MOST_FOR, NATS_PER_LACK * (USUAL_LACK - lack)))
  const shares = DIGITS.map((digit) => {
    // a digit that the page does not show elsewhere is taken to be as like itself as others are
    const lacking =
      (1 - (likenesses[digit - 1] ?? usual.own) ** 2) / Math.max(LEAST_LACKING, 1 - usual.lowOwn ** 2)
    return digits[digit]! * Math.exp(-LACK_COSTS * Math.min(MOST_LACK, lacking))
  })
  const before = DIGITS.reduce((sum, digit) => sum + digits[digit]!, 0)
  const after = shares.reduce((sum, share) => sum + share, 0)
  if (!(after > 0)) return score
  const odds = (before / Math.max(none, LEAST_CHANCE)) * Math.exp(forFigure)
  const figure = odds / (1 + odds)
  return {
    ...score,
    digits: Float32Array.of(1 - figure, ...shares.map((share) => (share / after) * figure)),
  }
}

const LEAST_LACKING = 0.01
const LEAST_CHANCE = 1e-9

function atShare(values: readonly number[], share: number): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length * share)] ?? -1
}

/** How a page's figures look to each other: how well a cell lies over the mean figure of each digit. */
class Typeface {
  /** digit -> the page's sure figures of it added up, each put with its middle on the others'. */
  private readonly sums: readonly Float32Array[] = Array.from({ length: 10 }, () => new Float32Array(PIXELS))
  private readonly counts = new Uint8Array(10)
  private readonly means: readonly (Shape | undefined)[]
  private readonly own = new Map<number, { readonly digit: number; readonly shape: Float32Array }>()

  /** @param sure cell -> its digit, where the reader is sure of it */
  constructor(
    private readonly shapes: CellShapes,
    sure: ReadonlyMap<number, number>,
  ) {
    for (const [cell, digit] of sure) {
      const shape = shapes.at(cell)
      this.own.set(cell, { digit, shape })
      addTo(this.sums[digit]!, shape, 1)
      this.counts[digit] = this.counts[digit]! + 1
    }
    this.means = this.sums.map((sum, digit) =>
      this.counts[digit] === 0 ? undefined : normalised(Float32Array.from(sum)),
    )
  }

  /**
   * Correlation of a cell with the mean figure of a digit, the cell itself left out; undefined where no other is known.
   */
  likeness(cell: number, digit: number): number | undefined {
    const mean = this.meanWithout(cell, digit)
    if (!mean) return undefined
    let best = -1
    for (const shape of this.shapes.around(cell)) {
      let product = 0
      for (let k = 0; k < PIXELS; k++) product += shape[k]! * mean[k]!
      if (product > best) best = product
    }
    return best
  }

  private meanWithout(cell: number, digit: number): Shape | undefined {
    const own = this.own.get(cell)
    if (own?.digit !== digit) return this.means[digit]
    if (this.counts[digit] === 1) return undefined
    const others = Float32Array.from(this.sums[digit]!)
    addTo(others, own.shape, -1)
    return normalised(others)
  }
}

/** The shapes of a page's cells, each made once. */
class CellShapes {
  private readonly shifted = new Map<number, readonly Shape[]>()

  constructor(private readonly pictures: readonly CellPicture[]) {}

  /** The darkness around a figure's middle. */
  at(cell: number): Float32Array {
    return windowOf(this.pictures[cell]!, middleOf(this.pictures[cell]!))
  }

  /** The same, shifted every way. */
  around(cell: number): readonly Shape[] {
    let shapes = this.shifted.get(cell)
    if (!shapes) {
      const picture = this.pictures[cell]!
      const middle = middleOf(picture)
      shapes = Array.from({ length: SHIFTS * SHIFTS }, (_, k) =>
        normalised(
          windowOf(picture, {
            x: middle.x + (k % SHIFTS) - SHIFT,
            y: middle.y + Math.floor(k / SHIFTS) - SHIFT,
          }),
        ),
      )
      this.shifted.set(cell, shapes)
    }
    return shapes
  }
}

function addTo(sum: Float32Array, shape: Float32Array, times: number): void {
  for (let k = 0; k < PIXELS; k++) sum[k] = sum[k]! + times * shape[k]!
}

const EDGE = (CELL_SIZE - WINDOW) / 2

/** How far from the cell's middle, in whole pixels, a figure's ink has its centre of gravity. */
function middleOf({ data }: CellPicture): Point {
  let ink = 0
  let atX = 0
  let atY = 0
  for (let y = EDGE; y < CELL_SIZE - EDGE; y++) {
    for (let x = EDGE; x < CELL_SIZE - EDGE; x++) {
      const dark = 255 - data[y * CELL_SIZE + x]!
      ink += dark
      atX += dark * x
      atY += dark * y
    }
  }
  const off = (sum: number) => clamp(Math.round(sum / Math.max(1, ink) - (CELL_SIZE - 1) / 2))
  return { x: off(atX), y: off(atY) }
}

/** The darkness around a place given from the cell's middle. */
function windowOf({ data }: CellPicture, { x: offX, y: offY }: Point): Float32Array {
  const shape = new Float32Array(PIXELS)
  for (let y = 0; y < WINDOW; y++) {
    const row = (y + EDGE + offY) * CELL_SIZE + EDGE + offX
    for (let x = 0; x < WINDOW; x++) shape[y * WINDOW + x] = 255 - data[row + x]!
  }
  return shape
}

/** Off-centre figures are followed so far, which leaves room for the shifts. */
const MOST_OFF = EDGE - SHIFT

function clamp(off: number): number {
  return Math.max(-MOST_OFF, Math.min(MOST_OFF, off))
}

function normalised(shape: Float32Array): Shape {
  let sum = 0
  for (const value of shape) sum += value
  const mean = sum / shape.length
  let squares = 0
  for (const value of shape) squares += (value - mean) ** 2
  const scale = squares > 0 ? 1 / Math.sqrt(squares) : 0
  for (let k = 0; k < shape.length; k++) shape[k] = (shape[k]! - mean) * scale
  return shape
}
