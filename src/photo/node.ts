import { type DecodedPicture, type DecodeOptions, decodeOn } from './decode/decode-picture.js'
import type { PictureInput } from './decode/picture-input.js'
import type { DigitReader } from './digits/digit-reader.js'
import { networkReader } from './digits/network-reader.js'
import { NODE } from './platform/node.js'
import { type PhotoReader, type PhotoReaderOptions, photoReader } from './reader.js'
import type { Weights } from './weights/weights.js'

/**
 * A reader for pictures of printed grids. Nothing is loaded until it is first asked for.
 *
 * @example
 * const reader = await createPhotoReader()
 * const { readings: [reading] } = await reader.read('page.jpg')
 * if (reading.status === 'check') console.log('look at', reading.doubtful)
 */
export async function createPhotoReader(options: PhotoReaderOptions = {}): Promise<PhotoReader> {
  return photoReader(NODE, options)
}

/**
 * Decodes a picture for reading. What it is, its bytes say, whatever its name. In Node JPEG, PNG, WebP, TIFF, GIF and
 * AVIF are decoded (of several frames or pages the first), by the package sharp, and longer pictures than 2,600 pixels
 * come shrunk by a whole factor; in browsers, what the browser decodes.
 *
 * @throws PictureError `file-unreadable` when the path cannot be opened, `picture-format` when it is something known
 *   that is not decoded, `picture-unreadable` when it is no picture, `picture-truncated` when its end is missing,
 *   `picture-too-large` past `maxPixels`.
 * @throws StoppedError `aborted`, `time-limit`
 * @throws InputError `argument` when it is nothing that can be a picture, or raw pixels are not as many as their width,
 *   height and channels say
 * @throws GridreasonError `package-missing` for a picture file in Node without sharp
 *
 * @example
 * const { gray } = await decodePicture('page.jpg')
 * const lattices = await findLattices(gray)
 */
export async function decodePicture(
  source: PictureInput,
  options: DecodeOptions = {},
): Promise<DecodedPicture> {
  return decodeOn(NODE, source, options)
}

/**
 * The network of our own as a digit reader, for use without a photo reader. It is asked about cells that have any ink;
 * one takes about a tenth of a millisecond, in this thread.
 *
 * @param weights where its weights come from; from the package when left out
 * @throws GridreasonError `weights-unreadable` when cells are read and the weights cannot be had
 *
 * @example
 * const digitReader = createNetworkReader()
 * const reader = await createPhotoReader({ digitReader })
 */
export function createNetworkReader(weights?: Weights): DigitReader {
  return networkReader(weights, NODE.readUrl)
}
