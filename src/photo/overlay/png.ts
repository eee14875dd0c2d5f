import type SharpMaker from 'sharp'
import type { OverlayOptions, Sharp } from 'sharp'
import { colourImage, drawnReading } from '../check-photo.js'
import type { ColourImage } from '../decode/ink-channel.js'
import type { Point } from '../image.js'
import { cellCorners, type Lattice } from '../lattice.js'
import { loadSharp } from '../platform/optional-packages.js'
import { rectify } from '../rectify/rectify.js'
import { type OverlayReading, overlaySvg } from './overlay.js'

const TO_WRITE = 'to write PNGs; overlaySvg does without'

/**
 * The photo with the overlay on it, as a PNG. In Node only; elsewhere lay `overlaySvg` over the picture.
 *
 * @throws InputError `argument` for what is no picture or no reading
 *
 * @example
 * const { colour } = await decodePicture('page.jpg')
 * await writeFile('overlay.png', await overlayPng(colour, [reading]))
 */
export async function overlayPng(
  picture: ColourImage,
  readings: readonly OverlayReading[],
): Promise<Uint8Array> {
  colourImage(picture, 'picture')
  const sharp = await loadSharp(TO_WRITE)
  return raw(sharp, picture)
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
 * cells, as a PNG. In Node only.
 *
 * @example
 * const { colour } = await decodePicture('page.jpg')
 * await writeFile('straight.png', await rectifiedPng(colour, reading))
 */
export async function rectifiedPng(picture: ColourImage, reading: OverlayReading): Promise<Uint8Array> {
  colourImage(picture, 'picture')
  drawnReading(reading, 'reading')
  const sharp = await loadSharp(TO_WRITE)
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
  const layers: OverlayOptions[] = [{ input: Buffer.from(grid), left: 0, top: 0 }]
  for (const [k, cell] of doubtful.entries()) {
    const left = border + (k % CROPS_A_ROW) * (CROP + border)
    const top = flat.height + Math.floor(k / CROPS_A_ROW) * (CROP + CAPTION + border)
    const crop = rectify(picture, oneCell(lattice, cell), Math.round(CROP / 1.2), 0.1)
    layers.push({
      input: await raw(sharp, crop).resize(CROP, CROP).png().toBuffer(),
      left,
      top: top + CAPTION,
    })
    const words = `${nameOf(order, cell)}: ${captionOf(cells[cell]!)}`
    layers.push({ input: Buffer.from(captionSvg(words, CROP)), left, top })
  }
  return sharp({ create: { width, height, channels: 3, background: '#ffffff' } })
    .composite(layers)
    .png()
    .toBuffer()
}

function raw(sharp: typeof SharpMaker, { width, height, data }: ColourImage): Sharp {
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
