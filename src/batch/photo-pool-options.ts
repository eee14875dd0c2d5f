import { amount, type OptionChecks } from '../check-arguments.js'
import type { PhotoReaderOptions } from '../photo/reader.js'
import { THREAD_CHECKS, type ThreadOptions } from './threads/thread-options.js'

/** How many threads a pool has, and what they may take. */
export interface PhotoPoolOptions extends ThreadOptions, Pick<PhotoReaderOptions, 'maxPixels'> {}

export const POOL_CHECKS: OptionChecks<PhotoPoolOptions> = { ...THREAD_CHECKS, maxPixels: amount(1) }
