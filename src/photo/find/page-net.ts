import { extentOf, type Frame, frameOf, meanPoint, widened } from '../frame.js'
import type { GrayImage, Point } from '../image.js'
import { ConvNet } from '../nets/conv-net.js'
import { readNetFile } from '../nets/net-file.js'
import { areaMean } from '../raster/area-mean.js'
import { shrink } from '../raster/shrink.js'

/** A place of the picture that the network takes for a part of a grid. */
export interface SeenPlace {
  /** On the picture. */
  readonly point: Point
  /** Where on the grid, 0 to 1 from its left and its top edge as the picture shows it. */
  readonly u: number
  readonly v: number
  /** Log odds of its lying on a grid. */
  readonly sure: number
  /** A logit for each of `SEEN_ORDERS`: which the grid has. */
  readonly orders: readonly number[]
}

/** Orders of grids that the network knows, as in `fixtures/train/page_views.py`. */
export const SEEN_ORDERS: readonly number[] = [4, 5, 6, 7, 8, 9, 10, 12, 16]

/**
 * Outputs of a place: a logit of its being on a grid, u, v, how far off they may be (its log, not used here), and a
 * logit for each order.
 */
const [ON, U, V, ORDER] = [0, 1, 2, 4] as const
/**
 * As in `fixtures/train/page_views.py`: grey levels are counted from the mean in standard deviations, so many at most.
 */
const LEAST_SPREAD = 0.02
const FARTHEST = 4
const UNITS = 8000
/** Neighbours on one grid differ by less than this in u and v; where two grids meet it is nearly 1. */
const SAME_GRID = 0.35

/**
 * The network learnt from pictures beside which its square goes on, so it looks at so many places beyond the picture,
 * too; what is farther off matters no more.
 */
const PLACES_BEYOND = 4

/** Larger pictures are made smaller by a whole factor first, which is quicker; at least so many pixels are left. */
const VIEWED_FROM = 600

/** Of a grid that shows in fewer places too little is seen … */
const FEWEST_PLACES = 30
/** … but so many are worth a closer look, in the few largest groups. */
const FEWEST_HINTS = 5
const MOST_GROUPS = 8

/** The network that looks for grids; one serves all pictures, as it is done with a view when it has answered. */
export type PageNet = ConvNet

/** @param file the weights shipped with the package when left out */
export async function loadPageNet(file?: Uint8Array): Promise<PageNet> {
  return new ConvNet(readNetFile(file ?? (await (await import('../weights/page-net.js')).packedBytes())))
}

/**
 * What the page network takes for grids, or for something like a part of one: for each, its places, the largest
 * first. The network sees the whole picture in `inputSide²` pixels and knows grids by their looks, so that faint,
 * broken or missing rules matter little; places of a grid that fills half the view are right to a few hundredths of a
 * cell. Trained on drawn pages alone: see `fixtures/train`.
 */
export function seenGrids(net: PageNet, image: GrayImage): SeenPlace[][] {
  const factor = Math.max(1, Math.floor(Math.max(image.width, image.height) / VIEWED_FROM))
  const { image: view, scale: shrinking } = areaMean(shrink(image, factor), net.inputSide)
  const scale = shrinking / factor
  show(net, view)
  const { outputStep, spacing } = net
  const most = net.inputSide / spacing
  const [across, down] = [view.width, view.height].map((length) =>
    Math.min(most, Math.ceil(length / spacing) + PLACES_BEYOND),
  ) as [number, number]
  const outputs = net.run(1 / UNITS, across * spacing, down * spacing)
  const places: (SeenPlace | undefined)[] = []
  for (let k = 0; k < across * down; k++) {
    const at = k * outputStep
    const point = { x: ((k % across) + 0.5) * spacing, y: (Math.floor(k / across) + 0.5) * spacing }
    const inside = point.x < view.width && point.y < view.height
    const sure = outputs[at + ON]!
    places.push(
      inside && sure > 0
        ? {
            point: { x: point.x / scale, y: point.y / scale },
            u: outputs[at + U]!,
            v: outputs[at + V]!,
            sure,
            orders: SEEN_ORDERS.map((_, k) => outputs[at + ORDER + k]!),
          }
        : undefined,
    )
  }
  return gathered(places, across)
    .filter((group) => group.length >= FEWEST_HINTS)
    .slice(0, MOST_GROUPS)
}

