import { argumentError, checkOptions } from '../check-arguments.js'
import { pathOfUrl } from '../photo/decode/picture-file.js'
import { expectedPicture, isUrl, type PictureInput } from '../photo/decode/picture-input.js'
import { openRunner } from './batch-options.js'
import { type PhotoPoolOptions, POOL_CHECKS } from './photo-pool-options.js'
import { type HandedOn, type PhotoPool, poolOn, usualHandedOn } from './threads/pool-reader.js'

/**
 * Reads pictures on all cores, for servers: the thread that calls it is only in the way of others while bytes are
 * copied. Threads start when there is work for them, and each keeps its networks.
 *
 * ```ts
 * const pool = await createPhotoPool({ workers: 4 })
 * const { readings } = await pool.read(upload, { timeLimit: 10_000, signal: request.signal })
 * ```
 *
 * Where threads cannot be started (a bundle without `batch-worker.js`, `workers: 0`), this thread reads one picture
 * after another. In browsers the threads are web workers; bundlers that do not find the worker of the package by
 * themselves take `gridreason/photo-worker` as an entry of its own, and `workerFile` says where it is served.
 */
export async function createPhotoPool(options: PhotoPoolOptions = {}): Promise<PhotoPool> {
  checkOptions<PhotoPoolOptions>(options, POOL_CHECKS)
  const { maxPixels, ...batch } = options
  return poolOn(await openRunner(batch), handedOn, maxPixels)
}

async function handedOn(source: PictureInput): Promise<HandedOn> {
  if (typeof source === 'string') return { picture: source, transfer: [] }
  if (isUrl(source)) return { picture: pathOfUrl(source), transfer: [] }
  const usual = await usualHandedOn(source)
  if (!usual) throw argumentError('picture', expectedPicture('a path, a file: URL'), source)
  return usual
}
