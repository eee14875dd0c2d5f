import type { Metadata, Sharp } from 'sharp'
import { throwIfAborted } from '../../errors.js'
import { PictureError } from '../errors.js'
import { loadSharp } from '../platform/optional-packages.js'
import { cutShort, decodedFormat, noPicture } from './accepted-format.js'
import { isCutShort } from './cut-short.js'
import { checkPixels } from './decode-picture.js'
import type { ColourImage } from './ink-channel.js'
import type { PictureFormat } from './picture-format.js'
import type { PictureName } from './picture-input.js'
import { type Decoded, LONGEST_SIDE } from './pixels.js'

/**
 * Decodes with sharp: in its own threads, and shrinking while decoding (JPEG decoders then skip most work).
 *
 * @throws PictureError `picture-format`, `picture-unreadable`, `picture-truncated`, `picture-too-large` (known from the
 *   header, before decoding); GridreasonError `package-missing` without sharp
 */
export async function decodeWithSharp(
  bytes: Uint8Array,
  picture: PictureName,
  maxPixels: number,
  signal: AbortSignal,
): Promise<Decoded> {
  const format = decodedFormat(bytes, picture)
  const sharp = await loadSharp('to decode picture files; raw pixels are read without it')
  const open = (): Sharp => sharp(bytes, { failOn: 'truncated', limitInputPixels: Math.max(maxPixels, 1) })
  let header: Metadata
  try {
    header = await open().metadata()
  } catch (cause) {
    throw isCutShort(format, bytes) ? cutShort(picture, cause) : unreadable(cause, picture)
  }
  if (!NAMES_OF_DECODER[format].includes(header.format)) throw noPicture(picture)
  checkPixels(header, picture, maxPixels)
  throwIfAborted(signal)

  const { width, height } = header.autoOrient
  const factor = Math.ceil(Math.max(width, height) / LONGEST_SIDE)
  let pipeline = open().autoOrient()
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
    return { colour, fullWidth: width, fullHeight: height }
  } catch (cause) {
    throwIfAborted(signal)
    throw unreadable(cause, picture)
  }
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
  return CUT_SHORT.test(words) ? cutShort(picture, cause) : noPicture(picture, cause)
}
