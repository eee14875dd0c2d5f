import { listOf, object, whole } from '../../check-arguments.js'
import { drawnReading } from '../check-photo.js'
import type { Point } from '../image.js'
import { cellCorners, type Lattice } from '../lattice.js'

/** What is drawn of a reading; a `Reading` has it all. */
export interface OverlayReading {
  /** In the picture's frame, first crossing top left as the page is read. */
  readonly lattice: Lattice
  readonly cells: readonly {
    readonly digit: number
    readonly decidedBy: 'pixels' | 'logic' | 'user'
    readonly alternatives: readonly { readonly digit: number; readonly probability: number }[]
  }[]
  readonly doubtful: readonly number[]
}

const RULE_COLOUR = '#0a58ca'
const DOUBT_COLOUR = '#c2185b'

/**
 * The lattice and the read digits as an SVG of the picture's size on a transparent ground, to be put over the photo. A
 * digit stands small in the corner of its cell, turned as the page is, so that the print stays in view; digits settled
 * by logic are underlined, doubtful cells have a thick dashed frame and a question mark, so nothing is shown by colour
 * alone.
 *
 * @throws InputError `argument` for what is no size or no reading
 *
 * @example
 * overlaySvg({ width: 900, height: 1200 }, [reading]) // lies over the photo; doubtful cells are marked
 */
export function overlaySvg(
  size: { readonly width: number; readonly height: number },
  readings: readonly OverlayReading[],
): string {
  object(size, 'size')
  whole(1)(size.width, 'size.width')
  whole(1)(size.height, 'size.height')
  checkReadings(readings, 'readings')
  const body = readings.map(drawReading).join('')
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}" viewBox="0 0 ${size.width} ${size.height}">${body}</svg>`
}

const checkReadings = listOf(drawnReading, 'a list of readings')

function drawReading({ lattice, cells, doubtful }: OverlayReading): string {
  const { order, points } = lattice
  const side = order + 1
  const cell = Math.hypot(points[order]!.x - points[0]!.x, points[order]!.y - points[0]!.y) / order
  const thin = Math.max(1, cell / 40)
  const path = (line: readonly Point[]) =>
    line.map(({ x, y }, k) => `${k === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('')
  let rules = ''
  for (let k = 0; k < side; k++) {
    rules += path(points.slice(k * side, k * side + side))
    rules += path(points.filter((_, i) => i % side === k))
  }
  const parts = [
    `<path d="${rules}" fill="none" stroke="${RULE_COLOUR}" stroke-width="${thin.toFixed(1)}" stroke-opacity="0.75"/>`,
  ]
  const inDoubt = new Set(doubtful)
  cells.forEach(({ digit, decidedBy }, k) => {
    const [a, b, c, d] = cellCorners(lattice, k)
    const doubt = inDoubt.has(k)
    if (doubt) {
      parts.push(
        `<path d="${path([a, b, d, c])}Z" fill="none" stroke="${DOUBT_COLOUR}" stroke-width="${(thin * 3).toFixed(1)}" stroke-dasharray="${(cell / 6).toFixed(1)}"/>`,
      )
    }
    if (digit === 0 && !doubt) return
    const angle = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI
    const x = a.x + (b.x - a.x) * 0.06 + (c.x - a.x) * 0.3
    const y = a.y + (b.y - a.y) * 0.06 + (c.y - a.y) * 0.3
    const label = `${digit === 0 ? '' : digit.toString(36).toUpperCase()}${doubt ? '?' : ''}`
    parts.push(
      `<text transform="translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${angle.toFixed(1)})" font-family="sans-serif" font-weight="700" font-size="${(cell * 0.32).toFixed(1)}" fill="${doubt ? DOUBT_COLOUR : RULE_COLOUR}" stroke="#fff" stroke-width="${(thin * 2).toFixed(1)}" paint-order="stroke"${decidedBy === 'logic' ? ' text-decoration="underline"' : ''}>${label}</text>`,
    )
  })
  return parts.join('')
}
