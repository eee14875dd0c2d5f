import { constants } from 'node:fs'
import { type FileHandle, open, stat } from 'node:fs/promises'
import { finished } from 'node:stream'
import { GridreasonError } from '../../errors.js'

/** Where records are written. */
export interface RecordSink {
  /** What has been written before, for a plain file alone. */
  readonly before: FileHandle | undefined
  /** Cuts off all but the first bytes. */
  cut(bytes: number): Promise<void>
  /** Writes all of it, after what is there. */
  write(text: string): Promise<void>
  close(): Promise<void>
}

/** @throws GridreasonError `output-unwritable` */
export async function openSink(out: string | NodeJS.WritableStream): Promise<RecordSink> {
  if (typeof out !== 'string') return streamSink(out)
  const isFile = await stat(out).then(
    (status) => status.isFile() || status.isDirectory(),
    () => true,
  )
  const flags = isFile ? constants.O_RDWR | constants.O_CREAT : constants.O_WRONLY
  const handle = await withOutputErrors(out, open(out, flags, 0o666))
  return fileSink(out, handle, isFile)
}

function fileSink(name: string, handle: FileHandle, isFile: boolean): RecordSink {
  let end = 0
  return {
    before: isFile ? handle : undefined,
    async cut(bytes) {
      end = bytes
      await withOutputErrors(name, handle.truncate(bytes))
    },
    async write(text) {
      const data = Buffer.from(text)
      try {
        for (let at = 0; at < data.length; ) {
          // a device has no places
          const place = isFile ? end + at : null
          at += (await handle.write(data, at, data.length - at, place)).bytesWritten
        }
        end += data.length
      } catch (cause) {
        // half a record would be mended by the next run: better it need not be
        if (isFile) await handle.truncate(end).catch(() => undefined)
        throw outputError(name, cause)
      }
    },
    close: () => withOutputErrors(name, handle.close()),
  }
}

function streamSink(stream: NodeJS.WritableStream): RecordSink {
  const name = 'The stream'
  let failure: Error | undefined
  const stop = finished(stream, { readable: false }, (error) => {
    failure = error ?? new Error('it was ended before all was written')
  })
  return {
    before: undefined,
    cut: async () => {},
    write: (text) =>
      new Promise((resolve, reject) => {
        const fail = (cause: unknown) => reject(outputError(name, cause, 'output-closed'))
        if (failure || !stream.writable) {
          fail(failure ?? new Error('it takes no more'))
          return
        }
        // a stream that is closed while it is full never answers
        const closed = () => fail(failure ?? new Error('it was closed'))
        stream.once('close', closed)
        stream.write(text, (error) => {
          stream.removeListener('close', closed)
          if (error) fail(error)
          else resolve()
        })
      }),
    close: async () => stop(),
  }
}

/** Work on a file whose failures become typed errors. */
export async function withOutputErrors<T>(name: string, work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (cause) {
    throw outputError(name, cause)
  }
}

const FULL = ['ENOSPC', 'EDQUOT', 'EFBIG']
const CLOSED = [
  'EPIPE',
  'ECONNRESET',
  'EBADF',
  'ERR_STREAM_DESTROYED',
  'ERR_STREAM_WRITE_AFTER_END',
  'ERR_STREAM_PREMATURE_CLOSE',
]

export function outputError(
  name: string,
  cause: unknown,
  usual: 'output-closed' | 'output-unwritable' = 'output-unwritable',
): GridreasonError {
  const code = (cause as NodeJS.ErrnoException | undefined)?.code ?? ''
  const why = cause instanceof Error ? cause.message : String(cause)
  if (FULL.includes(code))
    return new GridreasonError(
      'output-full',
      `${name} cannot be written further: the disk is full (${why}). Make room and run again; it goes on where it stopped.`,
      { cause },
    )
  if (CLOSED.includes(code) || usual === 'output-closed')
    return new GridreasonError(
      'output-closed',
      `${name} was closed before all records were written (${why}). Write into a file to be able to go on where it stopped.`,
      { cause },
    )
  return new GridreasonError(
    'output-unwritable',
    `${name} cannot be written (${why}). Check the name and the permissions.`,
    { cause },
  )
}
