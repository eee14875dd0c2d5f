import type { Board, Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf as houseLayoutOf } from '../../grid/layout.js'
import { type Badge, drawBadge, placeBadge } from './badges.js'
import { drawBlocker, drawDigit, drawPlaced } from './digits.js'
import { drawGroup, drawLink, type RoutedLink, routeLinks } from './draw-links.js'
import { CELL, LABEL_FONT, LABELS, type Layout, layoutOf, type Spot } from './layout.js'
import { LOOKS, paintOf } from './looks.js'
import { drawCell } from './marks.js'
import type { CurveSpace, Obstacle } from './obstacles.js'
import { drawDiagonals, drawOutline, drawRules } from './outlines.js'
import { drawPencilMarks } from './pencil-marks.js'
import type { PicturePlan } from './plan-builder.js'
import type { Role } from './roles.js'
import type { Theme } from './theme.js'
import { element, short } from './xml.js'

export interface SceneOptions {
  readonly theme: Theme
  /** Which pencil marks to draw: all, those of the step, or none. */
  readonly marks: 'all' | 'step' | 'none'
  /** What the step does not use is smaller and paler. */
  readonly dim: boolean
  /** Digits that take all of their cells. */
  readonly big: readonly Candidate[]
  digit(digit: number): string
  /** The letter of a set. */
  set(index: number): string
}

/** What has been said when a frame is shown; without it a scene shows all there is. */
export interface Said {
  cell(cell: number): boolean
  candidate(candidate: Candidate): boolean
  house(house: number): boolean
  /** Has a link been said to where it leads? */
  leadsTo(candidate: Candidate): boolean
  /** Are conclusions drawn? */
  concluded(candidate: Candidate): boolean
  /** Cells that are spoken of right now. */
  readonly focus: readonly number[]
  /** Candidates and houses that are spoken of, and are no part of the plan. */
  readonly aside: readonly Candidate[]
  readonly asideHouses: readonly number[]
}

export interface Scene {
  readonly layout: Layout
  readonly links: readonly RoutedLink[]
  readonly space: CurveSpace
  draw(said?: Said): string
}

const INSETS = { solid: 2, dashed: 4.8 }

