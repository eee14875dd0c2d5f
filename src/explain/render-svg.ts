import {
  argumentError,
  boolean,
  checkOptions,
  listOf,
  type OptionChecks,
  object,
  oneOf,
  string,
} from '../check-arguments.js'
import { openCount } from '../grid/board/ask.js'
import { type Board, type Candidate, checkBoard, checkCandidates } from '../grid/board.js'
import { digitName } from '../grid/digit-names.js'
import { digitsOf } from '../grid/digits.js'
import { checkFoundStep, checkPattern } from '../logic/check-step.js'
import type { FoundStep } from '../logic/step.js'
import type { CurveSpace, Obstacle } from './picture/curves.js'
import { drawGroup, drawLinks } from './picture/draw-links.js'
import { CELL, EDGE, LABELS, type Layout, layoutOf, type Spot } from './picture/layout.js'
import { drawLegend } from './picture/legend.js'
import { FOUND, INK, LOOKS, PAPER, PENCIL } from './picture/looks.js'
import { drawCell, drawMark } from './picture/marks.js'
import { drawDiagonals, drawHouse, drawRules } from './picture/outlines.js'
import { type PicturePlan, planPicture } from './picture/plan.js'
import { element, escapeText } from './picture/xml.js'
import { namesOf, VOICE_CHECKS, type VoiceOptions, voiceOf } from './voice.js'

export interface SvgOptions extends VoiceOptions {
  /** The step to show on the board. */
  readonly step?: FoundStep
  /** Digits to be seen as new: they stand on the board or are about to. */
  readonly placed?: readonly Candidate[]
  /** Which pencil marks to draw: all, those of the step, or none. All when left out. */
  readonly marks?: 'all' | 'step' | 'none'
  /** Name the roles below the grid. Yes with a step, when left out. */
  readonly legend?: boolean
  /** Title for readers of the markup; the technique's name when left out. */
  readonly title?: string
  /** Width in pixels; the picture scales to its place when left out. */
  readonly width?: number
}

const SVG_CHECKS: OptionChecks<SvgOptions> = {
  ...VOICE_CHECKS,
  step: (step, name) => {
    checkFoundStep(step as FoundStep, name)
    checkPattern((step as FoundStep).before.geometry, (step as FoundStep).pattern, `${name}.pattern`)
  },
  placed: listOf(object),
  marks: oneOf(['all', 'step', 'none']),
  legend: boolean,
  title: string,
  width: (width, name) => {
    if (typeof width !== 'number' || !(width > 0 && width < Number.POSITIVE_INFINITY))
      throw argumentError(name, 'a number of pixels above 0', width)
  },
}

const NO_PLAN: PicturePlan = { cells: new Map(), candidates: [], houses: [], links: [], groups: [] }
const DIGIT_FONT = CELL * 0.58
/** A digit of two characters has to make do with the room of one. */
const bigFont = (text: string) => (text.length > 1 ? 0.8 * DIGIT_FONT : DIGIT_FONT)
const FONT_FAMILY = "'DejaVu Sans', Verdana, Helvetica, sans-serif"

/**
 * A board as a picture: an SVG document of its own, without ids or styles, so that any number of them can stand in one
 * page. Roles differ by shape, weight and hatching, not by colour alone.
 */
