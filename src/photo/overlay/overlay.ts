import sharp, { type Sharp } from 'sharp'
import { listOf, object, whole } from '../../check-arguments.js'
import { colourImage, drawnReading } from '../check-photo.js'
import type { ColourImage } from '../decode/ink-channel.js'
import type { Point } from '../image.js'
import { cellCorners, type Lattice } from '../lattice.js'
import { rectify } from '../rectify/rectify.js'

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
 * The lattice and the read digits as an SVG of the picture's size on a transparent ground, to be laid over the photo. A
 * digit stands small in the corner of its cell, turned as the page is, so that the print stays in view; digits settled
 * by logic are underlined, doubtful cells have a thick dashed frame and a question mark, so nothing is told by colour
 * alone.
 *
 * @throws InputError `argument` for what is no size or no reading
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

/**
 * The photo with the overlay on it, as a PNG.
 *
 * @throws InputError `argument` for what is no picture or no reading
 */
export async function overlayPng(picture: ColourImage, readings: readonly OverlayReading[]): Promise<Buffer> {
  colourImage(picture, 'picture')
  return raw(picture)
    .composite([{ input: Buffer.from(overlaySvg(picture, readings)) }])
    .png()
    .toBuffer()
}

/** Side of a cell on the rectified picture, and of a doubtful cell's enlarged crop below it. */
const CELL = 48
const CROP = 144
const CROPS_A_ROW = 3
const CAPTION = 26

/**
 * The grid bent straight with the read digits in its cells' corners and, below it, enlarged crops of the doubtful
 * cells, as a PNG.
 */
export async function rectifiedPng(picture: ColourImage, reading: OverlayReading): Promise<Buffer> {
  colourImage(picture, 'picture')
  drawnReading(reading, 'reading')
  const { lattice, doubtful, cells } = reading
  const { order } = lattice
  const margin = 0.25
  const flat = rectify(picture, lattice, CELL, margin)
  const border = Math.round(margin * CELL)
  const square: Lattice = { ...lattice, points: squarePoints(order, CELL, border) }
  const grid = await overlayPng(flat, [{ ...reading, lattice: square }])
  const rows = Math.ceil(doubtful.length / CROPS_A_ROW)
  const width = Math.max(flat.width, doubtful.length > 0 ? CROPS_A_ROW * (CROP + border) + border : 0)
  const height = flat.height + rows * (CROP + CAPTION + border)
  const layers: { input: Buffer; left: number; top: number }[] = [{ input: grid, left: 0, top: 0 }]
  for (const [k, cell] of doubtful.entries()) {
    const left = border + (k % CROPS_A_ROW) * (CROP + border)
    const top = flat.height + Math.floor(k / CROPS_A_ROW) * (CROP + CAPTION + border)
    const crop = rectify(picture, oneCell(lattice, cell), Math.round(CROP / 1.2), 0.1)
    layers.push({ input: await raw(crop).resize(CROP, CROP).png().toBuffer(), left, top: top + CAPTION })
    const words = `${nameOf(order, cell)}: ${captionOf(cells[cell]!)}`
    layers.push({ input: Buffer.from(captionSvg(words, CROP)), left, top })
  }
  return sharp({ create: { width, height, channels: 3, background: '#ffffff' } })
    .composite(layers)
    .png()
    .toBuffer()
}

function raw({ width, height, data }: ColourImage): Sharp {
  return sharp(data, { raw: { width, height, channels: 3 } })
}

function squarePoints(order: number, cell: number, border: number): Point[] {
  const side = order + 1
  return Array.from({ length: side * side }, (_, k) => ({
    x: border + (k % side) * cell,
    y: border + Math.floor(k / side) * cell,
  }))
}

function oneCell(lattice: Lattice, cell: number): Lattice {
  return { ...lattice, order: 1, points: cellCorners(lattice, cell) }
}

function nameOf(order: number, cell: number): string {
  return `r${Math.floor(cell / order) + 1}c${(cell % order) + 1}`
}

function captionOf({ digit, alternatives }: OverlayReading['cells'][number]): string {
  const word = (d: number) => (d === 0 ? 'blank' : String(d))
  const others = alternatives
    .filter((other) => other.digit !== digit)
    .slice(0, 2)
    .map((other) => `${word(other.digit)} ${Math.round(other.probability * 100)}%`)
  return [word(digit), ...others].join(', ')
}

function captionSvg(words: string, width: number): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${CAPTION}"><text x="0" y="${CAPTION - 8}" font-family="sans-serif" font-size="15" fill="#111">${words}</text></svg>`
}

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
