import { abortSignal, amount, checkOptions } from '../../check-arguments.js'
import { throwIfAborted } from '../../errors.js'
import type { Limits } from '../../limits.js'
import { PictureError } from '../errors.js'
import type { GrayImage, Point } from '../image.js'
import type { Platform } from '../platform/platform.js'
import { withinLimits } from '../within-limits.js'
import { type ColourImage, inkChannel } from './ink-channel.js'
import { loadUsual, type PictureInput, type PictureName } from './picture-input.js'
import { type Decoded, fromPixels } from './pixels.js'

export interface DecodeOptions extends Limits {
  /**
   * Pictures with more pixels than this are refused, in Node before they are decoded. 50 megapixels unless said
   * otherwise.
   */
  readonly maxPixels?: number
}

/** A picture as people see it: turned as its EXIF tag says, on white where it was transparent, perhaps shrunk. */
export interface DecodedPicture {
  /** Print of any colour is dark here. */
  readonly gray: GrayImage
  readonly colour: ColourImage
  /** Size before shrinking, after the EXIF turn: the frame in which results are reported. */
  readonly fullWidth: number
  readonly fullHeight: number
}

export const DEFAULT_MAX_PIXELS = 50_000_000

/** Decodes a picture for reading on a platform; `decodePicture` says what comes of it. */
export async function decodeOn(
  platform: Platform,
  source: PictureInput,
  options: DecodeOptions = {},
): Promise<DecodedPicture> {
  checkOptions(options, { maxPixels: amount(1), signal: abortSignal, timeLimit: amount(0) })
  const maxPixels = options.maxPixels ?? DEFAULT_MAX_PIXELS
  return withinLimits(options, async (signal) => {
    throwIfAborted(signal)
    const { colour, fullWidth, fullHeight } = await decoded(platform, source, maxPixels, signal)
    throwIfAborted(signal)
    return { gray: inkChannel(colour), colour, fullWidth, fullHeight }
  })
}

async function decoded(
  platform: Platform,
  source: PictureInput,
  maxPixels: number,
  signal: AbortSignal,
): Promise<Decoded> {
  const picture = (await loadUsual(source)) ?? (await platform.load(source, maxPixels, signal))
  if ('bytes' in picture) return platform.decode(picture.bytes, picture, maxPixels, signal)
  checkPixels(picture.raw, picture, maxPixels)
  return fromPixels(picture.raw)
}

/** @throws PictureError `picture-too-large` */
export function checkPixels(
  { width, height }: { readonly width: number; readonly height: number },
  { name, place }: PictureName,
  maxPixels: number,
): void {
  if (width * height <= maxPixels) return
  throw new PictureError(
    'picture-too-large',
    `${name} is ${width} × ${height}, more than the limit of ${maxPixels} pixels. Shrink it, or raise \`maxPixels\` if you trust it.`,
    { place },
  )
}

/** From a place on the decoded picture to the same place on the full one. */
export function toFullFrame({ gray, fullWidth, fullHeight }: DecodedPicture, { x, y }: Point): Point {
  return { x: (x * fullWidth) / gray.width, y: (y * fullHeight) / gray.height }
}
