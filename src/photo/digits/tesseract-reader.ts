import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { Worker as TesseractWorker } from 'tesseract.js'
import { throwIfAborted } from '../../errors.js'
import { cellPictures } from '../check-photo.js'
import { packageMissing } from '../platform/optional-packages.js'
import type { CellScores, DigitReader } from './digit-reader.js'
import { type FreeInk, freeInk } from './ink.js'

/** Height a figure is scaled to, and the paper around it: the best of those tried on drawn figures of six families. */
const FIGURE_HEIGHT = 32
const PAPER = 12
/** LSTM engine alone: the only one whose data is packed small. */
const LSTM_ONLY = 1

/**
 * P(read digit is right) = 1 / (1 + exp(-(bias + slope * confidence))), the engine's confidence running from 0 to 100:
 * a logistic fit on the cells of 46 drawn photographs in families of the training side, as are the shares below.
 */
const CALIBRATION = { bias: -1.18, slope: 0.065 }
/** Of the doubt about a digit that was read, how much goes to "there is no digit". */
const BLANK_SHARE = 0.1
/**
 * P(no printed digit) where no free-standing ink was found, and where ink was found that the engine makes nothing of.
 */
const BLANK_WITHOUT_INK = 0.97
const BLANK_WITHOUT_READING = 0.36

/**
 * A digit reader on tesseract.js, in Node only, offline: data from the package `@tesseract.js-data/eng`, nothing
 * fetched, nothing cached on disk. The engine (a worker thread, about a second to start) is loaded by the first cell
 * that has ink. One recognition a cell: whole rows at once save no time and lose figures to the engine's own idea of
 * spacing.
 *
 * @example
 * const reader = await createPhotoReader({ digitReader: createTesseractReader() })
 */
export function createTesseractReader(): DigitReader {
  let engine: Promise<TesseractWorker> | undefined
  let busy = 0

  async function recognise(ink: FreeInk): Promise<CellScores> {
    engine ??= startEngine().catch((error) => {
      engine = undefined // a later read may try again
      throw error
    })
    const worker = await engine
    const { data } = await worker.recognize(figurePicture(ink), {}, { text: true })
    return scoresOf(data.text, data.confidence)
  }

  return {
    name: 'tesseract',
    async read(cells, options = {}) {
      cellPictures(cells, 'cells')
      const scores: CellScores[] = []
      busy++
      try {
        if (engine) threadOf(await engine).ref()
        for (const cell of cells) {
          throwIfAborted(options.signal)
          const ink = freeInk(cell)
          scores.push(ink ? await recognise(ink) : blankScores(BLANK_WITHOUT_INK))
        }
      } finally {
        busy--
        // an idle engine keeps no process alive
        if (busy === 0 && engine) await engine.then((worker) => threadOf(worker).unref()).catch(() => {})
      }
      return scores
    },
    async close() {
      const closing = engine
      engine = undefined
      if (closing) await closing.then((worker) => worker.terminate()).catch(() => {})
    },
  }
}

async function startEngine(): Promise<TesseractWorker> {
  const { createWorker } = await loadTesseract()
  const data = dirname(dataFile())
  const worker = await createWorker(
    'eng',
    LSTM_ONLY,
    {
      langPath: join(data, '4.0.0_best_int'),
      cacheMethod: 'none',
      gzip: true,
      errorHandler: () => {}, // errors reach the caller as rejections; without a handler they would also be thrown
    },
    { load_system_dawg: '0', load_freq_dawg: '0' },
  )
  await worker.setParameters({
    tessedit_char_whitelist: '123456789',
    tessedit_pageseg_mode: '13' as never, // one raw line; the enum exists at run time only when the module is loaded
  })
  return worker
}

async function loadTesseract(): Promise<typeof import('tesseract.js')> {
  try {
    return await import('tesseract.js')
  } catch (cause) {
    throw packageMissing('tesseract.js', PURPOSE, cause)
  }
}

function dataFile(): string {
  try {
    return createRequire(import.meta.url).resolve('@tesseract.js-data/eng/package.json')
  } catch (cause) {
    throw packageMissing('@tesseract.js-data/eng', PURPOSE, cause)
  }
}

const PURPOSE = 'for createTesseractReader; createNetworkReader does without'

/** The thread below a worker, which the package's types leave out. */
function threadOf(worker: TesseractWorker): { ref(): void; unref(): void } {
  return (worker as unknown as { worker: { ref(): void; unref(): void } }).worker
}

/** The figure, scaled to a fixed height on white paper, as a binary PGM file (Netpbm's P5). */
function figurePicture(ink: FreeInk): Buffer {
  const scale = FIGURE_HEIGHT / ink.height
  const inner = Math.max(1, Math.round(ink.width * scale))
  const width = inner + 2 * PAPER
  const height = FIGURE_HEIGHT + 2 * PAPER
  const header = Buffer.from(`P5\n${width} ${height}\n255\n`)
  const file = Buffer.alloc(header.length + width * height, 255)
  header.copy(file)
  for (let y = 0; y < FIGURE_HEIGHT; y++) {
    for (let x = 0; x < inner; x++) {
      const at = header.length + (y + PAPER) * width + x + PAPER
      file[at] = sample(ink, (x + 0.5) / scale - 0.5, (y + 0.5) / scale - 0.5)
    }
  }
  return file
}

/** Between four pixels, in proportion to nearness. */
function sample(ink: FreeInk, x: number, y: number): number {
  const left = Math.min(ink.width - 1, Math.max(0, Math.floor(x)))
  const top = Math.min(ink.height - 1, Math.max(0, Math.floor(y)))
  const right = Math.min(ink.width - 1, left + 1)
  const bottom = Math.min(ink.height - 1, top + 1)
  const fx = Math.min(1, Math.max(0, x - left))
  const fy = Math.min(1, Math.max(0, y - top))
  const upper = ink.data[top * ink.width + left]! * (1 - fx) + ink.data[top * ink.width + right]! * fx
  const lower = ink.data[bottom * ink.width + left]! * (1 - fx) + ink.data[bottom * ink.width + right]! * fx
  return upper * (1 - fy) + lower * fy
}

function scoresOf(text: string, confidence: number): CellScores {
  const read = /^\s*([1-9])\s*$/.exec(text)?.[1]
  if (!read) return blankScores(BLANK_WITHOUT_READING)
  const right = 1 / (1 + Math.exp(-(CALIBRATION.bias + CALIBRATION.slope * confidence)))
  const digits = new Float32Array(10).fill(((1 - right) * (1 - BLANK_SHARE)) / 8)
  digits[0] = (1 - right) * BLANK_SHARE
  digits[Number(read)] = right
  return { digits, handwritten: 0 }
}

function blankScores(blank: number): CellScores {
  const digits = new Float32Array(10).fill((1 - blank) / 9)
  digits[0] = blank
  return { digits, handwritten: 0 }
}
