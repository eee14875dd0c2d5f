// What the page of the pool's test runs.
import { createPhotoPool } from '../../src/batch-browser.js'

/** What came of a picture: givens and status, or the class and code of the error. */
export type PoolAnswer =
  | { readonly grids: readonly { readonly status: string; readonly givens: readonly number[] }[] }
  | { readonly name: string; readonly code: string }

export interface PoolPage {
  /** Reads files at once, as `how` they are handed in; the longest stall of the page comes along. */
  readAll(
    files: readonly string[],
    how: { readonly as: 'blob' | 'bitmap'; readonly workerFile?: string; readonly timeLimit?: number },
  ): Promise<{ readonly answers: readonly PoolAnswer[]; readonly stall: number }>
  /** Gives up a picture right after it was handed in, and reads it again. */
  abortOne(file: string): Promise<readonly PoolAnswer[]>
}

const { createImageBitmap } = globalThis as unknown as {
  createImageBitmap(blob: Blob, options: object): Promise<{ width: number; height: number; close(): void }>
}

async function answer(
  reading: ReturnType<Awaited<ReturnType<typeof createPhotoPool>>['read']>,
): Promise<PoolAnswer> {
  try {
    const { readings } = await reading
    return { grids: readings.map(({ status, puzzle }) => ({ status, givens: puzzle.givens })) }
  } catch (error) {
    const { name, code } = error as { readonly name: string; readonly code: string }
    return { name, code }
  }
}

const there: PoolPage = {
  async readAll(files, { as, workerFile = '/web-worker.js', timeLimit }) {
    const blobs = await Promise.all(files.map(async (file) => (await fetch(file)).blob()))
    const pool = await createPhotoPool({ workers: 2, workerFile })
    let [stall, last] = [0, performance.now()]
    const clock = setInterval(() => {
      const now = performance.now()
      stall = Math.max(stall, now - last)
      last = now
    }, 1)
    const pictures =
      as === 'blob'
        ? blobs
        : await Promise.all(blobs.map((blob) => createImageBitmap(blob, { imageOrientation: 'from-image' })))
    stall = 0
    const limits = timeLimit === undefined ? {} : { timeLimit }
    const answers = await Promise.all(pictures.map((picture) => answer(pool.read(picture, limits))))
    clearInterval(clock)
    await pool.close()
    return { answers, stall }
  },
  async abortOne(file) {
    const blob = await (await fetch(file)).blob()
    const pool = await createPhotoPool({ workers: 1, workerFile: '/web-worker.js' })
    const given = new AbortController()
    const first = answer(pool.read(blob, { signal: given.signal }))
    setTimeout(() => given.abort(), 20)
    const answers = [await first, await answer(pool.read(blob))]
    await pool.close()
    return answers
  },
}
Object.assign(globalThis, there)
