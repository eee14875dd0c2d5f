import { CELL_MARGIN, CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'

/** The ink of a cell's figure, free of rules and of smaller marks around it. Pixels are those of the cell picture. */
export interface FigureInk {
  /** Darkness 0..1 of each pixel of the cell picture, 0 where the figure is not. */
  readonly darkness: Float32Array
  /** 1 on the figure itself. */
  readonly mask: Uint8Array
  /** 1 wherever the cell has ink at all. */
  readonly anyInk: Uint8Array
  /** The figure's box to fractions of a pixel, where darkness crosses the threshold. */
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  /** Darkness of its own darkest pixels. */
  readonly strongest: number
  /** Sides of the window that the figure reaches: cut off, or grown together with a rule. */
  readonly sidesReached: number
  /** Other marks in the cell that are too far off to belong to the figure. */
  readonly others: number
}

/** Pixels of one cell side, and the window looked at: the cell without the outermost twentieth on every side. */
export const SIDE = CELL_SIZE / (1 + 2 * CELL_MARGIN)
const FIRST = 5
const END = CELL_SIZE - FIRST
/** Ink is darker than this share of the cell's darkest pixels, of which there are so many, so dark at least. */
const THRESHOLD = 0.4
const DARKEST = 12
const DARKEST_OF_FIGURE = 6
const LEAST_DARKNESS = 0.25
/** A line of the window that is so dark is a rule, at most this deep into it. */
const RULE_SHARE = 0.6
const RULE_DEPTH = 6
/** Ink that lies so much in the outermost pixels is what is left of a rule. */
const FRAME_DEPTH = 4
const FRAME_SHARE = 0.8
const LEAST_PIXELS = 5
/** Parts this near to the figure belong to it: a figure broken by a faint hairline. */
const NEAR = 3
/** A figure is at least this tall before parts above or below it are taken for its own. */
const TALL = 11

interface Part {
  readonly pixels: readonly number[]
  readonly box: Box
}

interface Box {
  x0: number
  y0: number
  x1: number
  y1: number
}

/** @returns undefined when the cell has no ink to speak of */
export function figureInk({ data }: CellPicture): FigureInk | undefined {
  greys.fill(0)
  for (let y = FIRST; y < END; y++) for (let x = FIRST; x < END; x++) countGrey(data[y * CELL_SIZE + x]!)
  const strongest = meanOfDarkest(DARKEST)
  if (strongest < LEAST_DARKNESS) return undefined
  const threshold = THRESHOLD * strongest
  const darkness = new Float32Array(data.length)
  for (let at = 0; at < data.length; at++) darkness[at] = DARKNESS[data[at]!]!
  const anyInk = new Uint8Array(CELL_SIZE * CELL_SIZE)
  for (let y = FIRST; y < END; y++)
    for (let x = FIRST; x < END; x++)
      anyInk[y * CELL_SIZE + x] = darkness[y * CELL_SIZE + x]! > threshold ? 1 : 0
  const inked = anyInk.slice()
  peelRules(inked)
  const parts = partsOf(inked)
    .filter((part) => !isRuleRemnant(part))
    .sort((a, b) => height(b.box) - height(a.box))
  const tallest = parts[0]
  if (!tallest) return undefined
  const box = { ...tallest.box }
  const mask = new Uint8Array(CELL_SIZE * CELL_SIZE)
  const add = (part: Part) => {
    for (const at of part.pixels) mask[at] = 1
    box.x0 = Math.min(box.x0, part.box.x0)
    box.y0 = Math.min(box.y0, part.box.y0)
    box.x1 = Math.max(box.x1, part.box.x1)
    box.y1 = Math.max(box.y1, part.box.y1)
  }
  add(tallest)
  let others = 0
  for (const part of parts.slice(1)) {
    if (belongs(part.box, box, height(tallest.box))) add(part)
    else others++
  }
  const own = spreadByOne(mask, darkness)
  const columns = new Float32Array(CELL_SIZE)
  const rows = new Float32Array(CELL_SIZE)
  greys.fill(0)
  for (let y = 0, at = 0; y < CELL_SIZE; y++) {
    for (let x = 0; x < CELL_SIZE; x++, at++) {
      if (own[at]! > columns[x]!) columns[x] = own[at]!
      if (own[at]! > rows[y]!) rows[y] = own[at]!
      if (mask[at] === 1) countGrey(data[at]!)
    }
  }
  return {
    darkness: own,
    mask,
    anyInk,
    left: box.x0 - beyond(columns, box.x0, -1, threshold),
    right: box.x1 + 1 + beyond(columns, box.x1, 1, threshold),
    top: box.y0 - beyond(rows, box.y0, -1, threshold),
    bottom: box.y1 + 1 + beyond(rows, box.y1, 1, threshold),
    strongest: meanOfDarkest(DARKEST_OF_FIGURE),
    sidesReached:
      Number(box.x0 === FIRST) +
      Number(box.y0 === FIRST) +
      Number(box.x1 === END - 1) +
      Number(box.y1 === END - 1),
    others,
  }
}

/** The part of the window that has neither a figure nor other ink in it or near it. */
export function paperAround({ anyInk }: FigureInk): Uint8Array {
  let near = anyInk
  for (let step = 0; step < 2; step++) near = grown(near)
  const paper = new Uint8Array(CELL_SIZE * CELL_SIZE)
  for (let y = FIRST; y < END; y++)
    for (let x = FIRST; x < END; x++) paper[y * CELL_SIZE + x] = near[y * CELL_SIZE + x] ? 0 : 1
  return paper
}

/** Darkness of each grey value. */
const DARKNESS = Float32Array.from({ length: 256 }, (_, grey) => 1 - grey / 255)
/** How many pixels have each grey value: found by counting, since sorting thousands of pixels takes long. */
const greys = new Uint16Array(256)

function countGrey(grey: number): void {
  greys[grey] = greys[grey]! + 1
}

/** Mean darkness of so many of the darkest pixels counted in `greys`, or of all when there are fewer. */
function meanOfDarkest(count: number): number {
  let sum = 0
  let left = count
  for (let grey = 0; grey < 256 && left > 0; grey++) {
    for (let k = Math.min(left, greys[grey]!); k > 0; k--, left--) sum += DARKNESS[grey]!
  }
  return sum / Math.max(1, count - left)
}

/** Wipes lines along the window's sides that are dark from end to end. */
function peelRules(inked: Uint8Array): void {
  for (const across of [true, false]) {
    for (const fromEnd of [false, true]) {
      for (let depth = 0; depth < RULE_DEPTH; depth++) {
        const line = fromEnd ? END - 1 - depth : FIRST + depth
        const at = (k: number) => (across ? line * CELL_SIZE + k : k * CELL_SIZE + line)
        let dark = 0
        for (let k = FIRST; k < END; k++) dark += inked[at(k)]!
        if (dark > RULE_SHARE * (END - FIRST)) for (let k = FIRST; k < END; k++) inked[at(k)] = 0
        else if (depth > 0) break
      }
    }
  }
}

function partsOf(inked: Uint8Array): Part[] {
  const parts: Part[] = []
  const seen = new Uint8Array(inked.length)
  for (let start = 0; start < inked.length; start++) {
    if (!inked[start] || seen[start]) continue
    const pixels: number[] = []
    const box: Box = { x0: CELL_SIZE, y0: CELL_SIZE, x1: -1, y1: -1 }
    const stack = [start]
    seen[start] = 1
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      pixels.push(at)
      const x = at % CELL_SIZE
      const y = (at - x) / CELL_SIZE
      box.x0 = Math.min(box.x0, x)
      box.x1 = Math.max(box.x1, x)
      box.y0 = Math.min(box.y0, y)
      box.y1 = Math.max(box.y1, y)
      for (let ny = Math.max(FIRST, y - 1); ny <= Math.min(END - 1, y + 1); ny++) {
        for (let nx = Math.max(FIRST, x - 1); nx <= Math.min(END - 1, x + 1); nx++) {
          const next = ny * CELL_SIZE + nx
          if (!inked[next] || seen[next]) continue
          seen[next] = 1
          stack.push(next)
        }
      }
    }
    if (pixels.length >= LEAST_PIXELS) parts.push({ pixels, box })
  }
  return parts
}