/** A board with all that a plan shows on it. Ways of lines and places of badges are the same whatever has been said. */
export function makeScene(board: Board, plan: PicturePlan, options: SceneOptions): Scene {
  const { theme } = options
  const layout = layoutOf(board.geometry)
  const bigCells = new Set(options.big.map(({ cell }) => cell))
  const shown = shownMarks(board, plan, options.marks, bigCells)
  const space = spaceOf(board, layout, plan, shown, options.big)
  const links = routeLinks(layout, plan.links, space)
  const letters = lettersOf(layout, plan, options, space, links)
  const cases = casesOf(layout, plan, space, links, letters)
  const part = (name: string, ...children: string[]) =>
    children.join('') === '' ? '' : element('g', { 'data-part': name }, ...children)
  const draw = (said?: Said): string => {
    const isSaid = (cell: number) => said?.cell(cell) ?? true
    const nodeIsTold = ({ cells, digit }: { cells: readonly number[]; digit: number }) =>
      said === undefined || cells.some((cell) => said.candidate({ cell, digit }))
    const rolesOf = (cell: number) =>
      isSaid(cell) ? (plan.cells.get(cell) ?? []).filter((role) => role !== 'blocker') : []
    const own = links.filter(
      ({ link: { from, to } }) =>
        nodeIsTold(from) &&
        (said === undefined || to.cells.some((cell) => said.leadsTo({ cell, digit: to.digit }))),
    )
    const areas = plan.areas.filter(({ cells, house }) =>
      house === undefined ? cells.some(isSaid) : (said?.house(house) ?? true),
    )
    const marks = plan.candidates.flatMap((mark): (Candidate & { role: Role | undefined })[] => {
      const isEffect = mark.role === 'removed' || mark.role === 'placed'
      if (!said || (isEffect ? said.concluded(mark) : said.candidate(mark))) return [mark]
      // what is spoken of before it is struck stands out already
      return isEffect && said.candidate(mark) ? [{ ...mark, role: undefined }] : []
    })
    for (const candidate of said?.aside ?? []) marks.push({ ...candidate, role: undefined })
    return [
      drawLabels(layout, theme),
      part(
        'cells',
        ...[...plan.cells.keys()].map((cell) => {
          const roles = rolesOf(cell)
          return roles.length === 0
            ? ''
            : drawCell(
                theme,
                roles.map((role) => LOOKS[role]),
                layout.corner(cell),
              )
        }),
      ),
      drawDiagonals(layout, theme),
      part('rules', drawRules(layout, theme)),
      part(
        'houses',
        ...plan.houses
          .filter(({ house }) => said?.house(house) ?? true)
          .map(({ house, role }) => drawHouse(layout, theme, house, role)),
        ...(said?.asideHouses ?? []).map((house) => drawHouse(layout, theme, house, 'house')),
      ),
      part(
        'areas',
        ...areas.map(({ cells, role, set = LOOKS[role].dash ? 1 : 0 }) =>
          drawOutline(layout, theme, cells, LOOKS[role], set % 2 === 0 ? INSETS.solid : INSETS.dashed),
        ),
      ),
      part('groups', ...plan.groups.filter(nodeIsTold).map((node) => drawGroup(layout, theme, node))),
      part('focus', ...(said?.focus ?? []).map((cell) => drawFocus(layout, theme, cell))),
      ...own.map((routed) => part('link', drawLink(theme, routed))),
      part(
        'marks',
        drawPencilMarks(layout, theme, marks, shown, {
          dim: options.dim,
          ground: (cell) => groundOf(theme, rolesOf(cell)),
          digit: options.digit,
        }),
      ),
      part('digits', drawDigits(board, layout, plan, bigCells, options, rolesOf, isSaid)),
      part(
        'placed',
        ...options.big.flatMap((candidate) =>
          !said || said.concluded(candidate)
            ? [drawPlaced(theme, layout.centre(candidate.cell), options.digit(candidate.digit))]
            : [],
        ),
      ),
      part('numbers', ...own.flatMap(({ badge }) => (badge ? [drawBadge(theme, badge, false)] : []))),
      part(
        'letters',
        ...letters.flatMap(({ badge, role, cells }) =>
          cells.some(isSaid) ? [drawBadge(theme, badge, true, paintOf(theme, LOOKS[role]).ink)] : [],
        ),
      ),
      part(
        'cases',
        ...cases.flatMap(({ badge, candidate }) =>
          !said || said.candidate(candidate) ? [drawBadge(theme, badge, true)] : [],
        ),
      ),
    ].join('')
  }
  return { layout, links, space, draw }
}

