import {
  amount,
  argumentError,
  boolean,
  type Check,
  checkOptions,
  type OptionChecks,
} from '../check-arguments.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import { LIMIT_CHECKS, type Limits } from '../limits.js'
import { DEFAULT_MAX_PIXELS, decodeOn } from './decode/decode-picture.js'
import type { PictureInput } from './decode/picture-input.js'
import { type DigitReader, LARGEST_FIGURE } from './digits/digit-reader.js'
import { networkReader, numberReader } from './digits/network-reader.js'
import { loadPageNet } from './find/page-net.js'
import { type SeenGrid, seenGrid } from './find/seen-grid.js'
import type { Platform } from './platform/platform.js'
import { cellJudge } from './print-or-hand/cell-judge.js'
import { readPage } from './read-page.js'
import type { Readings } from './reading.js'
import { bytesOf, checkWeights, loadedOnce, type Weights } from './weights/weights.js'
import { withinLimits } from './within-limits.js'

/** How a reader reads all its pictures. */
export interface PhotoReaderOptions {
  /**
   * How single digits are read, in grids up to order 9; the network shipped with the package when left out.
   */
  readonly digitReader?: DigitReader
  /** Pictures with more pixels are refused, in Node before they are decoded. */
  readonly maxPixels?: number
  /** Where the networks' weights come from; from the package when left out. */
  readonly weights?: PhotoWeights
}

/**
 * The files `digit-net.bin`, `number-net.bin` (orders above 9) and `page-net.bin`, by their URLs or as bytes; from the
 * package when left out.
 */
export interface PhotoWeights {
  readonly digits?: Weights
  readonly numbers?: Weights
  readonly pages?: Weights
}

export interface ReadOptions extends Limits {
  /**
   * The geometry of the grids of its order on the picture, as the page is read upright. Needed where regions are
   * irregular, and where boxes of several shapes fit and the lines of the grid do not show which it has.
   */
  readonly geometry?: Geometry
  /** Pictures of the cells in `evidence`, some 170 kB a grid, for programs that show them; none when left out. */
  readonly cellPictures?: boolean
}

/** Reads pictures of printed grids. */
export interface PhotoReader {
  /**
   * Reads every number-place grid on a picture: `readings` in reading order (top to bottom, then left to right), and in
   * `unread` the grids that the picture shows and that cannot be read.
   *
   * @param picture bytes of a file, an `ArrayBuffer`, a `Blob` or `File`, or raw pixels such as `ImageData`; in Node
   *   also a path or a `file:` URL, in browsers also an `ImageBitmap`, a canvas, an image or a video
   * @throws NoGridFound when the picture shows none that is read, with what was seen instead; never returns an empty
   *   list
   * @throws PictureError `picture-format`, `picture-unreadable`, `picture-truncated`, `picture-too-large`,
   *   `file-unreadable`
   * @throws StoppedError `aborted`, `time-limit`
   * @throws InputError `argument` when what is handed in is no picture, or an option is not what it should be
   */
  read(picture: PictureInput, options?: ReadOptions): Promise<Readings>
  /**
   * Is there a number-place grid on a picture, and where? A quick look for a camera, of some milliseconds a frame of
   * 640 × 480, before `read` is worth its time; it is no promise that the grid can be read.
   *
   * @throws what `read` throws of pictures and limits; no error when there is no grid, but undefined
   */
  findGrid(picture: PictureInput, limits?: Limits): Promise<SeenGrid | undefined>
  /** Frees what the digit reader holds. */
  close(): Promise<void>
}

export const READ_CHECKS: OptionChecks<ReadOptions> = {
  ...LIMIT_CHECKS,
  geometry: checkGeometry,
  cellPictures: boolean,
}

/** A reader for pictures of printed grids on a platform; `createPhotoReader` says more. */
export function photoReader(platform: Platform, options: PhotoReaderOptions = {}): PhotoReader {
  checkOptions<PhotoReaderOptions>(options, {
    digitReader: isDigitReader,
    maxPixels: amount(1),
    weights: (value) =>
      checkOptions(value as PhotoWeights, {
        digits: checkWeights,
        numbers: checkWeights,
        pages: checkWeights,
      }),
  })
  const { digits, numbers, pages } = options.weights ?? {}
  const { readUrl } = platform
  const digitReader = options.digitReader ?? networkReader(digits, readUrl)
  const numberReaders = new Map<number, DigitReader>()
  const readerFor = (order: number): DigitReader => {
    if (order <= LARGEST_FIGURE) return digitReader
    const reader = numberReaders.get(order) ?? numberReader(order, numbers, readUrl)
    numberReaders.set(order, reader)
    return reader
  }
  const maxPixels = options.maxPixels ?? DEFAULT_MAX_PIXELS
  const pageNet = loadedOnce(async () => loadPageNet(pages && (await bytesOf(pages, readUrl))))
  const judge = cellJudge()
  return {
    async read(input, options = {}) {
      checkOptions<ReadOptions>(options, READ_CHECKS)
      return withinLimits(options, async (signal) => {
        const picture = await decodeOn(platform, input, { maxPixels, signal })
        const { geometry, cellPictures = false } = options
        return readPage(picture, {
          readerFor,
          judge,
          pageNet: await pageNet(),
          geometry,
          cellPictures,
          signal,
        })
      })
    },
    async findGrid(input, limits = {}) {
      checkOptions<Limits>(limits, LIMIT_CHECKS)
      return withinLimits(limits, async (signal) => {
        const picture = await decodeOn(platform, input, { maxPixels, signal })
        return seenGrid(await pageNet(), picture)
      })
    },
    async close() {
      await Promise.all([digitReader, ...numberReaders.values()].map((reader) => reader.close()))
    },
  }
}

const isDigitReader: Check = (value, name) => {
  const { read, close } = (value ?? {}) as Partial<DigitReader>
  if (typeof read !== 'function' || typeof close !== 'function')
    throw argumentError(name, 'a DigitReader', value)
}
