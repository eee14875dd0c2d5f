import { checkOptions } from '../../check-arguments.js'
import { GridreasonError, throwIfAborted } from '../../errors.js'
import {
  type DrawnPicture,
  loadUsual,
  type PictureInput,
  type RawPicture,
} from '../../photo/decode/picture-input.js'
import { READ_CHECKS, type ReadOptions } from '../../photo/reader.js'
import type { Readings } from '../../photo/reading.js'
import { withinLimits } from '../../photo/within-limits.js'
import { errorFrom } from './photo-answer.js'
import type { JobRunner } from './pool.js'

/** A photo reader whose work is done by worker threads. */
export interface PhotoPool {
  /**
   * What `read` of a photo reader gives, and throws. The time limit counts from the call on, waiting for a thread
   * included. What is handed in is copied and stays the caller's.
   *
   * @throws GridreasonError `thread-lost` when the thread that read the picture has ended, for want of memory perhaps
   * @throws StoppedError `aborted` when the pool is closed meanwhile, too
   */
  read(picture: PictureInput, options?: ReadOptions): Promise<Readings>
  /** Ends the threads; a program with an open pool does not end by itself. */
  close(): Promise<void>
}

/** A picture as it goes to another thread, with the memory that goes along. */
export interface HandedOn {
  readonly picture: string | Uint8Array | RawPicture | DrawnPicture
  readonly transfer: readonly object[]
}

/** Bytes, blobs and raw pixels, copied; what was handed in stays the caller's. */
export async function usualHandedOn(source: PictureInput): Promise<HandedOn | undefined> {
  const loaded = await loadUsual(source)
  if (!loaded) return undefined
  if ('bytes' in loaded) {
    const bytes = new Uint8Array(loaded.bytes)
    return { picture: bytes, transfer: [bytes.buffer] }
  }
  const data = new Uint8Array(loaded.raw.data)
  return { picture: { ...loaded.raw, data }, transfer: [data.buffer] }
}

/** A photo reader on threads, whatever they are; `handedOn` says how a picture goes to one. */
export function poolOn(
  runner: JobRunner,
  handedOn: (source: PictureInput) => Promise<HandedOn>,
  maxPixels: number | undefined,
): PhotoPool {
  return {
    async read(source, options = {}) {
      checkOptions<ReadOptions>(options, READ_CHECKS)
      const { geometry, cellPictures } = options
      return withinLimits(options, async (signal) => {
        const { picture, transfer } = await handedOn(source)
        throwIfAborted(signal)
        const how = { ...(maxPixels && { maxPixels }), ...(cellPictures && { cellPictures }) }
        const job = { kind: 'photo', picture, options: how, ...(geometry && { geometry }) } as const
        const outcome = await runner.run(job, { signal, transfer })
        if (!outcome.ok) throw lost(outcome.error.message)
        if ('error' in outcome.value) throw errorFrom(outcome.value.error)
        return outcome.value.readings
      })
    },
    close: () => runner.close(),
  }
}

function lost(message: string): GridreasonError {
  return new GridreasonError(
    'thread-lost',
    `The picture was not read. ${message} Hand it in again; if that goes on, use fewer workers or a lower \`maxPixels\`.`,
  )
}
