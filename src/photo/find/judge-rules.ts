import { usualGeometry } from '../../grid/geometry.js'
import type { GrayImage, Point } from '../image.js'
import { evidence, foretold, type LineShow, lineShows, meanDepth, otherwiseParted } from './line-test.js'
import { meanShare, type RefinedGrid, type RuleSupport } from './refine.js'
import type { Axis } from './rule-readings.js'
import { USUAL_ORDER } from './window.js'

/** A rule of which less than this lies well inside the picture is not held against a grid; the grid is cut. */
export const SEEN_ENOUGH = 0.3
const LEAST_RULE = 0.5
/** The fine rules inside the boxes of a usual grid may hardly show. */
const LEAST_USUAL_RULE = 0.3
const LEAST_SUPPORT = 0.75
/**
 * Nine rows and columns of squares are a number-place grid by themselves; other counts are tables and boards as often,
 * unless boxes show.
 */
const LEAST_UNUSUAL_SUPPORT = 0.9
/** Share of rules that may be mere edges between grounds. */
const MOST_EDGES = 0.5
/** Sides that may lie outside the picture without heavier box rules to tell where they are. */
const MOST_OPEN = 1
const HEAVIER = 1.25

/**
 * For a grid that was counted cell by cell: mean support over its rules, or `undefined` when a rule is missing or too
 * much is unseen. Orders other than the usual must show their boxes.
 */
export function judgeMeshed({ across, down }: RefinedGrid, order: number): number | undefined {
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
  const mean = meanShare(seen)
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

/**
 * Are the rules between the boxes of a grid of this order heavier than those within, both ways, for one of its box
 * shapes?
 */
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
/** Rules seen less than this on the mean are rather texture. */
const LEAST_SEEN = 0.5
/** How sure all fine rules together must be, in standard errors. */
const SURE_FINE_RULES = 3

/**
 * For a grid that the page network has seen whole: all of it must lie in the picture. Rules of a usual one may hardly
 * show, but the fine rules must show (rule by rule, or at least when all of them are added up), and no rules of another
 * count more than they do.
 */
export function judgeSeen(refined: RefinedGrid, order: number, image: GrayImage): number | undefined {
  const rules = [...refined.across, ...refined.down]
  if (rules.some(({ inside }) => inside < SEEN_ENOUGH)) return undefined
  const mean = meanShare(rules)
  if (mean < LEAST_SEEN) return undefined
  if (order !== USUAL_ORDER) return mean < LEAST_SUPPORT ? undefined : mean
  const show = (axis: Axis) =>
    fineRules(lineShows(image, foretold(refined.points, USUAL_ORDER, axis, BOX_SIDE), USUAL_ORDER, axis))
  const fine = { across: show('across'), down: show('down') }
  if (isTable(image, refined.points, fine)) return undefined
  const sure = Math.abs(evidence([...fine.across, ...fine.down])) >= SURE_FINE_RULES
  // grounds of different shades part cells without a line
  return sure ? mean : judgeMeshed(refined, USUAL_ORDER)
}

/** For a grid that the page network sees without a doubt: how much of its rules is seen, be it little. */
export function judgeKnown({ across, down }: RefinedGrid): number {
  return meanShare([...across, ...down].filter(({ inside }) => inside >= SEEN_ENOUGH))
}

/** Counts of rows that tables and calendars have; counts of three and nine share their rules with a grid. */
const OTHER_COUNTS = [4, 5, 6, 7, 8, 10, 11, 12] as const
const SURE_TABLE = 4

/** Do the rules of another count within the same frame stand out more than the grid's own fine rules? */
function isTable(
  image: GrayImage,
  points: readonly Point[],
  fine: Record<Axis, readonly LineShow[]>,
): boolean {
  return (['across', 'down'] as const).some((axis) => {
    const own = fine[axis]
    return OTHER_COUNTS.some((rows) => {
      const others = otherwiseParted(image, points, USUAL_ORDER, axis, rows)
      const sure = Math.abs(evidence(others))
      return (
        sure > Math.max(SURE_TABLE, Math.abs(evidence(own))) &&
        Math.abs(meanDepth(others)) > Math.abs(meanDepth(own))
      )
    })
  })
}

function fineRules(rules: readonly LineShow[]): LineShow[] {
  return rules.filter((_, k) => k % BOX_SIDE !== 0)
}
