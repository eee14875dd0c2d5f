import { throwIfAborted } from '../errors.js'
import { type Geometry, usualGeometry } from '../grid/geometry.js'
import { cutCells } from './cells/cut-cells.js'
import { CERTAIN } from './certainty.js'
import { chooseTurn } from './choose-turn.js'
import { concludeReading } from './conclude.js'
import {
  DEFAULT_MAX_PIXELS,
  type DecodedPicture,
  decodePicture,
  type PictureInput,
  toFullFrame,
} from './decode/decode-picture.js'
import { blackChannel } from './decode/ink-channel.js'
import { withCloserLook } from './digits/closer-look.js'
import type { DigitReader } from './digits/digit-reader.js'
import { createNetworkReader } from './digits/network-reader.js'
import { NoGridFound } from './errors.js'
import { type FoundLattice, latticeSearch } from './find/find-lattices.js'
import { compareFigures } from './inks/compare-figures.js'
import { figureLooks } from './inks/figure-look.js'
import { cellSide, type Lattice } from './lattice.js'
import { cellsOutside } from './outside.js'
import type { Reading } from './reading.js'
import { turnLattice } from './turn.js'
import { likelyTurns } from './upright.js'

export interface PhotoReaderOptions {
  /** How single digits are read; the network shipped with the package when left out. */
  readonly digitReader?: DigitReader
  /** Pictures with more pixels are refused before they are decoded. */
  readonly maxPixels?: number
}

export interface ReadOptions {
  readonly signal?: AbortSignal
}

export interface PhotoReader {
  /**
   * Reads every number-place grid on a picture, in reading order (top to bottom, then left to right).
   *
   * @throws NoGridFound when the picture shows none; never returns an empty list
   * @throws GridreasonError `picture-unreadable`, `picture-truncated`, `picture-too-large`, `file-unreadable`, `aborted`
   */
  read(picture: PictureInput, options?: ReadOptions): Promise<[Reading, ...Reading[]]>
  /** Frees what the digit reader holds. */
  close(): Promise<void>
}

/** Largest order whose numbers are single digits. */
const LARGEST_ORDER = 9

/**
 * A reader for pictures of printed grids. Nothing is loaded until the first cell has to be read.
 *
 * @example
 * const reader = await createPhotoReader()
 * const [reading] = await reader.read('page.jpg')
 * if (reading.status === 'check') console.log('look at', reading.doubtful)
 */
export async function createPhotoReader(options: PhotoReaderOptions = {}): Promise<PhotoReader> {
  const digitReader = options.digitReader ?? createNetworkReader()
  const maxPixels = options.maxPixels ?? DEFAULT_MAX_PIXELS

  async function readGrid(
    picture: DecodedPicture,
    lattice: Lattice,
    geometry: Geometry,
    options: ReadOptions,
  ): Promise<Reading> {
    const pages = await likelyTurns(cutCells(picture.gray, lattice, picture.colour), digitReader, options)
    const { page, lead } = chooseTurn(geometry, pages)
    const found = turnLattice(lattice, page.turns)
    const looks = figureLooks(picture.colour, found, page.pictures)
    const read = await withCloserLook(digitReader, page.pictures, page.scores, options)
    const scores = compareFigures(geometry, read, page.pictures, looks, cellSide(found))
    const upright = { ...found, points: found.points.map((point) => toFullFrame(picture, point)) }
    return concludeReading(upright, page.turns, {
      scores: scores.map(({ digits }) => digits),
      handwritten: scores.map(({ handwritten }) => handwritten),
      outside: cellsOutside(upright, picture.fullWidth, picture.fullHeight),
      pictures: page.pictures,
      turnLead: lead,
      settled: new Map(),
    })
  }

  return {
    async read(input, options = {}) {
      const picture = await decodePicture(input, { maxPixels, ...options })
      const found = await findPatiently(searchPicture(picture), options.signal)
      const readings: Reading[] = []
      const otherOrders: number[] = []
      for (const { lattice, uncounted } of found) {
        throwIfAborted(options.signal)
        const geometry = lattice.order <= LARGEST_ORDER ? usualGeometry(lattice.order) : undefined
        if (!geometry) {
          otherOrders.push(lattice.order)
          continue
        }
        const reading = await readGrid(picture, lattice, geometry, options)
        if (uncounted && reading.verdict.kind !== 'unique') continue
        if (!isBareTexture(reading)) readings.push(reading)
      }
      const [first, ...others] = inReadingOrder(readings)
      if (!first) throw new NoGridFound(otherOrders)
      return [first, ...others]
    },
    close: () => digitReader.close(),
  }
}

/** Rules that hardly show, and fewer figures than any sound puzzle has, which shows all digits but one: a noisy surface, not a grid. */
function isBareTexture({ lattice, puzzle }: Reading): boolean {
  const figures = puzzle.givens.filter((digit) => digit !== 0).length
  return lattice.support < CERTAIN.support && figures < lattice.order - 1
}

/** Where stripes or squares of colour hide the rules between them, these show once all colours are light. */
function* searchPicture({ gray, colour }: DecodedPicture): Generator<void, FoundLattice[]> {
  const found = yield* latticeSearch(gray)
  const black = found.length === 0 ? blackChannel(colour) : undefined
  return black ? yield* latticeSearch(black) : found
}

/** Milliseconds that finding may keep everything else in this thread waiting. */
const BREATH = 25

/** Finds grids step by step, so that the caller's timers and signal come through while it lasts. */
async function findPatiently(
  search: Generator<void, FoundLattice[]>,
  signal: AbortSignal | undefined,
): Promise<FoundLattice[]> {
  let breath = performance.now()
  for (;;) {
    throwIfAborted(signal)
    const step = search.next()
    if (step.done) return step.value
    if (performance.now() - breath < BREATH) continue
    await new Promise((resolve) => setImmediate(resolve))
    breath = performance.now()
  }
}

/**
 * Readings by rows of the upright page, then from left to right. Grids of one page lie the same way; should they not,
 * the first one's turn counts for all. Two grids stand in one row when their middles are less than half a grid apart.
 */
function inReadingOrder(readings: readonly Reading[]): Reading[] {
  const turns = readings[0]?.turns ?? 0
  const placed = readings.map((reading) => {
    const { points } = reading.lattice
    const xs = points.map(({ x }) => x)
    const ys = points.map(({ y }) => y)
    const middle = { x: mean(xs), y: mean(ys) }
    const upright = [
      middle,
      { x: -middle.y, y: middle.x },
      { x: -middle.x, y: -middle.y },
      { x: middle.y, y: -middle.x },
    ][turns]!
    return { reading, ...upright, reach: (Math.max(...ys) - Math.min(...ys)) / 2 }
  })
  placed.sort((a, b) => a.y - b.y)
  const rows: (typeof placed)[] = []
  for (const item of placed) {
    const row = rows.at(-1)
    if (row && item.y - row[0]!.y < Math.min(row[0]!.reach, item.reach)) row.push(item)
    else rows.push([item])
  }
  return rows.flatMap((row) => row.sort((a, b) => a.x - b.x).map(({ reading }) => reading))
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
