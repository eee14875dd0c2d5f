/**
 * Grade a folder on several machines, or here in two processes, under a queue: each file is a job, each job writes a
 * file of records that it can go on with, and the files are merged at the end. One worker is killed in the middle;
 * nothing is lost or written twice. Needs redis-server (Debian: `apt-get install redis-server`).
 *
 *     npx tsx examples/queue/grade-under-a-queue.ts [folder [output]]
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Queue } from 'bullmq'
import { mergeGrades } from '../../src/batch.js'
import { type FileJob, QUEUE } from './jobs.js'
import { startRedis } from './redis.js'

const examples = fileURLToPath(new URL('..', import.meta.url))
const [root = join(examples, 'archive'), output = join(examples, '../out/queue.jsonl')] =
  process.argv.slice(2)
const parts = `${output}.parts`
rmSync(parts, { recursive: true, force: true })
mkdirSync(parts, { recursive: true })

const files = readdirSync(root, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => join(entry.parentPath, entry.name))
const jobs = files.map((file): FileJob => {
  const name = createHash('sha256').update(file).digest('hex').slice(0, 16)
  return { file, root, out: join(parts, `${name}.jsonl`) }
})

const redis = await startRedis()
const connection = { path: redis.path, maxRetriesPerRequest: null }
const queue = new Queue<FileJob>(QUEUE, { connection })
const [first, second] = [startWorker(), startWorker()]
try {
  // a job of the same name is not taken twice, so that this program may be started again as well
  await queue.addBulk(
    jobs.map((data) => ({ name: 'grade', data, opts: { jobId: data.out.slice(-22, -6), attempts: 3 } })),
  )
  await killInTheMiddle(first)
  await allDone()
} finally {
  for (const worker of [first, second]) worker.kill('SIGTERM')
  await queue.close()
  await redis.close()
}
const { records, repeated, unfinished, duplicates } = await mergeGrades(
  jobs.map(({ out }) => out),
  output,
)
rmSync(parts, { recursive: true })
console.log(`${files.length} files, ${records} records in ${output}`)
console.log(`written twice: ${repeated}; not finished: ${unfinished.length}; the same puzzle: ${duplicates}`)

function startWorker(): ChildProcess {
  const work = fileURLToPath(new URL('work.ts', import.meta.url))
  return spawn(process.execPath, ['--import', 'tsx', work, redis.path], {
    stdio: ['ignore', 'inherit', 'inherit'],
  })
}

async function allDone(): Promise<void> {
  for (;;) {
    const { completed = 0, failed = 0 } = await queue.getJobCounts('completed', 'failed')
    if (failed > 0)
      throw new Error(`${failed} files could not be graded: ${(await queue.getFailed())[0]?.failedReason}`)
    if (completed === jobs.length) return
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
}

/** Kills a worker once files are being written. */
async function killInTheMiddle(worker: ChildProcess): Promise<void> {
  while (!jobs.some(({ out }) => existsSync(out))) await new Promise((resolve) => setTimeout(resolve, 5))
  await new Promise((resolve) => setTimeout(resolve, 50))
  worker.kill('SIGKILL')
  console.log('One of two workers was killed.')
}
