import { usualGeometry } from '../../grid/geometry.js'
import type { GrayImage, Point } from '../image.js'
import {
  evidence,
  foretold,
  type LineShow,
  lineShows,
  meanDepth,
  otherwiseParted,
  prolongedShows,
} from './line-test.js'
import type { RefinedGrid, RuleSupport } from './refine.js'
import type { Axis } from './rule-readings.js'
import { USUAL_ORDER } from './window.js'

/** A rule of which less than this lies well inside the picture is not held against a grid; the grid is cut. */
export const SEEN_ENOUGH = 0.3
const LEAST_RULE = 0.5
/** The fine rules inside the boxes of a usual grid may hardly show. */
const LEAST_USUAL_RULE = 0.3
const LEAST_SUPPORT = 0.75
/** Nine rows and columns of squares are a number-place grid by themselves; other counts are tables and boards as often, unless boxes show. */
const LEAST_UNUSUAL_SUPPORT = 0.9
/** Share of rules that may be mere edges between grounds. */
const MOST_EDGES = 0.5
/** Sides that may lie outside the picture without heavier box rules to tell where they are. */
const MOST_OPEN = 1
const HEAVIER = 1.25

/**
 * For a grid that was counted cell by cell: mean support over its rules, or `undefined` when a rule is missing or too much
 * is unseen. Orders other than the usual must show their boxes.
 */
export function judgeMeshed(
  _image: GrayImage,
  { across, down }: RefinedGrid,
  order: number,
): number | undefined {
  const seen = [...across, ...down].filter(({ inside }) => inside >= SEEN_ENOUGH)
  if (seen.some(({ share }) => share < (order === USUAL_ORDER ? LEAST_USUAL_RULE : LEAST_RULE)))
    return undefined
  // where two sides are out of the picture, squared paper may go on there
  const sides = [across[0]!, across[order]!, down[0]!, down[order]!]
  const open = sides.filter(({ inside }) => inside < SEEN_ENOUGH).length
  if ((order !== USUAL_ORDER || open > MOST_OPEN) && !showsBoxes(across, down, order)) return undefined
  // A draughts board has edges only; a number-place grid on chequered ground has at least its box rules drawn.
  const edges = seen.filter(({ kind }) => kind === 'mixed').length
  if (edges > MOST_EDGES * seen.length && !drawsBoxes(across, down, order)) return undefined
  const mean = seen.reduce((sum, { share }) => sum + share, 0) / seen.length
  return mean < (order === USUAL_ORDER ? LEAST_SUPPORT : LEAST_UNUSUAL_SUPPORT) ? undefined : mean
}

function drawsBoxes(across: readonly RuleSupport[], down: readonly RuleSupport[], order: number): boolean {
  const box = usualGeometry(order)?.box
  if (!box) return false
  const drawn = (rules: readonly RuleSupport[], period: number) =>
    rules.every(({ kind }, k) => k % period !== 0 || k % order === 0 || kind !== 'mixed')
  return (
    (drawn(across, box.rows) && drawn(down, box.columns)) ||
    (drawn(across, box.columns) && drawn(down, box.rows))
  )
}

/** Are the rules between the boxes of a grid of this order heavier than those within, both ways, for one of its box shapes? */
function showsBoxes(across: readonly RuleSupport[], down: readonly RuleSupport[], order: number): boolean {
  const box = usualGeometry(order)?.box
  if (!box) return false
  return (
    (heavierEvery(across, box.rows) && heavierEvery(down, box.columns)) ||
    (heavierEvery(across, box.columns) && heavierEvery(down, box.rows))
  )
}

function heavierEvery(rules: readonly RuleSupport[], period: number): boolean {
  const inner = rules.slice(1, -1)
  const weights = (between: boolean) =>
    inner.filter((_, k) => ((k + 1) % period === 0) === between).map(({ weight }) => weight)
  const lightest = Math.min(...weights(true))
  const typical = weights(false).sort((a, b) => a - b)
  return lightest > HEAVIER * typical[typical.length >> 1]!
}

/** Rules of a usual grid that part its boxes, and its frame. */
const BOX_SIDE = Math.sqrt(USUAL_ORDER)
/** How sure one box rule, all fine rules of one direction, and all fine rules together must be, in standard errors. */
const SURE_RULE = 2
const SURE_DIRECTION = 3
const SURE_FINE_RULES = 5
const LEAST_FRAME = 0.6
const LEAST_BOX_RULE = 0.75

/**
 * For a usual grid that was guessed from its outline: frame and boxes must show rule by rule, the fine rules, perhaps too
 * faint to be followed, when all of them are added up (chance gives five standard errors once in a million tries), and it
 * must end where the outline does.
 */
export function judgeOutlined(image: GrayImage, { points, across, down }: RefinedGrid): number | undefined {
  const show = (axis: Axis) =>
    lineShows(image, foretold(points, USUAL_ORDER, axis, BOX_SIDE), USUAL_ORDER, axis)
  const shows = { across: show('across'), down: show('down') }
  if (isLost(shows.across, across) || isLost(shows.down, down)) return undefined
  if (boxesStandElsewhere(shows.across) || boxesStandElsewhere(shows.down)) return undefined
  const fine = [fineRules(shows.across), fineRules(shows.down)]
  const all = evidence(fine.flat())
  if (Math.abs(all) < SURE_FINE_RULES) return undefined
  if (fine.some((rules) => evidence(rules) * Math.sign(all) < SURE_DIRECTION)) return undefined
  // light rules between boxes may meet dark fine ones on tinted ground, but nobody prints it the other way round
  const boxes = meanDepth([...innerBoxRules(shows.across), ...innerBoxRules(shows.down)])
  if (all < 0 && boxes > 0) return undefined
  // a few strokes of letters can add up to much, but they do not stand on most sides of cells
  const depths = fine.flat().flatMap((rule) => rule.depths)
  const agreeing = depths.filter((depth) => depth * all > 0).length
  if (agreeing < MOSTLY * depths.length) return undefined
  const depth = meanDepth(fine.flat())
  if (hasBareEnd(shows.down, shows.across, depth) || hasBareEnd(shows.across, shows.down, depth))
    return undefined
  if (isTable(image, points, shows)) return undefined
  if (!isWhole(image, points, shows, meanDepth(fine.flat()))) return undefined
  const rules = [...across, ...down]
  return rules.reduce((sum, { share }) => sum + share, 0) / rules.length
}

