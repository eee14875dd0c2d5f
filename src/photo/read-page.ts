import { throwIfAborted } from '../errors.js'
import type { Geometry } from '../grid/geometry.js'
import { findClashes } from '../grid/puzzle.js'
import { nextTurn, runInSlices } from '../limits.js'
import { toBase64 } from './base64.js'
import { cutCells } from './cells/cut-cells.js'
import { CERTAIN } from './certainty.js'
import { chooseTurn } from './choose-turn.js'
import { conclude } from './conclude.js'
import { solutionCounter } from './decide/counter.js'
import { cellOptions } from './decide/options.js'
import { type DecodedPicture, toFullFrame } from './decode/decode-picture.js'
import { blackChannel } from './decode/ink-channel.js'
import { withCloserLook } from './digits/closer-look.js'
import { type CellScores, type DigitReader, LARGEST_FIGURE } from './digits/digit-reader.js'
import { NoGridFound } from './errors.js'
import { type FoundLattice, findingTask, latticeSearch } from './find/find-lattices.js'
import type { PageNet } from './find/page-net.js'
import { compareFigures } from './inks/compare-figures.js'
import { figureLooks } from './inks/figure-look.js'
import { asPrint } from './inks/with-printed.js'
import { cellSide, type Lattice } from './lattice.js'
import { cellsOutside } from './outside.js'
import type { CellJudge } from './print-or-hand/cell-judge.js'
import { isWrittenPage, printScores, writingOf } from './print-or-hand/written-cells.js'
import type { Reading, Readings } from './reading.js'
import { inReadingOrder } from './reading-order.js'
import { type GridShape, gridShape } from './shape/grid-shape.js'
import { turnLattice } from './turn.js'
import { type UnreadGrid, unreadGrid } from './unread.js'
import { likelyTurns } from './upright.js'

/** How a page is to be read. */
export interface PageQuery {
  readonly pageNet: PageNet
  /** What reads the digits of a grid of an order. */
  readonly readerFor: (order: number) => DigitReader
  readonly judge: CellJudge
  /** The geometry of the grids of its order, if the caller knows it. */
  readonly geometry: Geometry | undefined
  /** Are pictures of the cells wanted beside what was read of them? */
  readonly cellPictures: boolean
  readonly signal: AbortSignal
}

/** @throws NoGridFound when no grid of the page is read */
export async function readPage(picture: DecodedPicture, query: PageQuery): Promise<Readings> {
  const { signal } = query
  const found = await runInSlices({ signal }, (watch) =>
    findingTask(searchPicture(query.pageNet, picture), watch),
  )
  const read: Reading[] = []
  const unread: UnreadGrid[] = []
  for (const { lattice, needsSoundPuzzle } of found) {
    throwIfAborted(signal)
    const shape = gridShape(picture.gray, lattice, query.geometry)
    if (shape.at(0).geometries.length === 0) {
      unread.push(unreadGrid('irregular', inFullFrame(picture, lattice)))
      continue
    }
    const reading = await readGrid(picture, lattice, shape, query)
    if (needsSoundPuzzle && reading.verdict.kind !== 'unique') continue
    if (!isBareTexture(reading)) read.push(reading)
  }
  const [first, ...others] = inReadingOrder(read)
  if (!first) throw new NoGridFound(unread)
  return { readings: [first, ...others], unread }
}

async function readGrid(
  picture: DecodedPicture,
  lattice: Lattice,
  shape: GridShape,
  { readerFor, judge, cellPictures, signal }: PageQuery,
): Promise<Reading> {
  const digitReader = readerFor(lattice.order)
  const cells = cutCells(picture.gray, lattice, picture.colour)
  await breathe(signal)
  const pages = await likelyTurns(cells, digitReader, { signal })
  const {
    page,
    lead,
    geometry: chosen,
  } = await runInSlices({ signal }, (watch) =>
    chooseTurn(pages, (turns) => shape.at(turns).geometries, watch),
  )
  const boxed = shape.boxed.find((boxes) => isSoundAsRead(page.scores, boxes))
  const geometry = boxed ?? chosen
  const found = turnLattice(lattice, page.turns)
  const looks = figureLooks(picture.colour, found, page.pictures)
  await breathe(signal)
  const read = await withCloserLook(digitReader, page.pictures, page.scores, { signal })
  await breathe(signal)
  // handwriting is looked for, and figures are held against each other, where digits are single figures
  const judgements = lattice.order > LARGEST_FIGURE ? undefined : await judge(page.pictures, looks, signal)
  const written = judgements !== undefined && isWrittenPage(judgements)
  const compared = judgements
    ? compareFigures(geometry, read, page.pictures, looks, cellSide(found))
    : read.map(asPrint)
  const scores = written ? printScores(compared, read, judgements) : compared
  const upright = inFullFrame(picture, found)
  const evidence = {
    scores: scores.map(({ digits }) => Array.from(digits)),
    // in single precision, as scores are: engines differ in the last place of an exponential
    handwritten: scores.map(({ handwritten }) => Math.fround(handwritten)),
    outside: cellsOutside(upright, picture.fullWidth, picture.fullHeight),
    turnLead: lead,
    settled: {},
    geometrySource: boxed ? (shape.boxed.length === 1 ? 'order' : 'unsure') : shape.at(page.turns).source,
    ...(written && { writing: writingOf(judgements) }),
    ...(cellPictures && { pictures: page.pictures.map(({ data }) => toBase64(data)) }),
  }
  return runInSlices({ signal }, (watch) => conclude(geometry, upright, page.turns, evidence, watch))
}

/** Is what the pixels say first, cell by cell, a puzzle with one solution? */
function isSoundAsRead(scores: readonly CellScores[], geometry: Geometry): boolean {
  const digits = scores.map((score) => cellOptions(asPrint(score).digits, geometry.order).digits[0]!)
  return findClashes(geometry, digits).length === 0 && solutionCounter(geometry)(digits) === 1
}

/** Lets timers and signals through between two parts of the work that take some milliseconds each. */
async function breathe(signal: AbortSignal): Promise<void> {
  await nextTurn()
  throwIfAborted(signal)
}

function inFullFrame(picture: DecodedPicture, lattice: Lattice): Lattice {
  return { ...lattice, points: lattice.points.map((point) => toFullFrame(picture, point)) }
}

/**
 * Rules that hardly show, and fewer figures than any sound puzzle has, which shows all digits but one: a noisy surface,
 * not a grid.
 */
function isBareTexture({ lattice, puzzle }: Reading): boolean {
  const figures = puzzle.givens.filter((digit) => digit !== 0).length
  return lattice.support < CERTAIN.support && figures < lattice.order - 1
}

/** Where stripes or squares of colour hide the rules between them, these show once all colours are light. */
function* searchPicture(net: PageNet, { gray, colour }: DecodedPicture): Generator<void, FoundLattice[]> {
  const found = yield* latticeSearch(net, gray)
  const black = found.length === 0 ? blackChannel(colour) : undefined
  return black ? yield* latticeSearch(net, black) : found
}
