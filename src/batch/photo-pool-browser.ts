import { argumentError, checkOptions } from '../check-arguments.js'
import { createPhotoReader } from '../photo/browser.js'
import { expectedPicture, type PictureInput } from '../photo/decode/picture-input.js'
import { type PhotoPoolOptions, POOL_CHECKS } from './photo-pool-options.js'
import { type HandedOn, type PhotoPool, poolOn, usualHandedOn } from './threads/pool-reader.js'
import { openWebPool } from './threads/web-pool.js'

/** The parts of a browser that are used; their types come with the DOM. */
interface Browser {
  readonly navigator?: { readonly hardwareConcurrency?: number }
  createImageBitmap(source: unknown): Promise<object>
}

const browser = globalThis as unknown as Browser

// What `photo-pool.ts` has, and says more of, for browsers.
export async function createPhotoPool(options: PhotoPoolOptions = {}): Promise<PhotoPool> {
  checkOptions<PhotoPoolOptions>(options, POOL_CHECKS)
  const { workers = browser.navigator?.hardwareConcurrency ?? 1, workerFile, maxPixels } = options
  const runner = workers === 0 ? undefined : await openWebPool(workers, workerFile)
  if (runner) return poolOn(runner, handedOn, maxPixels)
  return createPhotoReader(maxPixels === undefined ? {} : { maxPixels })
}

/** What a browser draws goes along as a bitmap, which costs no copy of its pixels. */
async function handedOn(source: PictureInput): Promise<HandedOn> {
  const usual = await usualHandedOn(source)
  if (usual) return usual
  try {
    const bitmap = await browser.createImageBitmap(source)
    return { picture: bitmap as ImageBitmapLike, transfer: [bitmap] }
  } catch {
    const expected = expectedPicture('an ImageBitmap, a canvas, an image, a video')
    throw argumentError('picture', expected, source)
  }
}

type ImageBitmapLike = Extract<HandedOn['picture'], { close(): void }>
