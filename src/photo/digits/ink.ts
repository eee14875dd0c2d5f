import { CELL_MARGIN, CELL_SIZE, type CellPicture } from './digit-reader.js'

/** The ink that stands free of the rules inside a cell, cut out with one pixel of paper around it. */
export interface FreeInk {
  readonly width: number
  readonly height: number
  /** Grey as in the cell; what belongs to rules or to specks is painted over with paper. */
  readonly data: Uint8Array
}

/** Where the cell's own square begins: outside it lie the rules and the neighbours. */
const EDGE = Math.round((CELL_MARGIN / (1 + 2 * CELL_MARGIN)) * CELL_SIZE)
/** Paper and ink differ by at least this much in a picture whose contrast has been evened out. */
const LEAST_CONTRAST = 60
/** A figure is at least this tall (pixels): a quarter of the cell. */
const LEAST_HEIGHT = 8
const LEAST_PIXELS = 12

/**
 * Cuts a figure free of rules and specks: connected dark regions that do not reach the rules and together are as tall
 * as a figure. Dark is darker than Otsu's threshold of the inner square (N. Otsu, "A threshold selection method from
 * gray-level histograms", 1979). `undefined` when nothing of the kind is there.
 */
export function freeInk(cell: CellPicture): FreeInk | undefined {
  const { data } = cell
  const threshold = innerThreshold(data)
  if (threshold === undefined) return undefined
  const region = regions(data, threshold)
  let x0 = CELL_SIZE
  let y0 = CELL_SIZE
  let x1 = -1
  let y1 = -1
  for (const { box, size, mark } of region.list) {
    const onRule = box.x0 < EDGE || box.y0 < EDGE || box.x1 >= CELL_SIZE - EDGE || box.y1 >= CELL_SIZE - EDGE
    if (onRule || size < LEAST_PIXELS) {
      region.kept[mark] = 0
      continue
    }
    region.kept[mark] = 1
    x0 = Math.min(x0, box.x0)
    y0 = Math.min(y0, box.y0)
    x1 = Math.max(x1, box.x1)
    y1 = Math.max(y1, box.y1)
  }
  if (y1 - y0 + 1 < LEAST_HEIGHT) return undefined
  return cutOut(data, region, x0 - 1, y0 - 1, x1 + 1, y1 + 1)
}

interface Box {
  x0: number
  y0: number
  x1: number
  y1: number
}

interface Regions {
  /** Region number of each pixel, from 1; 0 is paper. */
  readonly marks: Uint8Array
  readonly list: readonly { readonly mark: number; readonly size: number; readonly box: Box }[]
  /** By region number. */
  readonly kept: Uint8Array
}

function innerThreshold(data: Uint8Array): number | undefined {
  const counts = new Uint32Array(256)
  let low = 255
  let high = 0
  for (let y = EDGE + 2; y < CELL_SIZE - EDGE - 2; y++) {
    for (let x = EDGE + 2; x < CELL_SIZE - EDGE - 2; x++) {
      const value = data[y * CELL_SIZE + x]!
      counts[value]!++
      low = Math.min(low, value)
      high = Math.max(high, value)
    }
  }
  if (high - low < LEAST_CONTRAST) return undefined
  let total = 0
  let sum = 0
  for (let value = 0; value < 256; value++) {
    total += counts[value]!
    sum += value * counts[value]!
  }
  let best = low
  let bestSpread = -1
  let below = 0
  let sumBelow = 0
  for (let value = low; value < high; value++) {
    below += counts[value]!
    sumBelow += value * counts[value]!
    if (below === 0) continue
    const gap = sumBelow / below - (sum - sumBelow) / (total - below)
    const spread = below * (total - below) * gap * gap
    if (spread > bestSpread) {
      bestSpread = spread
      best = value
    }
  }
  return best
}

function regions(data: Uint8Array, threshold: number): Regions {
  const marks = new Uint8Array(CELL_SIZE * CELL_SIZE)
  const list: { mark: number; size: number; box: Box }[] = []
  const stack: number[] = []
  for (let start = 0; start < data.length && list.length < 254; start++) {
    if (data[start]! > threshold || marks[start]) continue
    const mark = list.length + 1
    const box: Box = { x0: CELL_SIZE, y0: CELL_SIZE, x1: -1, y1: -1 }
    let size = 0
    marks[start] = mark
    stack.push(start)
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      const x = at % CELL_SIZE
      const y = (at - x) / CELL_SIZE
      size++
      box.x0 = Math.min(box.x0, x)
      box.x1 = Math.max(box.x1, x)
      box.y0 = Math.min(box.y0, y)
      box.y1 = Math.max(box.y1, y)
      for (let ny = Math.max(0, y - 1); ny <= Math.min(CELL_SIZE - 1, y + 1); ny++) {
        for (let nx = Math.max(0, x - 1); nx <= Math.min(CELL_SIZE - 1, x + 1); nx++) {
          const next = ny * CELL_SIZE + nx
          if (data[next]! > threshold || marks[next]) continue
          marks[next] = mark
          stack.push(next)
        }
      }
    }
    list.push({ mark, size, box })
  }
  return { marks, list, kept: new Uint8Array(list.length + 1) }
}

function cutOut(data: Uint8Array, region: Regions, x0: number, y0: number, x1: number, y1: number): FreeInk {
  const width = x1 - x0 + 1
  const height = y1 - y0 + 1
  const out = new Uint8Array(width * height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = (y + y0) * CELL_SIZE + x + x0
      const mark = region.marks[at]!
      out[y * width + x] = mark && !region.kept[mark] ? 255 : data[at]!
    }
  }
  return { width, height, data: out }
}
