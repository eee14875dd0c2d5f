import sharp from 'sharp'
import { type Face, facesIn, figurePath } from '../../../fixtures/draw/fonts.js'
import { Random } from '../../../fixtures/draw/random.js'
import { CELL_SIZE, type CellPicture } from '../../../src/photo/digits/digit-reader.js'

export interface DrawnCell {
  readonly picture: CellPicture
  /** 0: no digit. */
  readonly digit: number
}

/** Cells in faces kept aside from training: rules at the border, a digit or none, softened, a little off and noisy. */
export async function drawCells(count: number, seed: number): Promise<DrawnCell[]> {
  const random = new Random(seed)
  const faces = facesIn('kept-aside', 'print')
  const cells: DrawnCell[] = []
  for (let i = 0; i < count; i++) {
    const digit = i % 10
    cells.push({ digit, picture: await drawCell(digit, random.pick(faces), random) })
  }
  return cells
}

/** Cells with two to five small figures in a raster of three by three, as solvers note candidates. */
export async function drawMarks(count: number, seed: number): Promise<DrawnCell[]> {
  const random = new Random(seed)
  const faces = facesIn('kept-aside', 'print')
  const cells: DrawnCell[] = []
  for (let i = 0; i < count; i++) {
    const face = random.pick(faces)
    const figures = random
      .shuffled([1, 2, 3, 4, 5, 6, 7, 8, 9])
      .slice(0, random.whole(2, 5))
      .map((digit) => {
        const x = CELL_SIZE / 2 + (((digit - 1) % 3) - 1) * 9
        const y = CELL_SIZE / 2 + (Math.floor((digit - 1) / 3) - 1) * 9
        return figurePath(face, String(digit), 6.5, x, y)
      })
    cells.push({ digit: 0, picture: await render(`<path d="${figures.join('')}"/>`, random) })
  }
  return cells
}

async function drawCell(digit: number, face: Face, random: Random): Promise<CellPicture> {
  const spot = () => CELL_SIZE / 2 + random.between(-1.5, 1.5)
  const figure = digit
    ? `<path d="${figurePath(face, String(digit), random.between(14, 24), spot(), spot())}"/>`
    : ''
  return render(figure, random)
}

async function render(content: string, random: Random): Promise<CellPicture> {
  const rule = random.between(0.6, 2.4)
  const edge = CELL_SIZE / 12
  const far = CELL_SIZE - edge
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${CELL_SIZE}" height="${CELL_SIZE}">
    <rect width="100%" height="100%" fill="white"/>
    <path d="M${edge} 0V40M${far} 0V40M0 ${edge}H40M0 ${far}H40" stroke="black" stroke-width="${rule}"/>${content}</svg>`
  const pixels = await sharp(Buffer.from(svg))
    .flatten({ background: 'white' })
    .blur(random.between(0.4, 1.1))
    .toColourspace('b-w')
    .raw()
    .toBuffer()
  const noise = random.between(0, 12)
  const full = Math.max(40, 255 - darkestInside(pixels))
  return {
    data: Uint8Array.from(pixels, (value) =>
      Math.max(0, Math.min(255, 255 - ((255 - value) * 255) / full + noise * random.normal())),
    ),
  }
}

/** Cells come with their ink stretched to black, so the darkest part that is no rule is what black is here. */
function darkestInside(pixels: Uint8Array): number {
  let darkest = 255
  for (let y = 8; y < CELL_SIZE - 8; y++) {
    for (let x = 8; x < CELL_SIZE - 8; x++) darkest = Math.min(darkest, pixels[y * CELL_SIZE + x]!)
  }
  return darkest
}
