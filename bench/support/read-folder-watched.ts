/** A program of its own: reads all photos of a folder in this thread and tells, as JSON, its memory on the way. */
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { readFolder } from '../../src/batch.js'

const [folder, every] = process.argv.slice(2)
setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void
const rows: { photos: number; heap: number; buffers: number; resident: number }[] = []
let photos = 0
for await (const record of readFolder(folder!, { workers: 0 })) {
  if ('error' in record) throw new Error(`${record.file}: ${record.error.message}`)
  if (++photos % Number(every) !== 0) continue
  collectGarbage()
  const { heapUsed, arrayBuffers, rss } = process.memoryUsage()
  rows.push({ photos, heap: heapUsed / 2 ** 20, buffers: arrayBuffers / 2 ** 20, resident: rss / 2 ** 20 })
}
console.log(JSON.stringify(rows))
