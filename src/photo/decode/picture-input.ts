import { argumentError } from '../../check-arguments.js'
import { PictureError } from '../errors.js'

/**
 * Pixels that a program already holds, row by row, such as an `ImageData`: `channels` bytes each (1 grey, 2 grey +
 * alpha, 3 RGB, 4 RGBA), which their number tells where it is left out.
 */
export interface RawPicture {
  readonly width: number
  readonly height: number
  readonly channels?: 1 | 2 | 3 | 4
  readonly data: Uint8Array | Uint8ClampedArray
}

/** What a browser draws: an `ImageBitmap`, a canvas, an image, a frame of a video. In browsers only. */
export type DrawnPicture = ClosablePicture | CanvasPicture | ImagePicture | VideoPicture

// By their parts, so that programs without a browser need none of its types.
/** An `ImageBitmap` or a video frame, by the parts that are used. */
export interface ClosablePicture {
  readonly width: number
  readonly height: number
  /** As `ImageBitmap` has it. */
  close(): void
}
/** A canvas, by the parts that are used. */
export interface CanvasPicture {
  readonly width: number
  readonly height: number
  /** As canvases have it. */
  getContext(name: '2d'): unknown
}
/** An image element, by the parts that are used. */
export interface ImagePicture {
  readonly naturalWidth: number
  readonly naturalHeight: number
}
/** A video element, by the parts that are used. */
export interface VideoPicture {
  readonly videoWidth: number
  readonly videoHeight: number
}

/**
 * A picture: the bytes of a file in any form, or raw pixels; in Node also a file by its path or its `file:` URL, in
 * browsers what is drawn there.
 */
export type PictureInput = string | URL | Uint8Array | ArrayBuffer | Blob | RawPicture | DrawnPicture

/** What was handed in, as messages and errors call it. */
export interface PictureName {
  /** `The picture page.jpg`, or `The picture` where it has no name. */
  readonly name: string
  readonly place: { readonly file?: string }
}

/** A picture ready to be decoded. */
export type LoadedPicture = PictureName & ({ readonly raw: CountedPicture } | { readonly bytes: Uint8Array })

/** Raw pixels of which it is known how many bytes each has. */
export type CountedPicture = RawPicture & { readonly channels: 1 | 2 | 3 | 4 }

/** Files with more bytes than this are no picture of a page. */
export const MOST_BYTES = 512 * 2 ** 20

/** What is said of anything else; `also` is what else the platform takes. */
export const expectedPicture = (also: string): string =>
  `${also}, a Uint8Array or ArrayBuffer with the bytes of a picture file, a Blob or File, or { width, height, data } with raw pixels`

/**
 * Takes what a caller handed in, where it is something that every platform has, reading blobs into memory.
 *
 * @throws InputError `argument` for raw pixels that do not fit their size
 * @throws PictureError `file-unreadable`, or `picture-too-large` past half a gibibyte
 */
export async function loadUsual(source: unknown): Promise<LoadedPicture | undefined> {
  if (isBytes(source)) return { ...NAMELESS, bytes: source }
  if (isBuffer(source)) return { ...NAMELESS, bytes: new Uint8Array(source) }
  if (isBlob(source)) return loadBlob(source)
  if (isRaw(source)) return { ...NAMELESS, raw: checkedRaw(source) }
  return undefined
}

export const NAMELESS: PictureName = { name: 'The picture', place: {} }

export function named(file: string): PictureName {
  return { name: `The picture ${file}`, place: { file } }
}

async function loadBlob(blob: Blob): Promise<LoadedPicture> {
  const { name } = blob as Partial<File>
  const what = typeof name === 'string' && name !== '' ? named(name) : NAMELESS
  if (blob.size > MOST_BYTES) throw tooManyBytes(what, blob.size)
  try {
    return { ...what, bytes: new Uint8Array(await blob.arrayBuffer()) }
  } catch (cause) {
    throw new PictureError('file-unreadable', `${what.name} could not be read to its end. Hand it in anew.`, {
      place: what.place,
      cause,
    })
  }
}

export function tooManyBytes({ name, place }: PictureName, size: number): PictureError {
  return new PictureError(
    'picture-too-large',
    `${name} has ${size} bytes, more than any picture of a page needs. Save it as a JPEG.`,
    { place },
  )
}

// By their parts and tags and not by `instanceof`, since values come from other realms, too.

function tagOf(value: unknown): string {
  return Object.prototype.toString.call(value)
}

export function isUrl(value: unknown): value is URL {
  return tagOf(value) === '[object URL]'
}

function isBytes(value: unknown): value is Uint8Array {
  return ArrayBuffer.isView(value) && tagOf(value) === '[object Uint8Array]'
}

function isBuffer(value: unknown): value is ArrayBuffer {
  return tagOf(value) === '[object ArrayBuffer]'
}

function isBlob(value: unknown): value is Blob {
  return (
    ['[object Blob]', '[object File]'].includes(tagOf(value)) &&
    typeof (value as Blob).arrayBuffer === 'function'
  )
}

function isRaw(value: unknown): value is RawPicture {
  return (
    typeof value === 'object' && value !== null && 'width' in value && 'height' in value && 'data' in value
  )
}

function checkedRaw(raw: RawPicture): CountedPicture {
  const { width, height, data } = raw
  const whole = (n: unknown) => Number.isInteger(n) && (n as number) > 0
  if (!whole(width)) throw argumentError('picture.width', 'a whole number of pixels from 1', width)
  if (!whole(height)) throw argumentError('picture.height', 'a whole number of pixels from 1', height)
  if (!isBytes(data) && tagOf(data) !== '[object Uint8ClampedArray]') {
    throw argumentError('picture.data', 'a Uint8Array or Uint8ClampedArray', data)
  }
  const channels = raw.channels ?? ((data.length / (width * height)) as CountedPicture['channels'])
  if (raw.channels !== undefined && ![1, 2, 3, 4].includes(channels))
    throw argumentError('picture.channels', '1, 2, 3 or 4', channels)
  if (![1, 2, 3, 4].includes(channels) || data.length !== width * height * channels) {
    const each = raw.channels ?? '1, 2, 3 or 4'
    throw argumentError(
      'picture.data',
      `${each} bytes for each of ${width} × ${height} pixels`,
      `${data.length}`,
    )
  }
  return { width, height, channels, data }
}
