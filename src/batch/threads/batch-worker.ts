/**
 * What a worker thread runs: jobs come in as messages, one after another, and outcomes go back with the job's number.
 */
import { parentPort } from 'node:worker_threads'
import type { Geometry } from '../../grid/geometry.js'
import { makePuzzle } from '../../grid/puzzle.js'
import { type Job, runJob } from './jobs.js'
import type { ToPool, ToWorker } from './pool.js'

/** Geometries by their keys, so that a copy that comes with every job is looked at once. */
const geometries = new Map<string, Geometry>()

function withKnownGeometry(job: Job): Job {
  if (job.kind !== 'grade') return job
  const { geometry } = job.puzzle
  const known = geometries.get(geometry.key)
  if (!known) geometries.set(geometry.key, geometry)
  return known ? { ...job, puzzle: makePuzzle(job.puzzle.givens, known) } : job
}

const port = parentPort
if (port) {
  const stops = new Map<number, AbortController>()
  const say = (message: ToPool) => port.postMessage(message)
  // One job at a time: a thread has nothing to gain from being in the middle of two.
  let before: Promise<void> = Promise.resolve()
  port.on('message', (message: ToWorker) => {
    if ('stop' in message) {
      stops.get(message.stop)?.abort()
      return
    }
    const { id, job } = message
    const stop = new AbortController()
    stops.set(id, stop)
    before = before.then(async () => {
      const outcome = await runJob(withKnownGeometry(job), stop.signal)
      stops.delete(id)
      say({ id, outcome })
    })
  })
  // Sent once everything is loaded: only then does the pool hand out work.
  say('ready')
}