/** Does a rule of frame or boxes show neither as a line nor, one of the frame, as the edge of the grid's ground or of the picture? */
function isLost(shows: readonly LineShow[], followed: readonly RuleSupport[]): boolean {
  return shows.some((show, k) => {
    if (k % BOX_SIDE !== 0 || Math.abs(evidence([show])) >= SURE_RULE) return false
    const { share, inside, kind } = followed[k]!
    if (k % USUAL_ORDER === 0) return share < LEAST_FRAME && inside >= SEEN_ENOUGH
    return share < LEAST_BOX_RULE || kind === 'mixed'
  })
}

/** Are the rules one or two cells beside the boxes' heavier than theirs? Then the grid was taken to begin a cell too early or too late. */
function boxesStandElsewhere(rules: readonly LineShow[]): boolean {
  const [here, after, before] = [0, 1, 2].map((first) => {
    const every = rules.filter((_, k) => k % BOX_SIDE === first && k % USUAL_ORDER !== 0)
    return Math.abs(meanDepth(every))
  })
  return Math.max(after!, before!) > HEAVIER * here!
}

/** Share of the fine rules' sides that must show alike. */
const MOSTLY = 0.62

/** Counts of rows that tables and calendars have; counts of three and nine share their rules with a grid. */
const OTHER_COUNTS = [4, 5, 6, 7, 8, 10, 11, 12] as const
const SURE_TABLE = 3

/** Do the rules of another count within the same frame stand out more than the grid's own fine rules? */
function isTable(
  image: GrayImage,
  points: readonly Point[],
  shows: Record<Axis, readonly LineShow[]>,
): boolean {
  return (['across', 'down'] as const).some((axis) => {
    const own = Math.abs(meanDepth(fineRules(shows[axis])))
    return OTHER_COUNTS.some((rows) => {
      const others = otherwiseParted(image, points, USUAL_ORDER, axis, rows)
      return Math.abs(evidence(others)) > SURE_TABLE && Math.abs(meanDepth(others)) > own
    })
  })
}

/** Rules that show less than this share of their depth across the outermost row of cells do not run there. */
const BARE = 0.2
const SURE_BARE = 3

/**
 * Do the rules of one direction leave out the first or last row of cells? Those of a table that stands within a larger
 * outline, or has fewer rows, do. Where the picture is noisy a row may only seem bare, so it must be surely weaker than all.
 * A row whose own frame is drawn may be shaded as darkly as its rules: the marked row of a screen.
 *
 * @param ends the rules of the other direction, the first and last of which bound those rows
 */
function hasBareEnd(rules: readonly LineShow[], ends: readonly LineShow[], depth: number): boolean {
  const whole = fineRules(rules).filter(({ depths }) => depths.length === USUAL_ORDER)
  return [0, USUAL_ORDER - 1].some((cell) => {
    if (Math.abs(evidence([ends[cell === 0 ? 0 : USUAL_ORDER]!])) > SURE_BARE) return false
    const depths = whole.map((rule) => rule.depths[cell]! * Math.sign(depth))
    const weaker = { depths: depths.map((own) => Math.abs(depth) - own) }
    return meanDepth([{ depths }]) < BARE * Math.abs(depth) && evidence([weaker]) > SURE_BARE
  })
}

/** A side beyond which rules run on at this share of their depth is no side. */
const GOES_ON = 0.4
const SURE_GOING_ON = 3

/**
 * Squared paper and larger tables have nine rules somewhere, too. A grid ends on all sides; where the picture does not
 * reach far enough to see that, heavier box rules must tell.
 */
function isWhole(
  image: GrayImage,
  points: readonly Point[],
  shows: Record<Axis, readonly LineShow[]>,
  fineDepth: number,
): boolean {
  const sign = Math.sign(fineDepth)
  const sides = prolongedShows(image, points, USUAL_ORDER)
  const goesOn = (side: LineShow) =>
    sign * evidence([side]) > SURE_GOING_ON && sign * meanDepth([side]) > GOES_ON * Math.abs(fineDepth)
  if (sides.some(goesOn)) return false
  if (sides.every(({ depths }) => depths.length > USUAL_ORDER / 2)) return true
  return [shows.across, shows.down].every((rules) => {
    return Math.abs(meanDepth(innerBoxRules(rules))) > HEAVIER * Math.abs(meanDepth(fineRules(rules)))
  })
}

function innerBoxRules(rules: readonly LineShow[]): LineShow[] {
  return rules.filter((_, k) => k % BOX_SIDE === 0 && k % USUAL_ORDER !== 0)
}

function fineRules(rules: readonly LineShow[]): LineShow[] {
  return rules.filter((_, k) => k % BOX_SIDE !== 0)
}
