/**
 * How long a photo takes beside what single-character recognition of its cells would, and whether memory stays bounded.
 *
 *     npm run bench:photo-speed -- [--rounds 7] [--photos 1000] [--threads]
 *
 * Ten drawn pages, each as a 1600 × 1200 and as a 640 × 480 photo, are read by a warm reader. The measure is the time
 * of 81 recognitions by tesseract.js (warm worker, single-character mode) of printed digits cut from the same pages.
 * Pages and recognitions take turns, so that other load on the machine hits both, and medians count; the best turns of
 * both stand beside them. Start-up and a folder of so many photos run in processes of their own. `--threads` also reads
 * the folder with the built package (`npm run build`), on one thread and on all cores. The last line is one JSON
 * object.
 */
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { createPhotoReader, cutCells, decodePicture, type PhotoReader } from '../src/photo.js'
import { insideOfCell, openCharacterRecogniser } from './support/character-recognition.js'
import { memoryOverFolder } from './support/photo-memory.js'
import { startUps } from './support/photo-start-up.js'
import { threadSpeeds } from './support/photo-threads.js'
import { percentile, printResult, printTable, significant } from './support/report.js'
import { drawSpeedPages, type SpeedPage } from './support/speed-pages.js'

const { values } = parseArgs({
  options: {
    rounds: { type: 'string', default: '7' },
    photos: { type: 'string', default: '1000' },
    threads: { type: 'boolean', default: false },
  },
})
const rounds = Number(values.rounds)
const photos = Number(values.photos)
if (!(rounds >= 1) || !(photos >= 0)) {
  console.error('usage: npm run bench:photo-speed -- [--rounds 7] [--photos 1000] [--threads]')
  process.exit(2)
}

/** What a read may take, as a share of 81 recognitions. */
const ASKED = { large: 1 / 3, small: 1 / 6 } as const
const SIZES = ['large', 'small'] as const
const CELLS = 81

const pages = await drawSpeedPages()
const reader = await createPhotoReader()
const exact = await countExact(reader, pages)
const characters = await printedCharacters(reader, pages)
const recogniser = await openCharacterRecogniser()
const times = { large: [] as number[], small: [] as number[], characters: [] as number[] }
let recognised = 0
for (let round = 0; round <= rounds; round++) {
  const taken = { large: [] as number[], small: [] as number[], characters: [] as number[] }
  for (const page of pages) {
    for (const size of SIZES) taken[size].push(await timed(() => reader.read(page[size])))
  }
  recognised = 0
  const started = performance.now()
  for (const { picture, digit } of characters) {
    if ((await recogniser.recognise(picture)) === digit) recognised++
  }
  taken.characters.push(performance.now() - started)
  // the first round warms both up
  if (round > 0) for (const key of [...SIZES, 'characters'] as const) times[key].push(...taken[key])
}
await recogniser.close()
await reader.close()

const median = (list: readonly number[]) =>
  percentile(
    [...list].sort((a, b) => a - b),
    0.5,
  )
const measure = median(times.characters)
const quickest = Math.min(...times.characters)
/** Each page's best turn, which other programs on the machine disturb least. */
const best = (size: 'large' | 'small') =>
  median(pages.map((_, k) => Math.min(...times[size].filter((_, i) => i % pages.length === k))))
console.log(
  `81 recognitions of one character: median ${significant(measure, 3)} ms (${significant(measure / CELLS, 3)} ms each; ${recognised} read right)\n`,
)
printTable(
  ['photo', 'read exactly', 'ms, median', 'ms, worst', 'share of 81 recognitions', 'best turns', 'asked'],
  SIZES.map((size) => [
    size === 'large' ? '1600 × 1200' : '640 × 480',
    `${exact[size]} of ${pages.length}`,
    significant(median(times[size]), 3),
    significant(Math.max(...times[size]), 3),
    significant(median(times[size]) / measure, 3),
    significant(best(size) / quickest, 3),
    significant(ASKED[size], 3),
  ]),
)

console.log('\nstart-up, in a process of its own (until the first photo is read):')
const starts = startUps(pages[0]!)
printTable(
  ['digit reader', 'ms', 'MiB', 'OCR engine loaded'],
  starts.map(({ reader: name, ms, rssMiB, engineLoaded }) => [
    name,
    Math.round(ms),
    Math.round(rssMiB),
    engineLoaded ? 'yes' : 'no',
  ]),
)

const memory = photos > 0 ? memoryOverFolder(pages, photos) : undefined
const threads = values.threads ? await threadSpeeds(pages, availableParallelism()) : undefined

printResult({
  recognitionsMs: significant(measure),
  largeMs: significant(median(times.large)),
  smallMs: significant(median(times.small)),
  largeShare: significant(median(times.large) / measure),
  smallShare: significant(median(times.small) / measure),
  largeBestShare: significant(best('large') / quickest),
  smallBestShare: significant(best('small') / quickest),
  startUpMs: Math.round(starts[0]!.ms),
  engineLoadedByDefault: starts[0]!.engineLoaded,
  ...memory,
  ...threads,
})

async function timed(work: () => Promise<unknown>): Promise<number> {
  const started = performance.now()
  await work()
  return performance.now() - started
}

/** Photos whose first grid is read just as the label says: shows that the work was done, and warms the reader up. */
async function countExact(reader: PhotoReader, pages: readonly SpeedPage[]) {
  const exact = { large: 0, small: 0 }
  for (const page of pages) {
    for (const size of SIZES) {
      const { readings } = await reader.read(page[size])
      if (readings.some(({ puzzle }) => puzzle.givens.join('') === page.givens)) exact[size]++
    }
  }
  return exact
}

/** 81 printed digits, cut upright from the pages in turn. */
async function printedCharacters(reader: PhotoReader, pages: readonly SpeedPage[]) {
  const characters: { picture: Buffer; digit: string }[] = []
  for (const { large } of pages) {
    const { gray } = await decodePicture(large)
    const {
      readings: [reading],
    } = await reader.read(large)
    cutCells(gray, reading.lattice).forEach((cell, at) => {
      const digit = reading.puzzle.givens[at]
      if (digit) characters.push({ picture: insideOfCell(cell), digit: String(digit) })
    })
  }
  // every third or so, to take from all pages
  const step = characters.length / CELLS
  return Array.from({ length: CELLS }, (_, k) => characters[Math.floor(k * step)]!)
}
