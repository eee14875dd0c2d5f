import type { ChainNode } from '../../logic/steps/step.js'
import { type Badge, type BadgePlace, placeBadge } from './badges.js'
import { routeCurve } from './curves.js'
import { CELL, type Layout, type Spot } from './layout.js'
import { LOOKS, paintOf } from './looks.js'
import { Crowd, type Curve, type CurveSpace } from './obstacles.js'
import { drawOutline } from './outlines.js'
import type { PlannedLink } from './plan-builder.js'
import type { Theme } from './theme.js'
import { element, short } from './xml.js'

/** Strong links are solid and heavy, weak ones dashed and light, what follows in a case is thin. */
export const LINK_STYLES = {
  strong: { 'stroke-width': 3.2, 'stroke-linecap': 'round' },
  weak: { 'stroke-width': 2, 'stroke-dasharray': '6 4.5' },
  // biome-ignore lint/suspicious/noThenProperty: a kind of link, in a table that no one awaits
  then: { 'stroke-width': 1.6 },
} as const

/** A link with the way that it takes; fixed for all pictures of one step. */
export interface RoutedLink {
  readonly link: PlannedLink
  readonly curve: Curve
  readonly badge: Badge | undefined
}

/** The pair of spots, one of each node, that are closest to each other. */
function closest(layout: Layout, from: ChainNode, to: ChainNode): [Spot, Spot] {
  let best: [Spot, Spot] | undefined
  let shortest = Number.POSITIVE_INFINITY
  for (const a of from.cells) {
    for (const b of to.cells) {
      const p = layout.spot(a, from.digit)
      const q = layout.spot(b, to.digit)
      const distance = Math.hypot(p.x - q.x, p.y - q.y)
      if (distance < shortest) {
        shortest = distance
        best = [p, q]
      }
    }
  }
  return best!
}

/** Ways for all links; a pair of nodes joined twice without an order is drawn once, strong before weak. */
export function routeLinks(layout: Layout, links: readonly PlannedLink[], space: CurveSpace): RoutedLink[] {
  const drawn: Curve[] = []
  const crowd = new Crowd()
  const done = new Set<string>()
  const routed: Omit<RoutedLink, 'badge'>[] = []
  const ordered = [...links].sort((a, b) => Number(a.kind === 'weak') - Number(b.kind === 'weak'))
  for (const link of ordered) {
    const [start, end] = closest(layout, link.from, link.to)
    const ends = [start, end].map(({ x, y }) => `${short(x)},${short(y)}`).sort()
    if (ends[0] === ends[1] || (done.has(ends.join(' ')) && link.number === undefined)) continue
    done.add(ends.join(' '))
    const curve = routeCurve(start, end, layout.markRadius + 1.7, space, crowd)
    drawn.push(curve)
    crowd.add(curve)
    routed.push({ link, curve })
  }
  const badges: Badge[] = []
  return routed.map(({ link, curve }) => {
    if (link.number === undefined) return { link, curve, badge: undefined }
    const label = String(link.number)
    const badge = placeBadge(label, besides(curve, NEAR), space, drawn, badges, () => besides(curve, FAR))
    badges.push(badge)
    return { link, curve, badge }
  })
}

/** How closely a link is looked along for a place for its number, and how far beside it. */
const NEAR = { steps: 20, offs: [0, 12, 17, 23, 31, 40, 52] } as const
const FAR = { steps: 60, offs: [0, 8, 14, 20, 27, 35, 44, 52, 60, 68, 76, 84] } as const

/** Where the number of a link can stand: on it, best in the middle, or close beside it. */
function besides({ samples }: Curve, { steps, offs }: typeof NEAR | typeof FAR): BadgePlace[] {
  const last = samples.length - 1
  // On a short line it would hide it.
  const onIt = lengthOf(samples) < 46 ? 8 : 0
  const out: BadgePlace[] = []
  for (let k = 0; k <= steps; k++) {
    const at = Math.round(last * (1 / 12 + (5 / 6) * (k / steps)))
    const here = samples[at]!
    const [a, b] = [samples[Math.max(0, at - 1)]!, samples[Math.min(last, at + 1)]!]
    const length = Math.hypot(b.x - a.x, b.y - a.y) || 1
    const normal = { x: -(b.y - a.y) / length, y: (b.x - a.x) / length }
    const middle = Math.abs(k / steps - 0.5) * 5
    for (const off of offs.flatMap((far) => (far === 0 ? [0] : [far, -far])))
      out.push({
        spot: { x: here.x + normal.x * off, y: here.y + normal.y * off },
        cost: middle + (off === 0 ? onIt : Math.abs(off) * 0.12),
      })
  }
  return out
}

