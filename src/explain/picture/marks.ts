import { CELL, type Spot } from './layout.js'
import { type Hatch, type Look, paintOf } from './looks.js'
import type { Theme } from './theme.js'
import { element, short } from './xml.js'

function polygon(spot: Spot, radius: number, corners: number, turn: number): string {
  return Array.from({ length: corners }, (_, i) => {
    const angle = turn + (2 * Math.PI * i) / corners
    return `${short(spot.x + radius * Math.cos(angle))},${short(spot.y + radius * Math.sin(angle))}`
  }).join(' ')
}

/**
 * The outline around a pencil mark; all of it lies under the digit. A slash over another mark goes without its ground.
 */
export function drawMark(theme: Theme, look: Look, spot: Spot, radius: number, ground = true): string {
  const { ink, tint } = paintOf(theme, look)
  const paint = { fill: look.filled ? ink : theme.paper, stroke: ink, 'stroke-width': look.weight }
  const { x, y } = spot
  switch (look.mark) {
    case 'circle':
      return element('circle', { cx: x, cy: y, r: radius, ...paint })
    case 'double-circle': {
      const ring = { cx: x, cy: y, fill: theme.paper, stroke: ink, 'stroke-width': 1.5 }
      return (
        element('circle', { ...ring, r: radius + 1.6 }) +
        element('circle', { ...ring, r: radius - 1.4, fill: paint.fill })
      )
    }
    case 'dashed-circle':
      return element('circle', { cx: x, cy: y, r: radius, ...paint, 'stroke-dasharray': '3.2 2.4' })
    case 'square': {
      const half = radius * 0.92
      return element('rect', {
        x: x - half,
        y: y - half,
        width: 2 * half,
        height: 2 * half,
        rx: 1.5,
        ...paint,
      })
    }
    case 'diamond':
      return element('polygon', { points: polygon(spot, radius * 1.28, 4, 0), ...paint })
    case 'octagon':
      return element('polygon', { points: polygon(spot, radius * 1.08, 8, Math.PI / 8), ...paint })
    case 'slash': {
      // Long enough to show on both sides of the digit, which stays legible on top of it.
      const arm = radius * (ground ? 1.25 : 1.35)
      const line = { x1: x - arm, y1: y + arm, x2: x + arm, y2: y - arm }
      return (
        (ground ? element('circle', { cx: x, cy: y, r: radius, fill: tint }) : '') +
        element('line', {
          ...line,
          stroke: ink,
          'stroke-width': look.weight,
          'stroke-linecap': 'round',
        })
      )
    }
    // the digit alone, bold
    case 'bold':
      return ''
    default:
      return look.mark satisfies never
  }
}

/**
 * Tint, hatching and frames of a square cell with one role or more; lines are computed, not clipped, so pictures need
 * no ids. Frames stay between the border and the digits of the pencil marks.
 */
export function drawCell(theme: Theme, looks: readonly Look[], corner: Spot, side = CELL): string {
  const { x, y } = corner
  const { tint } = paintOf(theme, looks[0]!)
  let out = element('rect', { x, y, width: side, height: side, fill: tint })
  for (const look of looks) {
    const { ink } = paintOf(theme, look)
    for (const hatch of look.hatch) out += drawHatch(hatch, ink, corner, side)
    for (let frame = 0; frame < look.frames; frame++) {
      const inset = 2.4 + frame * 2.8
      const size = side - 2 * inset
      out += element('rect', {
        x: x + inset,
        y: y + inset,
        width: size,
        height: size,
        fill: 'none',
        stroke: ink,
        'stroke-width': 1.5,
      })
    }
  }
  return out
}

function drawHatch(hatch: Hatch, ink: string, { x, y }: Spot, side: number): string {
  const gap = 8
  const commands: string[] = []
  const line = (x1: number, y1: number, x2: number, y2: number) =>
    commands.push(`M${short(x + x1)} ${short(y + y1)}L${short(x + x2)} ${short(y + y2)}`)
  switch (hatch) {
    case 'rising':
    case 'falling':
      for (let at = gap; at < 2 * side; at += gap) {
        const low = Math.max(0, at - side)
        const high = Math.min(at, side)
        if (hatch === 'rising') line(low, at - low, high, at - high)
        else line(side - low, at - low, side - high, at - high)
      }
      break
    case 'level':
      for (let at = gap; at < side; at += gap) line(0, at, side, at)
      break
    case 'upright':
      for (let at = gap; at < side; at += gap) line(at, 0, at, side)
      break
    case 'dots':
      for (let row = gap; row < side; row += gap)
        for (let at = gap; at < side; at += gap) line(at - 0.7, row, at + 0.7, row)
      break
    default:
      hatch satisfies never
  }
  return element('path', {
    d: commands.join(''),
    stroke: ink,
    'stroke-width': hatch === 'dots' ? 1.5 : 0.7,
    'stroke-opacity': 0.7,
    fill: 'none',
  })
}
