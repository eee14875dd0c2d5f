import { PictureError } from '../errors.js'
import { formatOf, type PictureFormat } from './picture-format.js'
import type { PictureName } from './picture-input.js'

/**
 * The decoder knows more formats than are wanted, and some of them run programs of their own or open other files. It is
 * only shown bytes that begin as one of the formats above does.
 */
export function decodedFormat(bytes: Uint8Array, picture: PictureName): PictureFormat {
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

export function noPicture({ name, place }: PictureName, cause?: unknown): PictureError {
  return new PictureError(
    'picture-unreadable',
    `${name} is not a picture that can be decoded. Hand in a ${FORMATS} file.`,
    { place, cause },
  )
}

/** Part of the file is not there. */
export function cutShort({ name, place }: PictureName, cause?: unknown): PictureError {
  return new PictureError(
    'picture-truncated',
    `${name} ends too early: part of it is missing. Copy or download it again.`,
    { place, cause },
  )
}
