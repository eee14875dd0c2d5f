import { open } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { argumentError } from '../../check-arguments.js'
import { throwIfAborted } from '../../errors.js'
import { PictureError } from '../errors.js'

/** Pixels that a program already holds: `channels` bytes each (1 grey, 2 grey + alpha, 3 RGB, 4 RGBA), row by row. */
export interface RawPicture {
  readonly width: number
  readonly height: number
  readonly channels: 1 | 2 | 3 | 4
  readonly data: Uint8Array | Uint8ClampedArray
}

/** A picture file by its path or its `file:` URL, its bytes in any form, or raw pixels. */
export type PictureInput = string | URL | Uint8Array | ArrayBuffer | Blob | RawPicture

/** What was handed in, as messages and errors call it. */
export interface PictureName {
  /** `The picture page.jpg`, or `The picture` where it has no name. */
  readonly name: string
  readonly place: { readonly file?: string }
}

/** A picture ready to be decoded. */
export type LoadedPicture = PictureName & ({ readonly raw: RawPicture } | { readonly bytes: Uint8Array })

/** Files with more bytes than this are no picture of a page. */
const MOST_BYTES = 512 * 2 ** 20

const EXPECTED =
  'a path, a file: URL, a Uint8Array or ArrayBuffer with the bytes of a picture file, a Blob or File, or { width, height, channels, data } with raw pixels'

/**
 * Takes what a caller handed in, reading files and blobs into memory.
 *
 * @throws InputError `argument` when it is nothing of what a picture can be
 * @throws PictureError `file-unreadable`, or `picture-too-large` past half a gibibyte
 */
export async function loadPicture(source: PictureInput, signal?: AbortSignal): Promise<LoadedPicture> {
  throwIfAborted(signal)
  if (typeof source === 'string') return loadFile(pathOf(source), signal)
  if (isUrl(source)) return loadFile(pathOfUrl(source), signal)
  if (isBytes(source)) return { ...NAMELESS, bytes: source }
  if (isBuffer(source)) return { ...NAMELESS, bytes: new Uint8Array(source) }
  if (isBlob(source)) return loadBlob(source)
  if (isRaw(source)) return { ...NAMELESS, raw: checkedRaw(source) }
  throw argumentError('picture', EXPECTED, source)
}

const NAMELESS: PictureName = { name: 'The picture', place: {} }

function named(file: string): PictureName {
  return { name: `The picture ${file}`, place: { file } }
}

function pathOf(text: string): string {
  if (text === '' || text.includes('\0')) throw argumentError('picture', 'the path of a picture file', text)
  const scheme = /^(https?|data|blob|file):/i.exec(text)?.[1]?.toLowerCase()
  if (scheme === undefined) return text
  const advice =
    scheme === 'file'
      ? 'Hand in `new URL(…)` or the path alone.'
      : 'Fetch it first, and hand in the bytes that come.'
  throw argumentError('picture', 'the path of a picture file', text, advice)
}

function pathOfUrl(url: URL): string {
  try {
    return fileURLToPath(url)
  } catch {
    throw argumentError(
      'picture',
      'a URL of a file on this machine',
      String(url),
      'Fetch others first, and hand in the bytes.',
    )
  }
}

async function loadFile(file: string, signal: AbortSignal | undefined): Promise<LoadedPicture> {
  const what = named(file)
  try {
    const handle = await open(file)
    try {
      const found = await handle.stat()
      // a folder, or a pipe or device, which may never end
      if (!found.isFile()) throw unreadable(file)
      if (found.size > MOST_BYTES) throw tooManyBytes(what, found.size)
      return { ...what, bytes: await handle.readFile(signal ? { signal } : {}) }
    } finally {
      await handle.close()
    }
  } catch (cause) {
    throwIfAborted(signal)
    throw cause instanceof PictureError ? cause : unreadable(file, cause)
  }
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

function unreadable(file: string, cause?: unknown): PictureError {
  return new PictureError(
    'file-unreadable',
    `${file} cannot be opened as a file. Check the path and that it may be read.`,
    { place: { file }, cause },
  )
}

function tooManyBytes({ name, place }: PictureName, size: number): PictureError {
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

function isUrl(value: unknown): value is URL {
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

function checkedRaw(raw: RawPicture): RawPicture {
  const { width, height, channels, data } = raw
  const whole = (n: unknown) => Number.isInteger(n) && (n as number) > 0
  if (!whole(width)) throw argumentError('picture.width', 'a whole number of pixels from 1', width)
  if (!whole(height)) throw argumentError('picture.height', 'a whole number of pixels from 1', height)
  if (![1, 2, 3, 4].includes(channels)) throw argumentError('picture.channels', '1, 2, 3 or 4', channels)
  if (!isBytes(data) && tagOf(data) !== '[object Uint8ClampedArray]') {
    throw argumentError('picture.data', 'a Uint8Array or Uint8ClampedArray', data)
  }
  const size = width * height * channels
  if (data.length !== size) {
    throw argumentError(
      'picture.data',
      `${size} bytes for ${width} × ${height} pixels of ${channels}`,
      `${data.length}`,
    )
  }
  return raw
}
