import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { createPhotoReader } from '../../src/photo.js'
import { printTable, significant } from './report.js'
import type { SpeedPage } from './speed-pages.js'

const ROWS = 10
/** The reads up to here warm up code and buffers. */
const WARM = 0.2

/** One reader reads the pages over and over; heap after a collection, and resident memory, at ten points of the way. */
export async function readManyTimes(pages: readonly SpeedPage[], reads: number) {
  setFlagsFromString('--expose-gc')
  const collectGarbage = runInNewContext('gc') as () => void
  const reader = await createPhotoReader()
  const photos = pages.flatMap(({ large, small }) => [large, small])
  const rows: { reads: number; heap: number; buffers: number; rss: number }[] = []
  for (let k = 1; k <= reads; k++) {
    await reader.read(photos[k % photos.length]!)
    if (k % Math.ceil(reads / ROWS) !== 0 && k !== reads) continue
    collectGarbage()
    const { heapUsed, arrayBuffers, rss } = process.memoryUsage()
    rows.push({ reads: k, heap: heapUsed / 2 ** 20, buffers: arrayBuffers / 2 ** 20, rss: rss / 2 ** 20 })
  }
  await reader.close()
  console.log(`\nmemory over ${reads} reads, in MiB, after a collection each:`)
  printTable(
    ['reads', 'heap', 'buffers', 'resident'],
    rows.map((row) => [
      row.reads,
      significant(row.heap, 3),
      significant(row.buffers, 3),
      significant(row.rss, 3),
    ]),
  )
  const warm = rows.filter((row) => row.reads >= WARM * reads)
  return {
    reads,
    heapGrowthMiB: significant(warm.at(-1)!.heap - warm[0]!.heap, 3),
    rssGrowthMiB: significant(warm.at(-1)!.rss - warm[0]!.rss, 3),
    rssPeakMiB: Math.round(Math.max(...rows.map(({ rss }) => rss))),
  }
}