/**
 * Log odds of the middle one of a grid's places from which on the network's word is enough. On drawn pictures, grids
 * had 1.8 to 9.6, most about 8, and tables and lattices of other counts 0.5 to 4.8.
 */
export const SURELY_SEEN = 5
/** With log odds below this nothing is a grid for the network's sake. */
export const LIKELY_SEEN = 2.5

/** How sure the network is of a grid: the log odds of the middle one of its places. */
export function sureness(places: readonly SeenPlace[]): number {
  const sure = places.map((place) => place.sure).sort((a, b) => a - b)
  return sure[sure.length >> 1]!
}

/** Orders that are this much less likely than the likeliest, in nats on the mean over all places, are not meant. */
const OTHER_ORDER = 1.5
const MOST_ORDERS = 3

/** The orders that a grid may have, the likeliest first: rows of a small picture are hard to count. */
export function likelyOrders(places: readonly SeenPlace[]): number[] {
  const ranking = SEEN_ORDERS.map((order, k) => ({
    order,
    nats: places.reduce((sum, { orders }) => sum + orders[k]!, 0) / places.length,
  })).sort((a, b) => b.nats - a.nats)
  return ranking
    .slice(0, MOST_ORDERS)
    .filter(({ nats }) => nats > ranking[0]!.nats - OTHER_ORDER)
    .map(({ order }) => order)
}

/** Do so many places show that this is a grid, and not just something like a part of one? */
export function showsGrid(places: readonly SeenPlace[]): boolean {
  return places.length >= FEWEST_PLACES
}

/** A grid that takes up less than this share of the network's view is looked at again, alone. */
const CLOSE_ENOUGH = 0.55
/** Room around a grid in the closer view, as a share of its extent; more where only a part of it may have been seen. */
const ROOM = 0.3
const ROOM_AROUND_PART = 1
/** The closer view must show the grid about as large as the first did; else that one counts. */
const AS_LARGE = 0.7

/** Closer looks at one grid, at most: of a small one only a part is seen at first. */
const MOST_LOOKS = 3

/** A grid seen closer, and what the closer views showed besides. */
export interface CloserView {
  readonly places: SeenPlace[]
  readonly beside: readonly SeenPlace[][]
}

/**
 * The places of a grid that was seen, found more exactly in a view of it alone where it is small on the picture; a
 * view a step.
 */
export function* closerView(net: PageNet, image: GrayImage, first: SeenPlace[]): Generator<void, CloserView> {
  let places = first
  const beside: SeenPlace[][] = []
  for (let look = 0; look < MOST_LOOKS; look++) {
    const complete = showsGrid(places) && isWhole(places)
    const around = frameOf(places.map(({ point }) => point))
    const extent = extentOf(around)
    if (complete && (look > 0 || extent > CLOSE_ENOUGH * Math.max(image.width, image.height))) break
    yield
    const groups = seenWithin(net, image, widened(around, extent * (complete ? ROOM : ROOM_AROUND_PART)))
    const closer = nearest(groups, meanPoint(places.map(({ point }) => point)))
    beside.push(...groups.filter((group) => group !== closer))
    if (!closer || extentOf(frameOf(closer.map(({ point }) => point))) < AS_LARGE * extent) break
    places = closer
  }
  return { places, beside }
}

