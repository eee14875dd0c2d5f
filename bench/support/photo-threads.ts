import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { readFolder } from '../../src/batch.js'
import { printTable, significant } from './report.js'
import type { SpeedPage } from './speed-pages.js'

const WORKER_FILE = new URL('../../dist/batch/threads/batch-worker.js', import.meta.url)
const COPIES = 6

/** The same folder of photos read on one thread and on `cores`, twice each in turn; the better turn of each counts. */
export async function threadSpeeds(pages: readonly SpeedPage[], cores: number) {
  if (!existsSync(WORKER_FILE)) throw new Error('Threads need the built package: npm run build first.')
  const folder = mkdtempSync(join(tmpdir(), 'photo-threads-'))
  for (let copy = 0; copy < COPIES; copy++) {
    pages.forEach(({ large, small }, k) => {
      writeFileSync(join(folder, `${copy}-${k}-large.jpg`), large)
      writeFileSync(join(folder, `${copy}-${k}-small.jpg`), small)
    })
  }
  const photos = COPIES * pages.length * 2
  const perSecond = new Map<number, number>()
  try {
    for (const workers of [1, cores, 1, cores]) {
      // threads are warm by the second copy, from which on the clock runs
      const warm = photos / COPIES
      let read = 0
      let started = 0
      for await (const record of readFolder(folder, { workers, workerFile: WORKER_FILE })) {
        if ('error' in record) throw new Error(`${record.file}: ${record.error.message}`)
        if (++read === warm) started = performance.now()
      }
      const rate = (1000 * (read - warm)) / (performance.now() - started)
      perSecond.set(workers, Math.max(perSecond.get(workers) ?? 0, rate))
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
  const [one, all] = [perSecond.get(1)!, perSecond.get(cores)!]
  console.log(`\na folder of ${photos} photos, by the built package:`)
  printTable(
    ['threads', 'photos a second'],
    [...perSecond].map(([workers, rate]) => [workers, significant(rate, 3)]),
  )
  return { threads: cores, threadSpeedUp: significant(all / one, 3) }
}
