/**
 * Measures the digit readers, each alone and together, cell by cell on a labelled folder of photos, before any logic of
 * the puzzle has its say.
 *
 *     npx tsx bench/digits.ts --dir DIR [--labels FILE] [--readers network,tesseract,together] [--net FILE] [--sheet
 *     PNG]
 *
 * The grid and the way up that a label means are taken to be those on which the network agrees with it best; a photo on
 * which fewer than `LEAST_AGREEMENT` of the cells agree has no usable lattice and is reported, not counted: finding
 * grids is measured elsewhere. `--sheet` draws every wrong cell. The last line is JSON.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'
import sharp from 'sharp'
import { cutCells } from '../src/photo/cells/cut-cells.js'
import {
  CELL_SIZE,
  type CellPicture,
  type CellScores,
  type DigitReader,
} from '../src/photo/digits/digit-reader.js'
import { createTesseractReader } from '../src/photo/digits/tesseract-reader.js'
import { findLattices } from '../src/photo/find/find-lattices.js'
import { asPrint } from '../src/photo/inks/with-printed.js'
import { createNetworkReader, decodePicture } from '../src/photo/node.js'
import { QUARTER_TURNS, turnCellPicture, turnedIndices } from '../src/photo/turn.js'

const LEAST_AGREEMENT = 0.6
const SURE = 0.99

interface Sample {
  readonly file: string
  readonly cell: number
  readonly picture: CellPicture
  readonly digit: number
}

const { values } = parseArgs({
  options: {
    dir: { type: 'string' },
    labels: { type: 'string' },
    readers: { type: 'string', default: 'network,tesseract,together' },
    net: { type: 'string' },
    sheet: { type: 'string' },
  },
})
if (!values.dir) {
  console.error('Say which folder: npx tsx bench/digits.ts --dir DIR')
  process.exit(2)
}
const network = createNetworkReader(values.net ? pathToFileURL(values.net) : undefined)
const tesseract = createTesseractReader()
const readers: Record<string, DigitReader> = { network, tesseract, together: together(network, tesseract) }

const samples: Sample[] = []
const noLattice: string[] = []
for (const line of readFileSync(values.labels ?? join(values.dir, 'labels.csv'), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1)) {
  const [file = '', , givens = ''] = line.split(',')
  const found = await samplesOf(join(values.dir, file), file, [...givens].map(Number))
  if (found) samples.push(...found)
  else noLattice.push(file)
}
if (noLattice.length) console.log(`no usable lattice, not counted: ${noLattice.join(' ')}`)

const results: Record<string, object> = {}
for (const name of values.readers.split(',')) {
  const reader = readers[name]
  if (!reader) throw new RangeError(`No reader is called ${name}: take ${Object.keys(readers).join(', ')}.`)
  results[name] = await measure(name, reader)
}
await tesseract.close()
console.log(JSON.stringify({ cells: samples.length, noLattice: noLattice.length, readers: results }))

async function samplesOf(
  path: string,
  file: string,
  givens: readonly number[],
): Promise<Sample[] | undefined> {
  const { gray, colour } = await decodePicture(path, {})
  let best: { agreement: number; pictures: readonly CellPicture[] } | undefined
  for (const lattice of await findLattices(gray)) {
    if (lattice.order !== 9) continue
    const cells = cutCells(gray, lattice, colour)
    for (const turns of QUARTER_TURNS) {
      const pictures = Array.from(turnedIndices(9, turns), (from) => turnCellPicture(cells[from]!, turns))
      const scores = await network.read(pictures)
      const agreement = scores.filter(({ digits }, i) => choice(digits) === givens[i]).length / 81
      if (!best || agreement > best.agreement) best = { agreement, pictures }
    }
  }
  if (!best || best.agreement < LEAST_AGREEMENT) return undefined
  return best.pictures.map((picture, cell) => ({ file, cell, picture, digit: givens[cell]! }))
}

async function measure(name: string, reader: DigitReader) {
  const begun = performance.now()
  // what a hand wrote is no printed digit
  const scores = (await reader.read(samples.map(({ picture }) => picture))).map(asPrint)
  const milliseconds = (performance.now() - begun) / samples.length
  const wrong: { sample: Sample; scores: CellScores }[] = []
  const count = {
    wrong: 0,
    figureAsBlank: 0,
    figureAsOther: 0,
    blankAsFigure: 0,
    sureAndWrong: 0,
    unsure: 0,
    hand: 0,
  }
  let surprise = 0
  scores.forEach((score, i) => {
    const sample = samples[i]!
    const read = choice(score.digits)
    surprise -= Math.log(Math.max(score.digits[sample.digit]!, 1e-9))
    if (score.digits[read]! < SURE) count.unsure++
    if (score.handwritten > 0.5) count.hand++
    if (read === sample.digit) return
    wrong.push({ sample, scores: score })
    count.wrong++
    if (score.digits[read]! >= SURE) count.sureAndWrong++
    if (sample.digit === 0) count.blankAsFigure++
    else if (read === 0) count.figureAsBlank++
    else count.figureAsOther++
  })
  const perPhoto = new Map<string, string[]>()
  for (const { sample, scores } of wrong) {
    const read = choice(scores.digits)
    const text = `r${Math.floor(sample.cell / 9) + 1}c${(sample.cell % 9) + 1} ${sample.digit}→${read} (${Math.round(scores.digits[read]! * 100)} %)`
    perPhoto.set(sample.file, [...(perPhoto.get(sample.file) ?? []), text])
  }
  console.log(`\n${name}: ${count.wrong} of ${samples.length} cells wrong on ${perPhoto.size} photos`)
  for (const [file, texts] of perPhoto)
    console.log(
      `  ${file.padEnd(16)} ${texts.slice(0, 8).join(', ')}${texts.length > 8 ? `, … ${texts.length}` : ''}`,
    )
  if (values.sheet && wrong.length) await drawSheet(values.sheet.replace(/\.png$/, `-${name}.png`), wrong)
  return {
    wrongPercent: percent(count.wrong),
    ...count,
    surprise: Number((surprise / samples.length).toFixed(5)),
    millisecondsPerCell: Number(milliseconds.toFixed(3)),
  }
}

function percent(n: number): number {
  return Number(((100 * n) / samples.length).toFixed(3))
}

function choice(digits: Float32Array): number {
  let best = 0
  for (let d = 1; d < digits.length; d++) if (digits[d]! > digits[best]!) best = d
  return best
}

/** The network's word, and tesseract's where the network is in doubt: odds multiplied, then scaled to sum to 1. */
function together(first: DigitReader, second: DigitReader): DigitReader {
  return {
    name: 'together',
    async read(cells, options) {
      const scores = await first.read(cells, options)
      const doubtful = scores.flatMap(({ digits }, i) => (digits[choice(digits)]! < SURE ? [i] : []))
      const others = await second.read(
        doubtful.map((i) => cells[i]!),
        options,
      )
      doubtful.forEach((i, k) => {
        const product = scores[i]!.digits.map((p, d) => p * others[k]!.digits[d]!)
        const sum = product.reduce((a, b) => a + b, 0)
        scores[i] = { ...scores[i]!, digits: product.map((p) => p / sum) }
      })
      return scores
    },
    async close() {},
  }
}

