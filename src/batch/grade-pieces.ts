import { argumentError } from '../check-arguments.js'
import { InputError, throwIfAborted } from '../errors.js'
import type { Geometry } from '../grid/geometry.js'
import { foreignKind } from '../grid/text/foreign.js'
import { readPuzzles } from '../grid/text/stream.js'
import { formatPuzzle } from '../grid/text/write.js'
import { formatOf } from '../photo/decode/picture-format.js'
import { batchError } from './batch-error.js'
import type { Todo } from './batch-run.js'
import { type About, aboutPuzzle } from './input/about.js'
import { LinePlaces } from './input/line-places.js'
import { type FilePlace, type FoundFile, unreadable } from './input/list-files.js'
import { readBytes } from './input/read-bytes.js'
import type { Skipped } from './input/skipped.js'
import { type Chunk, type Opened, openChunks } from './input/unpack.js'
import type { PuzzleOptions } from './records/graded-puzzle.js'
import type { Job, JobReadOptions } from './threads/jobs.js'

export type GradeJob = Extract<Job, { kind: 'grade' | 'grade-picture' }>

/** Where a piece comes from and what is known of it before it is graded. */
export interface GradePlace extends FilePlace {
  /** Its number in the run, from 1. */
  readonly piece: number
  readonly bytes: number
  readonly line?: number
  readonly about?: About
  readonly puzzle?: string
  readonly geometry?: Geometry
  readonly skipped?: Skipped
}

export type GradePiece = GradePlace & Todo<GradeJob>

/** How pieces are read and graded. */
export interface PieceQuery {
  readonly geometry: Geometry | undefined
  readonly grading: PuzzleOptions
  readonly reading: JobReadOptions
  readonly signal: AbortSignal | undefined
}

/** A piece before it has its number. */
type Unnumbered = DistributiveOmit<GradePiece, 'piece'>
type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never

/** Every grid and picture of the files, and what is none, numbered as they come. */
export async function* filePieces(
  files: AsyncIterable<FoundFile>,
  query: PieceQuery,
): AsyncGenerator<GradePiece> {
  let piece = 0
  let bytes = 0
  for await (const found of files) {
    for await (const part of fileParts(found, bytes, query)) yield { ...part, piece: ++piece }
    if ('size' in found) bytes += found.size ?? 0
  }
}

async function* fileParts(found: FoundFile, start: number, query: PieceQuery): AsyncGenerator<Unnumbered> {
  const { file, path } = found
  const place = { file, path, bytes: start }
  if ('error' in found) {
    yield { ...place, known: { ok: false, error: batchError(found.error) } }
    return
  }
  if ('skipped' in found) {
    yield { ...place, skipped: found.skipped, known: 'skipped' }
    return
  }
  let read = 0
  const counted = (async function* () {
    for await (const chunk of readBytes(file, query.signal)) {
      read += chunk.length
      yield chunk
    }
  })()
  try {
    const opened = await openChunks(counted)
    if (found.size !== undefined && isPicture(opened.head)) {
      await opened.close()
      const { reading, grading, geometry } = query
      yield {
        ...place,
        bytes: start + found.size,
        job: {
          kind: 'grade-picture',
          picture: file,
          options: reading,
          gradeOptions: grading,
          ...(geometry && { geometry }),
        },
      }
    } else yield* openedParts(opened, place, () => start + read, query)
  } catch (cause) {
    throwIfAborted(query.signal)
    yield { ...place, bytes: start + read, known: { ok: false, error: batchError(unreadable(file, cause)) } }
  }
}

