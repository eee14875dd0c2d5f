import { checkOptions } from '../../check-arguments.js'
import { LIMIT_CHECKS, type Limits, runInSlices, type Task, type Watch } from '../../limits.js'
import { grayImage } from '../check-photo.js'
import { extentOf, frameOf, meanPoint, widened } from '../frame.js'
import type { GrayImage, Point } from '../image.js'
import type { Lattice } from '../lattice.js'
import { showsShape } from '../shape/grid-shape.js'
import { loadedOnce } from '../weights/weights.js'
import { hasBlackCells, PERHAPS_BLACK } from './black-cells.js'
import { extendsBeyond } from './extends-beyond.js'
import { fitSeen, type SeenLattice, ShrunkCopies } from './fit-grid.js'
import { covers, KeptLattices } from './kept-lattices.js'
import { MESH_STAGES, MOST_LOOKS, searchMeshes } from './mesh-stages.js'
import {
  closerView,
  LIKELY_SEEN,
  loadPageNet,
  type PageNet,
  type SeenPlace,
  seenGrids,
  seenWithin,
  showsGrid,
  sureness,
} from './page-net.js'
import { seenTurned } from './turned-view.js'
import { USUAL_ORDER } from './window.js'

/**
 * Finds the printed grids of a picture, in reading order; an empty list when there is none.
 *
 * Rules part the paper into cells whatever the light, so cells are found first: patches of paper bounded by thin dark
 * lines, four-sided, side by side. A mesh of such cells suggests a grid; rules are then looked for where that grid says
 * they run, and only a grid whose rules are seen on all sides is kept. Grids whose rules are too faint, broken, blurred
 * or few for that are known by their looks: a network says where they lie, and rules are followed from there. Light
 * rules, and grounds of different shades without rules, are tried when nothing was found.
 *
 * @throws StoppedError `time-limit`, `aborted`
 *
 * @example
 * const { gray } = await decodePicture('page.jpg')
 * for (const { order, points } of await findLattices(gray)) console.log(order, points[0])
 */
export async function findLattices(image: GrayImage, limits: Limits = {}): Promise<Lattice[]> {
  grayImage(image, 'image')
  checkOptions<Limits>(limits, LIMIT_CHECKS)
  const net = await packedNet()
  const found = await runInSlices(limits, (watch) => findingTask(latticeSearch(net, image), watch))
  return found.map(({ lattice }) => lattice)
}

const packedNet = loadedOnce(() => loadPageNet())

/** A search in steps as work that can be paused. */
export function* findingTask(search: Generator<void, FoundLattice[]>, watch: Watch): Task<FoundLattice[]> {
  for (;;) {
    const step = search.next()
    if (step.done) return step.value
    // a step takes milliseconds
    watch.read()
    if (watch.isDue()) yield
  }
}

export interface FoundLattice {
  readonly lattice: Lattice
  /**
   * Nine rows and columns of squares of which some are unseen, and the network does not know them well; or that have
   * what may be the black squares of a crossword, or rules that seem to go on: only a sound puzzle makes it a grid.
   */
  readonly needsSoundPuzzle: boolean
}

/** The same in small steps, so that a caller can do something else, or stop, between them. */
export function* latticeSearch(net: PageNet, image: GrayImage): Generator<void, FoundLattice[]> {
  const copies = new ShrunkCopies(image)
  const kept = new KeptLattices(image)
  const budget = { left: MOST_LOOKS }
  const [clear, ...others] = MESH_STAGES
  yield* searchMeshes(clear!, copies, kept, budget)
  const doubted = new Set<Lattice>()
  const bySight = new Set<Lattice>()
  function* counted(known: readonly (readonly SeenPlace[])[]): Generator<void, FoundLattice[]> {
    const found: FoundLattice[] = []
    for (const lattice of kept.inReadingOrder()) {
      yield
      if (bySight.has(lattice) && !isOtherGrid(lattice, known, image)) continue
      const own = judged(net, lattice, known, image)
      if (!own) continue
      const needsSoundPuzzle =
        own.needsSoundPuzzle || doubted.has(lattice) || mayBeSomethingElse(lattice, image)
      found.push({ lattice, needsSoundPuzzle })
    }
    return found
  }
  if (kept.fillsPicture(WELL_SEEN)) return yield* counted([])
  const known: SeenPlace[][] = []
  const faint: SeenPlace[][] = []
  // grows while it is gone through: a closer look may show more grids than the first
  const hints = seenGrids(net, image)
  for (const first of hints) {
    yield
    if (kept.isSettledAt(middleOf(first), WELL_SEEN)) continue
    const { places, beside } = yield* closerView(net, image, first)
    if (hints.length < MOST_HINTS)
      hints.push(...beside.filter((group) => kept.supportAt(middleOf(group)) === 0))
    if (!showsGrid(places)) continue
    known.push(places)
    yield
    const fitted = yield* fitPlaces(net, copies, places)
    if (fitted) {
      kept.offer(fitted.lattice, fitted.surely)
      if (fitted.lattice.order !== USUAL_ORDER) {
        bySight.add(fitted.lattice)
        if (!fitted.surely && fitted.lattice.support < PLAIN_ENOUGH) doubted.add(fitted.lattice)
      }
    } else faint.push(places)
  }
  for (const stage of others) yield* searchMeshes(stage, copies, kept, budget)
  for (const places of faint) {
    yield
    if (kept.supportAt(middleOf(places)) > 0) continue
    const fitted = fitSeen(copies, places, FAINTLY_SEEN)
    if (!fitted) continue
    kept.offer(fitted.lattice)
    doubted.add(fitted.lattice)
    if (fitted.lattice.order !== USUAL_ORDER) bySight.add(fitted.lattice)
  }
  return yield* counted(known)
}