export function renderSvg(board: Board, options: SvgOptions = {}): string {
  checkBoard(board)
  checkOptions<SvgOptions>(options, SVG_CHECKS)
  const { step } = options
  if (step && step.before.geometry.key !== board.geometry.key)
    throw argumentError('step', `a step on a board of ${board.geometry.name}`, step)
  if (options.placed) checkCandidates(board.geometry, options.placed, 'placed')
  const voice = voiceOf(options)
  const { wording } = voice
  const name = (digit: number) => digitName(digit, voice.digits)
  const layout = layoutOf(board.geometry)
  const plan = step ? planPicture(step) : NO_PLAN
  const big = [...(options.placed ?? []), ...(step?.pattern.shape === 'single' ? step.placements : [])]
  const shown = shownMarks(board, plan, options.marks ?? 'all', new Set(big.map(({ cell }) => cell)))
  const width = LABELS + layout.side + EDGE
  const found = Array.from(board.digits).filter((digit, cell) => digit !== 0 && !board.given[cell]).length
  const open = openCount(board)
  const legend =
    (options.legend ?? step !== undefined)
      ? drawLegend(layout, plan, voice, found > 0)
      : { markup: '', height: 0 }
  const height = LABELS + layout.side + EDGE + (legend.height > 0 ? legend.height + 8 : 0)
  const technique = step && wording.technique(step.technique)
  const title = options.title ?? wording.picture.title(technique)
  const counts = wording.picture.description(
    board.geometry.order,
    board.geometry.cellCount - open - found,
    found,
    open,
  )
  const description = `${counts} ${wording.rule(namesOf(voice, board.geometry))}`
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      width: options.width,
      height: options.width === undefined ? undefined : (options.width * height) / width,
      role: 'img',
      'aria-label': title,
      'xml:lang': wording.language,
      'font-family': FONT_FAMILY,
    },
    element('title', {}, escapeText(title)),
    element('desc', {}, escapeText(description)),
    element('rect', { x: 0, y: 0, width, height, fill: PAPER }),
    drawLabels(layout),
    ...[...plan.cells].map(([cell, role]) =>
      role === 'blocker' ? '' : drawCell(LOOKS[role], layout.corner(cell)),
    ),
    drawDiagonals(layout),
    drawRules(layout),
    ...plan.houses.map(({ house, role }) =>
      drawHouse(layout, house, LOOKS[role], LOOKS[role].dash ? 6.5 : 3.5),
    ),
    ...plan.groups.map((node) => drawGroup(layout, node, LOOKS.link.ink)),
    drawLinks(layout, plan.links, curveSpace(board, layout, shown, big)),
    drawMarks(layout, plan, shown, name),
    drawDigits(board, layout, plan, new Set(big.map(({ cell }) => cell)), name),
    ...big.map(({ cell, digit }) => drawPlaced(layout.centre(cell), name(digit))),
    legend.markup,
  )
}

/** cell -> digits whose pencil marks are drawn. */
function shownMarks(
  board: Board,
  plan: PicturePlan,
  marks: 'all' | 'step' | 'none',
  without: ReadonlySet<number>,
): ReadonlyMap<number, readonly number[]> {
  const shown = new Map<number, number[]>()
  for (let cell = 0; cell < board.geometry.cellCount; cell++) {
    if (board.digits[cell] !== 0 || without.has(cell)) continue
    const all = digitsOf(board.candidates[cell]!)
    const part = plan.candidates.filter((mark) => mark.cell === cell).map((mark) => mark.digit)
    const digits = marks === 'all' ? all : marks === 'step' ? all.filter((digit) => part.includes(digit)) : []
    if (digits.length > 0) shown.set(cell, digits)
  }
  return shown
}

function curveSpace(
  board: Board,
  layout: Layout,
  shown: ReadonlyMap<number, readonly number[]>,
  big: readonly { readonly cell: number }[],
): CurveSpace {
  const obstacles: Obstacle[] = []
  for (const [cell, digits] of shown)
    for (const digit of digits) obstacles.push({ ...layout.spot(cell, digit), radius: layout.markRadius })
  for (let cell = 0; cell < board.geometry.cellCount; cell++) {
    if (board.digits[cell] !== 0) obstacles.push({ ...layout.centre(cell), radius: CELL * 0.31 })
  }
  for (const { cell } of big) obstacles.push({ ...layout.centre(cell), radius: CELL * 0.4 })
  return { obstacles, left: LABELS, top: LABELS, side: layout.side }
}

