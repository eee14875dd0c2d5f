import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type ReadRecord, readFolder } from '../../src/batch/read-folder.js'
import { checkUniqueness } from '../../src/count/check-uniqueness.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { createPhotoReader } from '../../src/photo/node.js'

const page = (name: string) => fileURLToPath(new URL(`../../fixtures/pages/${name}`, import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'gridreason-pictures-'))
const wall = join(folder, 'wall.png')
const files = [page('1-front-page.jpg'), wall, page('no-such-page.jpg')]

beforeAll(() =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: '#b8a890' } }).toFile(wall),
)
afterAll(() => rmSync(folder, { recursive: true }))

async function all(records: AsyncIterable<ReadRecord>): Promise<ReadRecord[]> {
  const list: ReadRecord[] = []
  for await (const record of records) list.push(record)
  return list
}

const summary = (records: readonly ReadRecord[]) =>
  records.map((record) =>
    'readings' in record
      ? record.readings.map(({ puzzle }) => formatPuzzle(puzzle))
      : 'error' in record
        ? record.error.code
        : record.skipped.because,
  )

describe('readFolder', () => {
  it('reads pictures in order, and makes records of what is none or has no grid', async () => {
    const records = await all(readFolder(files, { workers: 0 }))
    expect(records.map(({ file }) => file)).toEqual(files)
    const reader = await createPhotoReader()
    const {
      readings: [first],
    } = await reader.read(files[0]!)
    await reader.close()
    const summaries = summary(records)
    expect(summaries[0]).toEqual([formatPuzzle(first.puzzle)])
    expect(summaries.slice(1, 3)).toEqual(['no-grid-found', 'file-unreadable'])
  })

  it('brings readings back whole from threads', async () => {
    const here = await all(readFolder(files, { workers: 0 }))
    const there = await all(
      readFolder(files, { workers: 2, workerFile: new URL('./source-worker.mjs', import.meta.url) }),
    )
    expect(summary(there)).toEqual(summary(here))
    for (const record of there) {
      if (!('readings' in record)) continue
      for (const { puzzle, verdict, cells } of record.readings) {
        // The geometry came through: it can be asked again.
        expect(checkUniqueness(puzzle)).toEqual(verdict)
        expect(cells).toHaveLength(81)
      }
    }
  })

  it('refuses pictures past the pixels allowed', async () => {
    const [record] = await all(readFolder(files.slice(0, 1), { workers: 0, maxPixels: 1000 }))
    expect(record).toMatchObject({ error: { code: 'picture-too-large' } })
  })
})
