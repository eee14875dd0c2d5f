// What the page of the test runs.
import { looked, outcomeOf, type Question } from './read-there.js'

/** What the test calls on the page. */
export interface Reading {
  outcomeOf(question: Question): Promise<unknown>
  inWorker(question: Question): Promise<unknown>
  looked(file: string): ReturnType<typeof looked>
}

interface WorkerThere {
  onmessage: (event: { readonly data: unknown }) => void
  onerror: (event: { readonly message?: string }) => void
  postMessage(message: unknown): void
}
const { Worker } = globalThis as unknown as {
  Worker: new (url: string, options: { readonly type: 'module' }) => WorkerThere
}
let worker: WorkerThere | undefined

function inWorker(question: Question): Promise<unknown> {
  worker ??= new Worker('/worker.js', { type: 'module' })
  const asked = worker
  return new Promise((resolve, reject) => {
    asked.onmessage = ({ data }) => resolve(data)
    asked.onerror = ({ message }) => reject(new Error(message))
    asked.postMessage(question)
  })
}

Object.assign(globalThis, { outcomeOf, inWorker, looked } satisfies Reading)
