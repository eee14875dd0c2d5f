import { stat } from 'node:fs/promises'
import sharp, { type Metadata, type Sharp } from 'sharp'
import { throwIfAborted } from '../../errors.js'
import { PictureError } from '../errors.js'
import type { GrayImage, Point } from '../image.js'
import { type ColourImage, inkChannel } from './ink-channel.js'

/** Pixels that a program already holds: `channels` bytes each (1 grey, 2 grey + alpha, 3 RGB, 4 RGBA), row by row. */
export interface RawPicture {
  readonly width: number
  readonly height: number
  readonly channels: 1 | 2 | 3 | 4
  readonly data: Uint8Array | Uint8ClampedArray
}

/** The path of a picture file, its bytes, or raw pixels. */
export type PictureInput = string | Uint8Array | RawPicture

export interface DecodeOptions {
  /** Pictures with more pixels than this are refused before they are decoded. 50 megapixels unless said otherwise. */
  readonly maxPixels?: number
  readonly signal?: AbortSignal
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

/** Longer pictures are shrunk by the smallest whole factor that gets their longer side under this, while decoding (JPEG decoders then skip most work). */
const LONGEST_SIDE = 2600

/**
 * Decodes a picture for reading.
 *
 * @throws PictureError `file-unreadable` when the path cannot be opened, `picture-unreadable` when it is no picture,
 * `picture-truncated` when its end is missing, `picture-too-large` past `maxPixels` (told from the header, before decoding).
 * @throws StoppedError `aborted`
 * @throws RangeError when raw pixels are not as many as their width, height and channels say.
 */
export async function decodePicture(
  source: PictureInput,
  options: DecodeOptions = {},
): Promise<DecodedPicture> {
  const { maxPixels = DEFAULT_MAX_PIXELS, signal } = options
  throwIfAborted(signal)
  const file = typeof source === 'string' ? source : undefined
  const place = file === undefined ? {} : { file }
  const name = file === undefined ? 'The picture' : `The picture ${file}`
  if (isRaw(source)) checkRaw(source)
  else if (typeof source !== 'string' && source.length === 0) {
    throw new PictureError(
      'picture-unreadable',
      'The picture has no bytes. Hand in a JPEG, PNG, WebP or TIFF file.',
    )
  }

  if (file !== undefined) await checkFile(file)
  let header: Metadata
  try {
    header = await open(source, maxPixels).metadata()
  } catch (cause) {
    throw unreadable(cause, name, place)
  }
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
  let pipeline = open(source, maxPixels).autoOrient()
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
    throw unreadable(cause, name, place)
  }
}

/** From a place on the decoded picture to the same place on the full one. */
export function toFullFrame({ gray, fullWidth, fullHeight }: DecodedPicture, { x, y }: Point): Point {
  return { x: (x * fullWidth) / gray.width, y: (y * fullHeight) / gray.height }
}

/** The decoder takes a folder for a broken picture, so paths are looked at first. */
async function checkFile(file: string): Promise<void> {
  const found = await stat(file).catch((cause: unknown) => {
    throw cannotOpen(file, cause)
  })
  if (!found.isFile()) throw cannotOpen(file)
}

function cannotOpen(file: string, cause?: unknown): PictureError {
  return new PictureError(
    'file-unreadable',
    `${file} cannot be opened as a file. Check the path and that it may be read.`,
    {
      place: { file },
      cause,
    },
  )
}

function isRaw(source: PictureInput): source is RawPicture {
  return typeof source === 'object' && !(source instanceof Uint8Array)
}

function open(source: PictureInput, maxPixels: number): Sharp {
  const options = { failOn: 'truncated', limitInputPixels: Math.max(maxPixels, 1) } as const
  if (!isRaw(source)) return sharp(source, options)
  const { width, height, channels, data } = source
  return sharp(data, { ...options, raw: { width, height, channels } })
}

function checkRaw({ width, height, channels, data }: RawPicture): void {
  const whole = (n: number) => Number.isInteger(n) && n > 0
  if (!whole(width) || !whole(height) || ![1, 2, 3, 4].includes(channels)) {
    throw new RangeError(
      `Raw pixels need a whole width and height and 1 to 4 channels, not ${width}, ${height}, ${channels}.`,
    )
  }
  if (data.length !== width * height * channels) {
    throw new RangeError(
      `Raw pixels of ${width} × ${height} × ${channels} are ${width * height * channels} bytes; ${data.length} were handed in.`,
    )
  }
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

function unreadable(cause: unknown, name: string, place: { file?: string }): PictureError {
  const { file } = place
  const words = cause instanceof Error ? cause.message : String(cause)
  if (/pixel limit/i.test(words)) {
    return new PictureError(
      'picture-too-large',
      `${name} has more pixels than the limit. Shrink it, or raise \`maxPixels\` if you trust it.`,
      { place, cause },
    )
  }
  if (file !== undefined && /EACCES|permission/i.test(words)) return cannotOpen(file, cause)
  if (CUT_SHORT.test(words)) {
    return new PictureError(
      'picture-truncated',
      `${name} ends too early: part of it is missing. Copy or download it again.`,
      { place, cause },
    )
  }
  return new PictureError(
    'picture-unreadable',
    `${name} is not a picture this program can decode. JPEG, PNG, WebP, TIFF, GIF and AVIF work.`,
    { place, cause },
  )
}
