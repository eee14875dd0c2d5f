import { abortSignal, amount, argumentError, type Check, checkOptions } from '../check-arguments.js'
import { checkGeometry, type Geometry } from '../grid/geometry.js'
import type { Limits } from '../limits.js'
import { DEFAULT_MAX_PIXELS, decodePicture } from './decode/decode-picture.js'
import type { PictureInput } from './decode/picture-input.js'
import type { DigitReader } from './digits/digit-reader.js'
import { createNetworkReader } from './digits/network-reader.js'
import { readPage } from './read-page.js'
import type { Readings } from './reading.js'
import { withinLimits } from './within-limits.js'

export interface PhotoReaderOptions {
  /** How single digits are read; the network shipped with the package when left out. */
  readonly digitReader?: DigitReader
  /** Pictures with more pixels are refused before they are decoded. */
  readonly maxPixels?: number
}

export interface ReadOptions extends Limits {
  /**
   * The geometry of the grids of its order on the picture, as the page is read upright. Needed where regions are
   * irregular, and where boxes of several shapes fit and the lines of the grid do not show which it has.
   */
  readonly geometry?: Geometry
}

export interface PhotoReader {
  /**
   * Reads every number-place grid on a picture, in reading order (top to bottom, then left to right). Grids that the
   * picture shows and that cannot be read are in `unread` of the list.
   *
   * @param picture a path, a `file:` URL, bytes, an `ArrayBuffer`, a `Blob` or `File`, or raw pixels
   * @throws NoGridFound when the picture shows none that is read, with what was seen instead; never returns an empty
   *   list
   * @throws PictureError `picture-format`, `picture-unreadable`, `picture-truncated`, `picture-too-large`,
   *   `file-unreadable`
   * @throws StoppedError `aborted`, `time-limit`
   * @throws InputError `argument` when what is handed in is no picture, or an option is not what it should be
   */
  read(picture: PictureInput, options?: ReadOptions): Promise<Readings>
  /** Frees what the digit reader holds. */
  close(): Promise<void>
}

/**
 * A reader for pictures of printed grids. Nothing is loaded until the first cell has to be read.
 *
 * @example
 * const reader = await createPhotoReader()
 * const [reading] = await reader.read('page.jpg')
 * if (reading.status === 'check') console.log('look at', reading.doubtful)
 */
export async function createPhotoReader(options: PhotoReaderOptions = {}): Promise<PhotoReader> {
  checkOptions<PhotoReaderOptions>(options, { digitReader: isDigitReader, maxPixels: amount(1) })
  const digitReader = options.digitReader ?? createNetworkReader()
  const maxPixels = options.maxPixels ?? DEFAULT_MAX_PIXELS
  return {
    async read(input, options = {}) {
      checkOptions(options, { signal: abortSignal, timeLimit: amount(0), geometry: checkGeometry })
      return withinLimits(options, async (signal) => {
        const picture = await decodePicture(input, { maxPixels, signal })
        return readPage(picture, { digitReader, geometry: options.geometry, signal })
      })
    },
    close: () => digitReader.close(),
  }
}

const isDigitReader: Check = (value, name) => {
  const { read, close } = (value ?? {}) as Partial<DigitReader>
  if (typeof read !== 'function' || typeof close !== 'function')
    throw argumentError(name, 'a DigitReader', value)
}
