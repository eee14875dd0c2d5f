import type { OtherFormat, PictureFormat } from './picture-format.js'

/**
 * Is the end of a JPEG or PNG file missing? For decoders that draw what there is of it. Within the pixels of a JPEG no
 * mark can stand, so that the mark of its end comes after that of its last scan; thumbnails have both before.
 */
export function isCutShort(format: PictureFormat | OtherFormat | undefined, bytes: Uint8Array): boolean {
  if (format === 'jpeg') return lastMark(bytes, 0xff, 0xd9) < lastMark(bytes, 0xff, 0xda)
  if (format === 'png') return lastMark(bytes, 0x49, 0x45, 0x4e, 0x44) < 0
  return false
}

function lastMark(bytes: Uint8Array, ...mark: readonly number[]): number {
  for (let at = bytes.length - mark.length; at >= 0; at--)
    if (mark.every((byte, i) => bytes[at + i] === byte)) return at
  return -1
}