/**
 * A grid of another order than nine that the network alone has seen: tables and boards are often so, unless heavy lines
 * part it as they part a grid, or the network knows it well.
 */
function isOtherGrid(lattice: Lattice, known: readonly (readonly SeenPlace[])[], image: GrayImage): boolean {
  const places = known.find((own) => own.some(({ point }) => covers(lattice, point)))
  return (places !== undefined && sureness(places) >= KNOWN) || showsShape(image, lattice)
}

/** Squares as a crossword or a larger table has them. */
function mayBeSomethingElse(lattice: Lattice, image: GrayImage): boolean {
  return hasBlackCells(image, lattice, PERHAPS_BLACK) || extendsBeyond(image, lattice)
}

/**
 * The grid that the network sees here; looked at turned as well where it is in doubt, and the better seen of the two
 * taken.
 */
function* fitPlaces(
  net: PageNet,
  copies: ShrunkCopies,
  places: readonly SeenPlace[],
): Generator<void, SeenLattice | undefined> {
  const fitted = fitSeen(copies, places)
  // what hardly looks like a grid as it stands may look like one turned, as any squares do
  if (fitted?.surely || sureness(places) < LIKELY_SEEN) return fitted
  if (fitted && fitted.lattice.support >= WELL_SEEN) return fitted
  yield
  const turned = seenTurned(net, copies.full, places)
  yield
  const other = turned && fitSeen(copies, turned)
  return other && other.lattice.support > (fitted?.lattice.support ?? 0) ? other : fitted
}

/** So many places that may be grids are looked at closer, not many more. */
const MOST_HINTS = 12

/**
 * What the network sees with log odds below `LIKELY_SEEN`, but above this, is a grid if it turns out to be a sound
 * puzzle: no table and no crossword does.
 */
const FAINTLY_SEEN = 0.5

/** A grid whose rules were seen less well than this is looked at again from where the network sees it. */
const WELL_SEEN = 0.97

/** Grids of other orders than nine of which so much is seen are no noise, whatever they read as. */
const PLAIN_ENOUGH = 0.9

function middleOf(places: readonly SeenPlace[]): Point {
  return meanPoint(places.map(({ point }) => point))
}

/** Room around a lattice, in its own extents, when the network is asked whether it is a grid. */
const ROOM_TO_JUDGE = 0.3

/**
 * Log odds from which the network knows a grid whatever it reads as. Less had six tables and crosswords, all that had
 * passed for grids of 6,200 other pictures, and among 780 grids that are hard to read six that did not read as sound
 * puzzles, all misread.
 */
const KNOWN = 7

/**
 * Nine rows and columns of squares may be a crossword, or squared paper that the picture's edge cuts: the network must
 * see them, unless all rules are there without a gap; and know them well, or they must be a sound puzzle.
 */
function judged(
  net: PageNet,
  lattice: Lattice,
  known: readonly (readonly SeenPlace[])[],
  image: GrayImage,
): Pick<FoundLattice, 'needsSoundPuzzle'> | undefined {
  if (lattice.order !== USUAL_ORDER || (lattice.support >= WELL_SEEN && !lattice.cut)) {
    return { needsSoundPuzzle: false }
  }
  const places = knownAs(net, lattice, known, image)
  if (!places) return lattice.support >= WELL_SEEN ? { needsSoundPuzzle: true } : undefined
  return { needsSoundPuzzle: sureness(places) < KNOWN }
}

function knownAs(
  net: PageNet,
  lattice: Lattice,
  known: readonly (readonly SeenPlace[])[],
  image: GrayImage,
): readonly SeenPlace[] | undefined {
  const isThis = (places: readonly SeenPlace[]) =>
    showsGrid(places) && places.some(({ point }) => covers(lattice, point))
  const frame = frameOf(lattice.points)
  const around = widened(frame, extentOf(frame) * ROOM_TO_JUDGE)
  return known.find(isThis) ?? seenWithin(net, image, around).find(isThis)
}
