/**
 * Draws the picture at the head of the README: a page of the fixtures, and the key step of the puzzle that is read on
 * it.
 *
 *     npx tsx examples/support/page-and-key.ts
 */
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { explainStep, findRoute, renderSvg, techniqueTitle } from '../../src/index.js'
import { createPhotoReader, overlaySvg } from '../../src/photo.js'

const PHOTO = fileURLToPath(new URL('../../fixtures/pages/1-front-page.jpg', import.meta.url))
const OUT = fileURLToPath(new URL('../guides/page-and-key.png', import.meta.url))
const [WIDTH, HEIGHT, BOARD, MARGIN] = [1280, 660, 560, 40]

const reader = await createPhotoReader()
const {
  readings: [reading],
} = await reader.read(PHOTO)
await reader.close()
const route = findRoute(reading.puzzle)
if (route.status !== 'solved') throw new Error('There is no route through the puzzle of the page.')
const step = route.steps[route.keys[0]!]!

const { width, height } = await sharp(PHOTO).metadata()
const overlay = Buffer.from(overlaySvg({ width, height }, [reading]))
const left = WIDTH - BOARD - 3 * MARGIN
const photo = await sharp(
  await sharp(PHOTO)
    .composite([{ input: overlay }])
    .png()
    .toBuffer(),
)
  .extract(around(left / (HEIGHT - 2 * MARGIN)))
  .resize(left, HEIGHT - 2 * MARGIN)
  .modulate({ brightness: 1.25 })
  .toBuffer()
const board = await sharp(Buffer.from(renderSvg(step.before, { step, marks: 'step', width: BOARD })))
  .resize(BOARD, HEIGHT - 2 * MARGIN - 80, { fit: 'contain', position: 'top', background: '#ffffff' })
  .toBuffer()
const [last] = explainStep(step).sentences.slice(-1)
const words = Buffer.from(
  `<svg xmlns="http://www.w3.org/2000/svg" width="${BOARD}" height="70"><g font-family="DejaVu Sans, sans-serif" fill="#23262d"><text x="0" y="22" font-size="20" font-weight="bold">The key: ${techniqueTitle(step.technique)}</text>${lines(
    last!,
    62,
  )
    .map((line, i) => `<text x="0" y="${46 + 20 * i}" font-size="15">${line}</text>`)
    .join('')}</g></svg>`,
)
await sharp({ create: { width: WIDTH, height: HEIGHT, channels: 3, background: '#ffffff' } })
  .composite([
    { input: photo, left: MARGIN, top: MARGIN },
    { input: words, left: left + 2 * MARGIN, top: MARGIN },
    { input: board, left: left + 2 * MARGIN, top: MARGIN + 80 },
  ])
  .png({ palette: true, colours: 128, effort: 10 })
  .toFile(OUT)
console.log(`Drawn: ${OUT}`)

/** The part of the photo around the grid, of this width to height. */
function around(aspect: number) {
  const { points } = reading.lattice
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)]
  const [right, bottom] = [Math.max(...xs), Math.max(...ys)]
  const [x, y] = [(Math.min(...xs) + right) / 2, (Math.min(...ys) + bottom) / 2]
  const tall = Math.min((bottom - y) * 3, height)
  const wide = Math.min(tall * aspect, width)
  return {
    left: Math.round(Math.max(0, Math.min(width - wide, x - wide / 2))),
    top: Math.round(Math.max(0, Math.min(height - tall, y - tall / 2))),
    width: Math.floor(wide),
    height: Math.floor(tall),
  }
}

/** Words in lines of so many characters at most. */
function lines(text: string, most: number): string[] {
  return text.split(' ').reduce<string[]>((all, word) => {
    const line = all.at(-1)
    if (line !== undefined && line.length + word.length < most) all[all.length - 1] = `${line} ${word}`
    else all.push(word)
    return all
  }, [])
}
