import { open } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { argumentError } from '../../check-arguments.js'
import { throwIfAborted } from '../../errors.js'
import { PictureError } from '../errors.js'
import { isUrl, type LoadedPicture, MOST_BYTES, named, tooManyBytes } from './picture-input.js'

/**
 * A picture file by its path or its `file:` URL; undefined for anything else.
 *
 * @throws InputError `argument` when it is the address of something else
 * @throws PictureError `file-unreadable`, or `picture-too-large` past half a gibibyte
 */
export async function loadPath(
  source: unknown,
  signal: AbortSignal | undefined,
): Promise<LoadedPicture | undefined> {
  if (typeof source === 'string') return loadFile(pathOf(source), signal)
  return isUrl(source) ? loadFile(pathOfUrl(source), signal) : undefined
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

export function pathOfUrl(url: URL): string {
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

function unreadable(file: string, cause?: unknown): PictureError {
  return new PictureError(
    'file-unreadable',
    `${file} cannot be opened as a file. Check the path and that it may be read.`,
    { place: { file }, cause },
  )
}
