import { type JobRunner, Pool, type StartThread, type ToPool, type ToWorker } from './pool.js'

/** The parts of a web worker that are used; their types come with the DOM. */
interface WebWorker {
  onmessage: (event: { readonly data: ToPool }) => void
  onerror: (event: { readonly message?: string; preventDefault(): void }) => void
  postMessage(message: ToWorker, transfer: readonly object[]): void
  terminate(): void
}
// by its bare name, since bundlers find workers by `new Worker(new URL(…))`
declare const Worker: new (file: string | URL, options: { readonly type: 'module' }) => WebWorker

/** A pool of web workers, or `undefined` where none can be started. */
export async function openWebPool(size: number, file?: string | URL): Promise<JobRunner | undefined> {
  if (typeof Worker === 'undefined') return undefined
  const pool = new Pool(size, starts(file))
  try {
    await pool.open()
    return pool
  } catch {
    await pool.close()
    return undefined
  }
}

function starts(file: string | URL | undefined): StartThread {
  return ({ message, lost }) => {
    const worker =
      file === undefined
        ? new Worker(new URL('./web-worker.js', import.meta.url), { type: 'module' })
        : new Worker(file, { type: 'module' })
    worker.onmessage = ({ data }) => message(data)
    worker.onerror = (event) => {
      event.preventDefault()
      worker.terminate()
      lost(new Error(event.message ?? 'the worker could not be started'))
    }
    return {
      post: (said, transfer) => worker.postMessage(said, transfer),
      end: async () => worker.terminate(),
    }
  }
}
