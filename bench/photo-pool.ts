/**
 * Photos as a server reads them: uploads, so many at once, some of them broken. Time, longest stall of the thread that
 * calls, memory after the first 50 and at the end, and the time from nothing to the first reading.
 *
 * `npm run build && npm run bench:photo-pool -- [--uploads 200] [--at-once 8] [--workers 2]`
 */
import { readdirSync, readFileSync } from 'node:fs'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { parseArgs } from 'node:util'
import { wholeNumber } from './support/whole-number.js'

const { values } = parseArgs({
  options: {
    uploads: { type: 'string', default: '200' },
    'at-once': { type: 'string', default: '8' },
    workers: { type: 'string', default: '2' },
  },
})
const uploads = wholeNumber('uploads', values.uploads)
const atOnce = wholeNumber('at-once', values['at-once'])
const workers = wholeNumber('workers', values.workers)
/** One upload in so many is a file that ends in its middle. */
const BROKEN_EVERY = 20
const SETTLED_AFTER = 50

// threads run built code
const built = new URL('../dist/batch.js', import.meta.url).href
const { createPhotoPool } = (await import(built)) as typeof import('../src/batch.js')

const pages = new URL('../fixtures/pages/', import.meta.url)
const files = readdirSync(pages)
  .filter((file) => file.endsWith('.jpg'))
  .map((file) => readFileSync(new URL(file, pages)))

const mebibytes = () => Math.round(process.memoryUsage().rss / 2 ** 20)

async function run(threads: number) {
  const start = performance.now()
  const pool = await createPhotoPool({ workers: threads })
  await pool.read(files[0]!)
  const cold = performance.now() - start
  const delays = monitorEventLoopDelay({ resolution: 1 })
  delays.enable()
  let next = 0
  let done = 0
  let read = 0
  let broken = 0
  let memoryAfter = 0
  const from = performance.now()
  await Promise.all(
    Array.from({ length: atOnce }, async () => {
      while (next < uploads) {
        const number = next++
        const file = files[number % files.length]!
        const isBroken = number % BROKEN_EVERY === BROKEN_EVERY - 1
        try {
          await pool.read(isBroken ? file.subarray(0, file.length / 2) : file)
          read++
        } catch {
          broken++
        }
        if (++done === SETTLED_AFTER) memoryAfter = mebibytes()
      }
    }),
  )
  const seconds = (performance.now() - from) / 1000
  delays.disable()
  const memory = mebibytes()
  await pool.close()
  return {
    threads,
    read,
    failed: broken,
    seconds: Number(seconds.toFixed(1)),
    aSecond: Number((uploads / seconds).toFixed(1)),
    longestStallMs: Number((delays.max / 1e6).toFixed(1)),
    p99StallMs: Number((delays.percentile(99) / 1e6).toFixed(1)),
    memoryAfter50: memoryAfter,
    memoryAtEnd: memory,
    coldStartMs: Math.round(cold),
  }
}

const one = await run(1)
console.log(JSON.stringify(one))
if (workers > 1) {
  const several = await run(workers)
  console.log(JSON.stringify(several))
  console.log(
    `${workers} threads read ${(several.aSecond / one.aSecond).toFixed(2)} times as many a second as one.`,
  )
}
