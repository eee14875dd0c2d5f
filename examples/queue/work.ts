/**
 * A worker: takes files from the queue and grades each into a file of records of its own. A job that comes again, since
 * the worker that had it was killed, goes on where that one stopped. Started by `grade-under-a-queue.ts`; on other
 * machines start it with the address of a Redis server that all of them see, on a disk that all of them share.
 *
 *     npx tsx examples/queue/work.ts SOCKET
 */
import { Worker } from 'bullmq'
import { writeGrades } from '../../src/batch.js'
import { type FileJob, QUEUE, SILENCE } from './jobs.js'

const [path] = process.argv.slice(2)
const worker = new Worker<FileJob>(
  QUEUE,
  async ({ data: { file, root, out } }) => {
    await writeGrades(file, out, { root, workers: 0 })
  },
  {
    connection: { path: path!, maxRetriesPerRequest: null },
    lockDuration: SILENCE,
    stalledInterval: SILENCE,
    maxStalledCount: 10,
  },
)
process.on('SIGTERM', () => void worker.close().then(() => process.exit(0)))
