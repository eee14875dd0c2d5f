import sharp, { type Metadata, type Sharp } from 'sharp'
import { abortSignal, amount, checkOptions } from '../../check-arguments.js'
import { throwIfAborted } from '../../errors.js'
import type { Limits } from '../../limits.js'
import { PictureError } from '../errors.js'
import type { GrayImage, Point } from '../image.js'
import { withinLimits } from '../within-limits.js'
import { type ColourImage, inkChannel } from './ink-channel.js'
import { formatOf, type PictureFormat } from './picture-format.js'
import { type LoadedPicture, loadPicture, type PictureInput, type PictureName } from './picture-input.js'

export interface DecodeOptions extends Limits {
  /** Pictures with more pixels than this are refused before they are decoded. 50 megapixels unless said otherwise. */
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

/**
 * Longer pictures are shrunk by the smallest whole factor that gets their longer side under this, while decoding (JPEG
 * decoders then skip most work).
 */
const LONGEST_SIDE = 2600

/**
 * Decodes a picture for reading. What it is, its bytes say, whatever its name; JPEG, PNG, WebP, TIFF, GIF and AVIF are
 * decoded (of several frames or pages the first).
 *
 * @throws PictureError `file-unreadable` when the path cannot be opened, `picture-format` when it is something known
 *   that is not decoded, `picture-unreadable` when it is no picture, `picture-truncated` when its end is missing,
 *   `picture-too-large` past `maxPixels` (told from the header, before decoding).
 * @throws StoppedError `aborted`, `time-limit`
 * @throws InputError `argument` when it is nothing that can be a picture, or raw pixels are not as many as their width,
 *   height and channels say
 */
export async function decodePicture(
  source: PictureInput,
  options: DecodeOptions = {},
): Promise<DecodedPicture> {
  checkOptions(options, { maxPixels: amount(1), signal: abortSignal, timeLimit: amount(0) })
  return withinLimits(options, async (signal) => {
    const picture = await loadPicture(source, signal)
    return decode(picture, options.maxPixels ?? DEFAULT_MAX_PIXELS, signal)
  })
}

async function decode(
  picture: LoadedPicture,
  maxPixels: number,
  signal: AbortSignal,
): Promise<DecodedPicture> {
  const { name, place } = picture
  const format = 'bytes' in picture ? decodedFormat(picture.bytes, picture) : undefined
  let header: Metadata
  try {
    header = await open(picture, maxPixels).metadata()
  } catch (cause) {
    throw unreadable(cause, picture)
  }
  if (format && !NAMES_OF_DECODER[format].includes(header.format)) throw noPicture(picture)
  const pixels = header.width * header.height
  if (pixels > maxPixels) {
    throw new PictureError(
      'picture-too-large',
      `${name} is ${header.width} × ${header.height}, more than the limit of ${maxPixels} pixels. Shrink it, or raise \`maxPixels\` if you trust it.`,
      { place },
    )
  }
  throwIfAborted(signal)

  const { width, height } = header.autoOrient
  const factor = Math.ceil(Math.max(width, height) / LONGEST_SIDE)
  let pipeline = open(picture, maxPixels).autoOrient()
  if (factor > 1) {
    const size = {
      width: Math.max(1, Math.round(width / factor)),
      height: Math.max(1, Math.round(height / factor)),
    }
    pipeline = pipeline.resize({ ...size, fit: 'fill', kernel: 'mitchell' })
  }
  if (header.hasAlpha) pipeline = pipeline.flatten({ background: '#ffffff' })
  try {
    const { data, info } = await pipeline.toColourspace('srgb').raw().toBuffer({ resolveWithObject: true })
    throwIfAborted(signal)
    const colour = threeChannels(info.width, info.height, info.channels, data)
    return { gray: inkChannel(colour), colour, fullWidth: width, fullHeight: height }
  } catch (cause) {
    throwIfAborted(signal)
    throw unreadable(cause, picture)
  }
}

/** From a place on the decoded picture to the same place on the full one. */
export function toFullFrame({ gray, fullWidth, fullHeight }: DecodedPicture, { x, y }: Point): Point {
  return { x: (x * fullWidth) / gray.width, y: (y * fullHeight) / gray.height }
}

/** What the decoder calls the formats; it must find the one that the bytes begin with. */
const NAMES_OF_DECODER: Readonly<Record<PictureFormat, readonly string[]>> = {
  jpeg: ['jpeg'],
  png: ['png'],
  webp: ['webp'],
  tiff: ['tiff'],
  gif: ['gif'],
  avif: ['heif', 'avif'],
}

/**
 * The decoder knows more formats than are wanted, and some of them run programs of their own or open other files. It is
 * only shown bytes that begin as one of the formats above does.
 */
function decodedFormat(bytes: Uint8Array, picture: PictureName): PictureFormat {
  const { name, place } = picture
  if (bytes.length === 0) {
    throw new PictureError('picture-unreadable', `${name} has no bytes. Hand in a ${FORMATS} file.`, {
      place,
    })
  }
  const format = formatOf(bytes)
  if (format === undefined) throw noPicture(picture)
  if (typeof format === 'string') return format
  throw new PictureError(
    'picture-format',
    `${name} is ${format.name}, which is not decoded. ${format.advice}`,
    { place },
  )
}

const FORMATS = 'JPEG, PNG, WebP, TIFF, GIF or AVIF'

function noPicture({ name, place }: PictureName, cause?: unknown): PictureError {
  return new PictureError(
    'picture-unreadable',
    `${name} is not a picture that can be decoded. Hand in a ${FORMATS} file.`,
    { place, cause },
  )
}

function open(picture: LoadedPicture, maxPixels: number): Sharp {
  const options = { failOn: 'truncated', limitInputPixels: Math.max(maxPixels, 1) } as const
  if ('bytes' in picture) return sharp(picture.bytes, options)
  const { width, height, channels, data } = picture.raw
  return sharp(data, { ...options, raw: { width, height, channels } })
}

function threeChannels(width: number, height: number, channels: number, data: Uint8Array): ColourImage {
  if (channels === 3) return { width, height, data }
  const rgb = new Uint8Array(width * height * 3)
  for (let i = 0; i < width * height; i++) {
    rgb.fill(data[i * channels]!, i * 3, i * 3 + 3)
  }
  return { width, height, data: rgb }
}

/** The decoder says in words what is wrong; its words for a missing end differ by format. */
const CUT_SHORT =
  /premature|truncat|end of (file|input|stream|data|image)|not enough|too short|read error|insufficient|out of data|libspng read|incomplete|unterminated|decode.* frag/i

function unreadable(cause: unknown, picture: PictureName): PictureError {
  const { name, place } = picture
  const words = cause instanceof Error ? cause.message : String(cause)
  if (/pixel limit/i.test(words)) {
    return new PictureError(
      'picture-too-large',
      `${name} has more pixels than the limit. Shrink it, or raise \`maxPixels\` if you trust it.`,
      { place, cause },
    )
  }
  if (CUT_SHORT.test(words)) {
    return new PictureError(
      'picture-truncated',
      `${name} ends too early: part of it is missing. Copy or download it again.`,
      { place, cause },
    )
  }
  return noPicture(picture, cause)
}