function isRuleRemnant({ pixels, box }: Part): boolean {
  const atSide = box.x0 === FIRST || box.y0 === FIRST || box.x1 === END - 1 || box.y1 === END - 1
  if (atSide && (box.x1 - box.x0 < 3 || box.y1 - box.y0 < 3)) return true
  const outermost = pixels.filter((at) => {
    const x = at % CELL_SIZE
    const y = (at - x) / CELL_SIZE
    return Math.min(x, y) < FIRST + FRAME_DEPTH || Math.max(x, y) >= END - FRAME_DEPTH
  })
  return outermost.length > FRAME_SHARE * pixels.length
}

/** Does a part lie within the figure's box, a little widened, or right above or below a tall one? */
function belongs(part: Box, figure: Box, tallest: number): boolean {
  const inside =
    part.x0 >= figure.x0 - NEAR &&
    part.x1 <= figure.x1 + NEAR &&
    part.y0 >= figure.y0 - NEAR &&
    part.y1 <= figure.y1 + NEAR
  const overOrUnder =
    Math.min(part.x1, figure.x1) >= Math.max(part.x0, figure.x0) &&
    Math.max(part.y0, figure.y0) - Math.min(part.y1, figure.y1) <= NEAR
  return inside || (overOrUnder && tallest > TALL)
}

function height(box: Box): number {
  return box.y1 - box.y0 + 1
}

/** How far past pixel `from` darkness stays above the threshold, up to one pixel. */
function beyond(profile: Float32Array, from: number, step: number, threshold: number): number {
  const inside = profile[from]!
  const outside = profile[from + step] ?? 0
  if (inside <= threshold || inside <= outside) return 0
  return Math.min(1, (inside - threshold) / (inside - outside))
}

/** The darkness of a mask's pixels and of their neighbours. */
function spreadByOne(mask: Uint8Array, darkness: Float32Array): Float32Array {
  const near = grown(mask)
  const spread = new Float32Array(darkness.length)
  for (let at = 0; at < spread.length; at++) if (near[at]) spread[at] = darkness[at]!
  return spread
}

function grown(mask: Uint8Array): Uint8Array {
  const out = new Uint8Array(mask.length)
  for (let y = 0; y < CELL_SIZE; y++) {
    for (let x = 0; x < CELL_SIZE; x++) {
      if (!mask[y * CELL_SIZE + x]) continue
      for (let ny = Math.max(0, y - 1); ny <= Math.min(CELL_SIZE - 1, y + 1); ny++)
        for (let nx = Math.max(0, x - 1); nx <= Math.min(CELL_SIZE - 1, x + 1); nx++)
          out[ny * CELL_SIZE + nx] = 1
    }
  }
  return out
}
