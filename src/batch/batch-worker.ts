/** What a worker thread runs: jobs come in as messages, outcomes go back with the job's number. */
import { parentPort } from 'node:worker_threads'
import { type Job, runJob } from './jobs.js'

const port = parentPort
if (port) {
  port.on('message', async ({ id, job }: { id: number; job: Job }) => {
    port.postMessage({ id, outcome: await runJob(job) })
  })
  // Told once everything is loaded: only then does the pool hand out work.
  port.postMessage('ready')
}