/** Twenty cells a row, each above a strip that tells label and reading as two small bars of that length. */
async function drawSheet(path: string, wrong: readonly { sample: Sample; scores: CellScores }[]) {
  const shown = wrong.slice(0, 400)
  const columns = Math.min(20, shown.length)
  const width = 90
  const height = 100
  const tiles = shown.map(({ sample, scores }, i) => {
    const x = (i % columns) * width
    const y = Math.floor(i / columns) * height
    const rects = Array.from(sample.picture.data, (v, k) =>
      v > 250
        ? ''
        : `<rect x="${(k % CELL_SIZE) * 2}" y="${Math.floor(k / CELL_SIZE) * 2}" width="2" height="2" fill="rgb(${v},${v},${v})"/>`,
    )
    const read = choice(scores.digits)
    return `<svg x="${x}" y="${y}">${rects.join('')}<text x="2" y="94" font-size="11">${sample.digit}→${read} ${Math.round(scores.digits[read]! * 100)} ${sample.file.replace(/\D/g, '')}</text></svg>`
  })
  const rows = Math.ceil(shown.length / columns)
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${columns * width}" height="${rows * height}"><rect width="100%" height="100%" fill="#eee"/>${tiles.join('')}</svg>`
  await sharp(Buffer.from(svg), { unlimited: true }).png().toFile(path)
}