function drawLabels(layout: Layout): string {
  const { order } = layout.geometry
  const attributes = { dy: '.35em', 'font-size': 14, fill: PENCIL, 'text-anchor': 'middle' }
  let out = ''
  for (let i = 0; i < order; i++) {
    const at = LABELS + (i + 0.5) * CELL
    out += element('text', { x: at, y: LABELS / 2, ...attributes }, `c${i + 1}`)
    out += element('text', { x: LABELS / 2 - 1, y: at, ...attributes }, `r${i + 1}`)
  }
  return out
}

function drawMarks(
  layout: Layout,
  plan: PicturePlan,
  shown: ReadonlyMap<number, readonly number[]>,
  name: (digit: number) => string,
): string {
  let shapes = ''
  let plain = ''
  let marked = ''
  for (const [cell, digits] of shown) {
    for (const digit of digits) {
      const spot = layout.spot(cell, digit)
      // A removed candidate may also be part of the pattern: its slash comes last, over the other mark.
      const looks = plan.candidates
        .filter((mark) => mark.cell === cell && mark.digit === digit)
        .map(({ role }) => LOOKS[role])
        .sort((a, b) => Number(a.mark === 'slash') - Number(b.mark === 'slash'))
      looks.forEach((look, i) => {
        shapes += drawMark(look, spot, layout.markRadius, i === 0)
      })
      const [first] = looks
      const own = first && {
        'font-weight': 700,
        fill: looks.some((look) => look.filled) ? PAPER : first.ink,
        stroke: looks.some((look) => look.filled) ? 'none' : first.mark === 'slash' ? first.tint : PAPER,
      }
      const text = name(digit)
      const at = {
        x: spot.x,
        y: spot.y,
        dy: '.35em',
        'font-size': text.length > 1 ? 0.9 * layout.markFont : undefined,
        ...own,
      }
      if (own) marked += element('text', at, text)
      else plain += element('text', at, text)
    }
  }
  // What all of them share is said once: a board can have hundreds.
  const shared = {
    'font-size': layout.markFont,
    'text-anchor': 'middle',
    fill: PENCIL,
    stroke: PAPER,
    'stroke-width': 2.4,
    'paint-order': 'stroke',
  }
  return shapes + element('g', shared, plain, marked)
}

function drawDigits(
  board: Board,
  layout: Layout,
  plan: PicturePlan,
  without: ReadonlySet<number>,
  name: (digit: number) => string,
): string {
  let out = ''
  for (let cell = 0; cell < board.geometry.cellCount; cell++) {
    const digit = board.digits[cell]!
    if (digit === 0 || without.has(cell)) continue
    const { x, y } = layout.centre(cell)
    const given = board.given[cell] === 1
    const role = plan.cells.get(cell)
    if (role === 'blocker') {
      out += element('circle', {
        cx: x,
        cy: y,
        r: CELL * 0.38,
        fill: LOOKS.blocker.tint,
        stroke: LOOKS.blocker.ink,
        'stroke-width': LOOKS.blocker.weight,
      })
    }
    out += element(
      'text',
      {
        x,
        y,
        dy: '.36em',
        'font-size': bigFont(name(digit)),
        'font-weight': given ? 700 : 400,
        'font-style': given ? undefined : 'italic',
        fill: given ? INK : FOUND,
        'text-anchor': 'middle',
      },
      name(digit),
    )
  }
  return out
}

/** The digit that a single places: large, white on ink. */
function drawPlaced({ x, y }: Spot, digit: string): string {
  const half = CELL * 0.37
  return (
    element('rect', {
      x: x - half,
      y: y - half,
      width: 2 * half,
      height: 2 * half,
      rx: 8,
      fill: LOOKS.placed.ink,
    }) +
    element(
      'text',
      {
        x,
        y,
        dy: '.36em',
        'font-size': bigFont(digit),
        'font-weight': 700,
        fill: PAPER,
        'text-anchor': 'middle',
      },
      digit,
    )
  )
}
