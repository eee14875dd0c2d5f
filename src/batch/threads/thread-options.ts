import { argumentError, type OptionChecks, whole } from '../../check-arguments.js'

/** How many threads there are, and where they find what they run. */
export interface ThreadOptions {
  /** Worker threads; one for each core when left out, 0 to work in this thread. */
  readonly workers?: number
  /**
   * Where the file `batch-worker.js` of this package lies, for builds that move it; found next to this one if left out.
   */
  readonly workerFile?: string | URL
}

/** More threads than any machine has cores for would only fill its memory. */
const MOST_WORKERS = 1024

export const THREAD_CHECKS: OptionChecks<ThreadOptions> = {
  workers: whole(0, MOST_WORKERS),
  workerFile: (value, name) => {
    if (typeof value !== 'string' && !(value instanceof URL))
      throw argumentError(name, 'a path or a URL', value)
  },
}
