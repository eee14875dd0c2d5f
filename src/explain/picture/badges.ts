import { EDGE, type Spot, textReach } from './layout.js'
import type { Curve, CurveSpace } from './obstacles.js'
import type { Theme } from './theme.js'
import { element } from './xml.js'

/** A short name beside what it names: the number of a link or a case, the letter of a set. */
export interface Badge {
  readonly label: string
  readonly spot: Spot
}

const FONT = 16.5
const RADIUS = 8.9

/** Half the width of a badge. */
const reachOf = (label: string) => Math.max(RADIUS, textReach(label, FONT).x + 3.4)

export interface BadgePlace {
  readonly spot: Spot
  readonly cost: number
}

/** Places that cost so much are over a digit or a mark that matters, or off the board. */
const NO_PLACE = 40

/**
 * The best of the places: off digits and marks that matter above all, then off other badges, lines and pencil marks.
 * Where all of them are over something that matters, the further ones are tried as well.
 */
export function placeBadge(
  label: string,
  places: readonly BadgePlace[],
  space: CurveSpace,
  lines: readonly Curve[],
  badges: readonly Badge[],
  further?: () => readonly BadgePlace[],
): Badge {
  const found = bestPlace(label, places, space, lines, badges)
  const more = found.cost >= NO_PLACE && further ? bestPlace(label, further(), space, lines, badges) : found
  return { label, spot: (more.cost < found.cost ? more : found).spot }
}

function bestPlace(
  label: string,
  places: readonly BadgePlace[],
  space: CurveSpace,
  lines: readonly Curve[],
  badges: readonly Badge[],
): BadgePlace {
  const wide = reachOf(label)
  let best = places[0]!.spot
  let least = Number.POSITIVE_INFINITY
  const { left, top, side } = space
  const [right, bottom] = [left + side, top + side]
  // The best by themselves come first, so that most others are given up early.
  for (const { spot, cost: own } of [...places].sort((a, b) => a.cost - b.cost)) {
    if (own >= least) break
    let cost = own
    if (spot.x < left - 4 || spot.y < top - 4 || spot.x > right + 2 || spot.y > bottom + 2) cost += 200
    // on the last border there is just enough room
    else if (spot.x + wide > right + EDGE || spot.y + RADIUS > bottom + EDGE) cost += 6
    for (const o of space.obstacles) {
      if (cost >= least) break
      const beside = Math.max(0, Math.abs(o.x - spot.x) - (wide - RADIUS))
      const over = o.radius + RADIUS + 1.2 - Math.hypot(beside, o.y - spot.y)
      if (over > 0) cost += o.firm ? 40 + over * 20 : over * 0.35
    }
    for (const other of badges) {
      const over = wide + reachOf(other.label) + 1 - Math.hypot(other.spot.x - spot.x, other.spot.y - spot.y)
      if (over > 0) cost += 20 + over * 5
    }
    // one line is its own
    let crossed = -1
    for (const { samples } of lines) {
      if (cost + Math.max(0, crossed) * 4 >= least) break
      if (samples.some(({ x, y }) => Math.hypot(x - spot.x, y - spot.y) < RADIUS)) crossed++
    }
    cost += Math.max(0, crossed) * 4
    if (cost < least) {
      least = cost
      best = spot
    }
  }
  return { spot: best, cost: least }
}

/** A number on paper, or, `filled`, a letter on ink. */
export function drawBadge(theme: Theme, { label, spot }: Badge, filled: boolean, ink = theme.ink): string {
  const wide = reachOf(label)
  return (
    element('rect', {
      x: spot.x - wide,
      y: spot.y - RADIUS,
      width: 2 * wide,
      height: 2 * RADIUS,
      rx: RADIUS,
      fill: filled ? ink : theme.paper,
      stroke: filled ? theme.paper : ink,
      'stroke-width': 1.2,
    }) +
    element(
      'text',
      {
        x: spot.x,
        y: spot.y,
        dy: '.36em',
        'font-size': FONT,
        'font-weight': 700,
        fill: filled ? theme.paper : ink,
        'text-anchor': 'middle',
      },
      label,
    )
  )
}