function lengthOf(samples: readonly Spot[]): number {
  return samples.slice(1).reduce((sum, b, i) => sum + Math.hypot(b.x - samples[i]!.x, b.y - samples[i]!.y), 0)
}

/** A link in its style, with its head and its number where it has one. */
export function drawLink(theme: Theme, { link, curve }: RoutedLink): string {
  const { path: d, samples } = curve
  // A paper-coloured edge keeps a link apart from grid lines, hatching and other links that it crosses.
  const edge = { d, fill: 'none', stroke: theme.paper, 'stroke-width': 5.6, 'stroke-opacity': 0.85 }
  const line = { d, fill: 'none', stroke: theme.ink, ...LINK_STYLES[link.kind] }
  return (
    element('path', edge) +
    element('path', line) +
    (link.directed ? drawHead(samples, theme, link.kind === 'then' ? 7 : 9) : '')
  )
}

/** An arrow head at the end of a line. */
function drawHead(samples: readonly Spot[], theme: Theme, size: number): string {
  const tip = samples[samples.length - 1]!
  const back =
    [...samples].reverse().find(({ x, y }) => Math.hypot(x - tip.x, y - tip.y) >= size * 0.8) ?? samples[0]!
  const length = Math.hypot(tip.x - back.x, tip.y - back.y) || 1
  const [ux, uy] = [(tip.x - back.x) / length, (tip.y - back.y) / length]
  const wing = (side: number) =>
    `${short(tip.x - ux * size + side * uy * size * 0.52)},${short(tip.y - uy * size - side * ux * size * 0.52)}`
  return element('polygon', {
    points: `${short(tip.x)},${short(tip.y)} ${wing(1)} ${wing(-1)}`,
    fill: theme.ink,
    stroke: theme.paper,
    'stroke-width': 0.8,
  })
}

/** A frame around the cells of a grouped node, and lines along the borders of cells between its parts. */
export function drawGroup(layout: Layout, theme: Theme, { cells }: ChainNode): string {
  const look = { ...LOOKS.link, weight: 2, dash: '2 3' }
  return drawOutline(layout, theme, cells, look, GROUP_INSET) + drawTies(layout, theme, cells)
}

const GROUP_INSET = 4.6

/** Parts of a line of cells with a gap are tied together along the upper or left border of what lies between. */
function drawTies(layout: Layout, theme: Theme, cells: readonly number[]): string {
  const { order } = layout.geometry
  const sorted = [...cells].sort((a, b) => a - b)
  const ties = sorted.slice(1).flatMap((cell, i) => {
    const before = sorted[i]!
    const [a, b] = [layout.corner(before), layout.corner(cell)]
    const sameRow = Math.floor(before / order) === Math.floor(cell / order)
    const sameColumn = before % order === cell % order
    const step = sameRow ? 1 : sameColumn ? order : 0
    if (step === 0 || cell - before === step) return []
    const [p, q] = sameRow
      ? [
          { x: a.x + CELL - GROUP_INSET, y: a.y + GROUP_INSET },
          { x: b.x + GROUP_INSET, y: b.y + GROUP_INSET },
        ]
      : [
          { x: a.x + GROUP_INSET, y: a.y + CELL - GROUP_INSET },
          { x: b.x + GROUP_INSET, y: b.y + GROUP_INSET },
        ]
    return [`M${short(p.x)} ${short(p.y)}L${short(q.x)} ${short(q.y)}`]
  })
  if (ties.length === 0) return ''
  return element('path', {
    d: ties.join(''),
    fill: 'none',
    stroke: paintOf(theme, LOOKS.link).ink,
    'stroke-width': 2,
    'stroke-dasharray': '2 3',
  })
}