function groundOf(theme: Theme, roles: readonly Role[]): string {
  return roles.length > 0 ? paintOf(theme, LOOKS[roles[0]!]).tint : theme.paper
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

/** What lines and badges keep off: digits and marks that matter always, other pencil marks where they can. */
function spaceOf(
  board: Board,
  layout: Layout,
  plan: PicturePlan,
  shown: ReadonlyMap<number, readonly number[]>,
  big: readonly Candidate[],
): CurveSpace {
  const obstacles: Obstacle[] = []
  const matters = new Set(plan.candidates.map(({ cell, digit }) => `${cell} ${digit}`))
  for (const [cell, digits] of shown)
    for (const digit of digits) {
      const firm = matters.has(`${cell} ${digit}`)
      // the digit within its mark
      obstacles.push({ ...layout.spot(cell, digit), radius: (firm ? 0.92 : 0.68) * layout.markRadius, firm })
    }
  for (let cell = 0; cell < board.geometry.cellCount; cell++)
    if (board.digits[cell] !== 0) obstacles.push({ ...layout.centre(cell), radius: CELL * 0.27, firm: true })
  for (const { cell } of big) obstacles.push({ ...layout.centre(cell), radius: CELL * 0.4, firm: true })
  return { obstacles, left: LABELS, top: LABELS, side: layout.side, net: layout.net }
}

/** Letters of sets, each at a corner of one of its cells: nothing stands there. */
function lettersOf(
  layout: Layout,
  plan: PicturePlan,
  options: SceneOptions,
  space: CurveSpace,
  links: readonly RoutedLink[],
) {
  const badges: Badge[] = links.flatMap(({ badge }) => badge ?? [])
  const curves = links.map(({ curve }) => curve)
  return plan.areas.flatMap(({ cells, role, set }) => {
    if (set === undefined) return []
    const places = cells.flatMap((cell, i) => {
      const { x, y } = layout.corner(cell)
      const corners = [0, 1, 2, 3].map((k): Spot => ({ x: x + (k % 2) * CELL, y: y + (k >> 1) * CELL }))
      return corners.map((spot, k) => ({
        spot,
        cost: 0.5 * i + 0.2 * k,
      }))
    })
    const badge = placeBadge(options.set(set), places, space, curves, badges)
    badges.push(badge)
    return [{ badge, role, cells }]
  })
}

function casesOf(
  layout: Layout,
  plan: PicturePlan,
  space: CurveSpace,
  links: readonly RoutedLink[],
  letters: readonly { readonly badge: Badge }[],
) {
  const badges = [...links.flatMap(({ badge }) => badge ?? []), ...letters.map(({ badge }) => badge)]
  const curves = links.map(({ curve }) => curve)
  return plan.badges.map(({ cell, digit, label }) => {
    const { x, y } = layout.spot(cell, digit)
    const around = (turns: number, fars: readonly number[]) =>
      Array.from({ length: turns }).flatMap((_, k) =>
        fars.map((far, i) => ({
          spot: {
            x: x + Math.cos((2 * k * Math.PI) / turns) * layout.pitch * far,
            y: y + Math.sin((2 * k * Math.PI) / turns) * layout.pitch * far,
          },
          cost: (0.8 * k) / turns + 0.5 * i,
        })),
      )
    const places = around(8, [0.9, 1.05, 1.25, 1.6, 2, 2.5, 3.1, 3.8])
    const badge = placeBadge(label, places, space, curves, badges, () =>
      around(24, [0.95, 1.2, 1.4, 1.8, 2.2, 2.8, 3.4, 4.2]),
    )
    badges.push(badge)
    return { badge, candidate: { cell, digit } }
  })
}

function drawHouse(layout: Layout, theme: Theme, house: number, role: Role): string {
  const look = LOOKS[role]
  const { cells } = houseLayoutOf(layout.geometry).houses[house]!
  return drawOutline(layout, theme, cells, look, look.dash ? INSETS.dashed : INSETS.solid)
}

/** Brackets at the corners of a cell: look here. */
function drawFocus(layout: Layout, theme: Theme, cell: number): string {
  const { x, y } = layout.corner(cell)
  const arm = 15
  const [far, low] = [x + CELL, y + CELL]
  const at = (a: number, b: number) => `${short(a)} ${short(b)}`
  return element('path', {
    d:
      `M${at(x, y + arm)}V${short(y)}H${short(x + arm)}M${at(far - arm, y)}H${short(far)}V${short(y + arm)}` +
      `M${at(far, low - arm)}V${short(low)}H${short(far - arm)}M${at(x + arm, low)}H${short(x)}V${short(low - arm)}`,
    fill: 'none',
    stroke: theme.ink,
    'stroke-width': 5,
  })
}

function drawLabels(layout: Layout, theme: Theme): string {
  const { order } = layout.geometry
  const font = order > 9 ? LABEL_FONT * 0.72 : LABEL_FONT
  const shared = { 'font-size': font, fill: theme.faint, 'text-anchor': 'middle' }
  let out = ''
  for (let i = 0; i < order; i++) {
    const at = LABELS + (i + 0.5) * CELL
    out += element('text', { x: at, y: LABELS / 2 - 1, dy: '.35em' }, `c${i + 1}`)
    out += element('text', { x: LABELS / 2 - 2, y: at, dy: '.35em' }, `r${i + 1}`)
  }
  return element('g', shared, out)
}

function drawDigits(
  board: Board,
  layout: Layout,
  plan: PicturePlan,
  without: ReadonlySet<number>,
  { theme, dim, digit: nameOf }: SceneOptions,
  rolesOf: (cell: number) => readonly Role[],
  isSaid: (cell: number) => boolean,
): string {
  let out = ''
  for (let cell = 0; cell < board.geometry.cellCount; cell++) {
    const digit = board.digits[cell]!
    if (digit === 0 || without.has(cell)) continue
    const roles = isSaid(cell) ? (plan.cells.get(cell) ?? []) : []
    if (roles.includes('blocker')) out += drawBlocker(theme, layout.centre(cell))
    out += drawDigit(theme, layout.centre(cell), nameOf(digit), {
      given: board.given[cell] === 1,
      faint: dim && roles.length === 0,
      ground: groundOf(theme, rolesOf(cell)),
    })
  }
  return out
}