/** Of several grids, the one that reaches nearest to a place. */
export function nearest(groups: readonly SeenPlace[][], { x, y }: Point): SeenPlace[] | undefined {
  let best: SeenPlace[] | undefined
  let least = Number.POSITIVE_INFINITY
  for (const group of groups) {
    const away = Math.min(...group.map(({ point }) => Math.hypot(point.x - x, point.y - y)))
    if (away >= least) continue
    least = away
    best = group
  }
  return best
}

/** Places near all four sides of a grid must be seen for it to be whole. */
const NEAR_SIDE = 0.1

export function isWhole(places: readonly SeenPlace[]): boolean {
  return (['u', 'v'] as const).every(
    (axis) =>
      places.some((place) => place[axis] < NEAR_SIDE) && places.some((place) => place[axis] > 1 - NEAR_SIDE),
  )
}

/** What the network sees in a part of a picture; places are those on the picture. */
export function seenWithin(net: PageNet, image: GrayImage, frame: Frame): SeenPlace[][] {
  const left = Math.max(0, Math.floor(frame.left))
  const top = Math.max(0, Math.floor(frame.top))
  const part = cropped(image, { x: left, y: top }, Math.ceil(frame.right), Math.ceil(frame.bottom))
  return seenGrids(net, part).map((places) =>
    places.map((place) => ({ ...place, point: { x: place.point.x + left, y: place.point.y + top } })),
  )
}

function cropped(
  { width, height, data }: GrayImage,
  corner: Point,
  right: number,
  bottom: number,
): GrayImage {
  const columns = Math.min(width, right) - corner.x
  const rows = Math.min(height, bottom) - corner.y
  const part = new Uint8Array(columns * rows)
  for (let y = 0; y < rows; y++) {
    const from = (corner.y + y) * width + corner.x
    part.set(data.subarray(from, from + columns), y * columns)
  }
  return { width: columns, height: rows, data: part }
}

/** Lays a picture into the top left corner of the network's input; what lies outside it counts as of its mean grey. */
function show(net: PageNet, { width, height, data }: GrayImage): void {
  let sum = 0
  let squares = 0
  for (let k = 0; k < data.length; k++) {
    const grey = data[k]!
    sum += grey
    squares += grey * grey
  }
  const mean = sum / data.length
  const spread = Math.sqrt(squares / data.length - mean ** 2) / 255 + LEAST_SPREAD
  const levels = Int16Array.from({ length: 256 }, (_, grey) => {
    const deviations = (grey - mean) / 255 / spread
    return Math.round(UNITS * Math.max(-FARTHEST, Math.min(FARTHEST, deviations)))
  })
  for (let y = 0; y < net.inputSide; y++) {
    const row = net.inputRow(y)
    row.fill(0)
    if (y >= height) continue
    for (let x = 0; x < width; x++) row[x] = levels[data[y * width + x]!]!
  }
}

/** Neighbouring places that belong together, the larger groups first. */
function gathered(places: readonly (SeenPlace | undefined)[], across: number): SeenPlace[][] {
  const taken = new Uint8Array(places.length)
  const groups: SeenPlace[][] = []
  for (let start = 0; start < places.length; start++) {
    if (taken[start] || !places[start]) continue
    const group: SeenPlace[] = []
    const queue = [start]
    taken[start] = 1
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      const place = places[at]!
      group.push(place)
      for (const next of neighbours(at, across, places.length)) {
        const other = places[next]
        if (!other || taken[next]) continue
        if (Math.abs(other.u - place.u) > SAME_GRID || Math.abs(other.v - place.v) > SAME_GRID) continue
        taken[next] = 1
        queue.push(next)
      }
    }
    groups.push(group)
  }
  return groups.sort((a, b) => b.length - a.length)
}

function neighbours(at: number, across: number, count: number): number[] {
  const column = at % across
  const around: number[] = []
  if (column > 0) around.push(at - 1)
  if (column < across - 1) around.push(at + 1)
  if (at >= across) around.push(at - across)
  if (at + across < count) around.push(at + across)
  return around
}
