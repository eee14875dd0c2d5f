/**
 * What a web worker runs: photos come in as messages, one after another, and readings go back with the job's number.
 */
import { createPhotoReader } from '../../photo/browser.js'
import type { PhotoReader } from '../../photo/reader.js'
import type { Job } from './jobs.js'
import { photoAnswer } from './photo-answer.js'
import type { ToPool, ToWorker } from './pool.js'

/** The parts of a worker that are used; their types come with the DOM. */
interface Scope {
  onmessage: (event: { readonly data: ToWorker }) => void
  postMessage(message: ToPool): void
}

const scope = globalThis as unknown as Scope
const stops = new Map<number, AbortController>()
const readers = new Map<number | undefined, Promise<PhotoReader>>()
let before: Promise<void> = Promise.resolve()

scope.onmessage = ({ data }) => {
  if ('stop' in data) {
    stops.get(data.stop)?.abort()
    return
  }
  const { id, job } = data
  const stop = new AbortController()
  stops.set(id, stop)
  before = before.then(async () => {
    scope.postMessage({ id, outcome: { ok: true, value: await photoAnswer(read(job, stop.signal)) } })
    stops.delete(id)
  })
}
// Said once everything is loaded: only then does the pool hand out work.
scope.postMessage('ready')

async function read(job: Job, signal: AbortSignal) {
  if (job.kind !== 'photo') throw new Error(`A web worker has no jobs of kind ${job.kind}.`)
  const { picture, options, geometry } = job
  const { maxPixels, cellPictures } = options
  let reader = readers.get(maxPixels)
  if (!reader) {
    reader = createPhotoReader(maxPixels === undefined ? {} : { maxPixels })
    readers.set(maxPixels, reader)
  }
  return (await reader).read(picture, {
    signal,
    ...(cellPictures && { cellPictures }),
    ...(geometry && { geometry }),
  })
}
