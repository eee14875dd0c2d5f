import { Readable } from 'node:stream'
import { createGunzip } from 'node:zlib'

export type Chunk = string | Uint8Array

/** Text or bytes whose beginning was looked at: what gzip had packed comes out unpacked. */
export interface Opened {
  /** The first bytes, unpacked. */
  readonly head: Uint8Array
  readonly chunks: AsyncIterable<Chunk>
  /** Lets go of the source, where its chunks are not read. */
  close(): Promise<void>
}

const GZIP = [0x1f, 0x8b]

/** Bytes that distinguish pictures and other files from text. */
const HEAD = 4096

export async function openChunks(source: AsyncIterable<Chunk> | Iterable<Chunk>): Promise<Opened> {
  const outer = await peeked(source)
  if (!GZIP.every((byte, i) => outer.head[i] === byte)) return outer
  return peeked(unpacked(outer.chunks))
}

/** @throws Error of zlib for data that is damaged or cut short */
async function* unpacked(chunks: AsyncIterable<Chunk>): AsyncGenerator<Uint8Array> {
  const source = Readable.from(chunks, { objectMode: false })
  const gunzip = createGunzip()
  source.on('error', (error) => gunzip.destroy(error))
  try {
    yield* source.pipe(gunzip) as AsyncIterable<Uint8Array>
  } finally {
    source.destroy()
    gunzip.destroy()
  }
}

async function peeked(source: AsyncIterable<Chunk> | Iterable<Chunk>): Promise<Opened> {
  const iterator = Symbol.asyncIterator in source ? source[Symbol.asyncIterator]() : source[Symbol.iterator]()
  const first: Chunk[] = []
  let size = 0
  let isOver = false
  while (size < HEAD && !isOver) {
    const next = await iterator.next()
    if (next.done) isOver = true
    else {
      first.push(next.value)
      size += next.value.length
    }
    // lines that are typed in are worth grading before the next are there
    if (size > 0 && lastOf(first) === NEWLINE) break
  }
  const close = async () => void (await iterator.return?.())
  return {
    head: Buffer.concat(first.map((chunk) => (typeof chunk === 'string' ? Buffer.from(chunk) : chunk))),
    close,
    chunks: (async function* () {
      try {
        yield* first
        for (;;) {
          const next = isOver ? { done: true as const } : await iterator.next()
          if (next.done) {
            isOver = true
            return
          }
          yield next.value
        }
      } finally {
        if (!isOver) await close()
      }
    })(),
  }
}

const NEWLINE = 10

function lastOf(chunks: readonly Chunk[]): number | undefined {
  const last = chunks.at(-1)!
  return typeof last === 'string' ? last.charCodeAt(last.length - 1) : last.at(-1)
}
