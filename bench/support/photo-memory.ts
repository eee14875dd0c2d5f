import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { printTable, significant } from './report.js'
import type { SpeedPage } from './speed-pages.js'

const PROGRAM = fileURLToPath(new URL('./read-folder-watched.ts', import.meta.url))
const ROWS = 10

interface Row {
  readonly photos: number
  readonly heap: number
  readonly buffers: number
  readonly resident: number
}

/**
 * A process of its own reads a folder of so many photos (the pages over and over): its heap after a collection, and its
 * resident memory, at ten points of the way. Growth counts from the second point on, when code and buffers are warm.
 */
export function memoryOverFolder(pages: readonly SpeedPage[], photos: number) {
  const folder = mkdtempSync(join(tmpdir(), 'photo-memory-'))
  let rows: Row[]
  try {
    const pictures = pages.flatMap(({ large, small }) => [large, small])
    pictures.forEach((picture, k) => {
      writeFileSync(join(folder, `${k}.bin`), picture)
    })
    for (let k = 0; k < photos; k++) {
      const name = `${String(k).padStart(6, '0')}.jpg`
      symlinkSync(join(folder, `${k % pictures.length}.bin`), join(folder, name))
    }
    const every = String(Math.ceil(photos / ROWS))
    const output = execFileSync(process.execPath, ['--import', 'tsx', PROGRAM, folder, every], {
      encoding: 'utf8',
    })
    rows = JSON.parse(output) as Row[]
  } finally {
    rmSync(folder, { recursive: true })
  }
  console.log(`\nmemory over a folder of ${photos} photos, in MiB, after a collection each:`)
  printTable(
    ['photos', 'heap', 'buffers', 'resident'],
    rows.map(({ photos, heap, buffers, resident }) => [
      photos,
      significant(heap, 3),
      significant(buffers, 3),
      significant(resident, 3),
    ]),
  )
  const [warm, last] = [rows[1] ?? rows[0]!, rows.at(-1)!]
  return {
    folderPhotos: photos,
    heapGrowthMiB: significant(last.heap - warm.heap, 3),
    rssGrowthMiB: significant(last.resident - warm.resident, 3),
    rssPeakMiB: Math.round(Math.max(...rows.map(({ resident }) => resident))),
  }
}