/** The pieces of one stream of text, or of the bytes of one picture. */
export async function* streamPieces(
  chunks: AsyncIterable<Chunk> | Iterable<Chunk>,
  name: string,
  query: PieceQuery,
): AsyncGenerator<GradePiece> {
  let read = 0
  const counted = (async function* () {
    for await (const chunk of chunks) {
      if (typeof chunk !== 'string' && !(chunk instanceof Uint8Array))
        throw argumentError('chunks', 'text in strings or in bytes (Uint8Array)', chunk)
      read += chunk.length
      yield chunk
    }
  })()
  const place = { file: name, path: name, bytes: 0 }
  let piece = 0
  try {
    const opened = await openChunks(counted)
    for await (const part of openedParts(opened, place, () => read, query)) yield { ...part, piece: ++piece }
  } catch (cause) {
    throwIfAborted(query.signal)
    if (cause instanceof InputError) throw cause
    yield {
      ...place,
      piece: ++piece,
      bytes: read,
      known: { ok: false, error: batchError(unreadable(name, cause)) },
    }
  }
}

async function* openedParts(
  opened: Opened,
  place: FilePlace & { readonly bytes: number },
  bytes: () => number,
  query: PieceQuery,
): AsyncGenerator<Unnumbered> {
  const { geometry, reading, grading } = query
  if (isPicture(opened.head)) {
    const picture = await allBytes(opened.chunks)
    const job = { kind: 'grade-picture', picture, options: reading, gradeOptions: grading } as const
    yield { ...place, bytes: bytes(), job: { ...job, ...(geometry && { geometry }) } }
    return
  }
  const other = otherFormat(opened.head)
  if (other !== undefined) {
    await opened.close()
    yield { ...place, bytes: bytes(), skipped: { because: 'format', message: other }, known: 'skipped' }
    return
  }
  yield* textParts(opened, place, bytes, query)
}

async function* textParts(
  { chunks }: Opened,
  place: FilePlace & { readonly bytes: number },
  bytes: () => number,
  { geometry, grading, signal }: PieceQuery,
): AsyncGenerator<Unnumbered> {
  const places = new LinePlaces(place.bytes, bytes)
  const how = { ...(geometry && { geometry }), ...(signal && { signal }) }
  let isEmpty = true
  for await (const entry of readPuzzles(places.watch(chunks), how)) {
    isEmpty = false
    const { line, title, comments } = entry
    const about = aboutPuzzle(title, comments)
    const here = { ...place, bytes: places.before(line), line, about }
    if (!entry.ok) yield { ...here, known: { ok: false, error: batchError(entry.error) } }
    else {
      const { puzzle } = entry
      yield {
        ...here,
        puzzle: formatPuzzle(puzzle, { geometryLine: false }),
        geometry: puzzle.geometry,
        job: { kind: 'grade', puzzle, options: grading },
      }
    }
  }
  if (isEmpty) {
    const skipped = { because: 'empty', message: 'There is no grid in it.' } as const
    yield { ...place, bytes: bytes(), skipped, known: 'skipped' }
  }
}

function isPicture(head: Uint8Array): boolean {
  return typeof formatOf(head) === 'string'
}

/** What a file is that is neither a picture nor text, and what to do with it; undefined for text. */
function otherFormat(head: Uint8Array): string | undefined {
  // `P1` is a heading as well as the mark of a picture: what looks like text is text
  const kind = foreignKind(new TextDecoder().decode(head))
  if (kind === undefined || kind === TEXT_OF_ANOTHER_ENCODING) return undefined
  const format = formatOf(head)
  return format === undefined || typeof format === 'string'
    ? `It is ${kind}, which is neither text nor a picture that can be read.`
    : `It is ${format.name}. ${format.advice}`
}

/** Said by the reader of text, with what to do. */
const TEXT_OF_ANOTHER_ENCODING = 'text in UTF-16'

/** Pictures that come packed or through a pipe must fit into memory. */
const MOST_BYTES = 512 * 2 ** 20

async function allBytes(chunks: AsyncIterable<Chunk>): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  let size = 0
  for await (const chunk of chunks) {
    parts.push(typeof chunk === 'string' ? Buffer.from(chunk) : chunk)
    size += parts.at(-1)!.length
    if (size > MOST_BYTES) throw new Error(`it is a picture of more than ${MOST_BYTES} bytes`)
  }
  return new Uint8Array(Buffer.concat(parts))
}
