import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type GradeRecord, gradeFolder, gradeRecordSchema } from '../../src/batch/grade-folder.js'
import { createPool } from '../../src/batch/pool.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { regionGeometry } from '../../src/grid/geometry.js'
import { parsePuzzle } from '../../src/grid/text/parse.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { PUZZLES } from '../support/puzzles.js'

const easy = formatPuzzle(PUZZLES.singles)
const wing = formatPuzzle(PUZZLES.xyWing)
let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-batch-'))
  writeFileSync(join(folder, 'b.txt'), `# comment\n\nTuesday\n${easy}\n${easy.slice(0, 80)}\n${wing}\n`)
  writeFileSync(join(folder, 'a.txt'), `${wing}\n`)
  writeFileSync(join(folder, 'picture.jpg'), 'not looked at')
  writeFileSync(join(folder, '.hidden.txt'), `${easy}\n`)
  mkdirSync(join(folder, 'c'))
  writeFileSync(join(folder, 'c', 'd.csv'), '1,1,0,0\n0,0,0,0\n0,0,0,0\n0,0,0,0\n')
})
afterAll(() => rmSync(folder, { recursive: true }))

async function all(records: AsyncIterable<GradeRecord>): Promise<GradeRecord[]> {
  const list: GradeRecord[] = []
  for await (const record of records) list.push(record)
  return list
}

const places = (records: readonly GradeRecord[]) =>
  records.map((record) => [
    relative(folder, record.file),
    record.line,
    'grade' in record ? record.grade.level : record.error.code,
  ])

const EXPECTED = [
  ['a.txt', 1, 'pattern'],
  ['b.txt', 4, 'scan'],
  ['b.txt', 5, 'text-shape'],
  ['b.txt', 6, 'pattern'],
  [join('c', 'd.csv'), 1, null],
]

describe('gradeFolder in this thread', () => {
  it('grades every puzzle in order and reports what it cannot read', async () => {
    const seen: number[] = []
    const records = await all(gradeFolder(folder, { workers: 0, onProgress: ({ done }) => seen.push(done) }))
    expect(places(records)).toEqual(EXPECTED)
    expect(seen).toEqual([1, 2, 3, 4, 5])
    expect(records[1]).toMatchObject({
      title: 'Tuesday',
      puzzle: easy,
      grade: gradePuzzle(parsePuzzle(easy)),
    })
    for (const record of records)
      expect(gradeRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record)
  })

  it('makes a record of a file that is not there', async () => {
    const records = await all(
      gradeFolder([join(folder, 'nothing.txt'), join(folder, 'a.txt')], { workers: 0 }),
    )
    expect(records.map((record) => ('error' in record ? record.error.code : 'graded'))).toEqual([
      'file-unreadable',
      'graded',
    ])
  })

  it('stops at the signal', async () => {
    const controller = new AbortController()
    const records: GradeRecord[] = []
    const reading = (async () => {
      for await (const record of gradeFolder(folder, { workers: 0, signal: controller.signal })) {
        records.push(record)
        controller.abort()
      }
    })()
    await expect(reading).rejects.toMatchObject({ code: 'aborted' })
    expect(records).toHaveLength(1)
  })

  it('refuses unknown techniques and worker counts before it reads', async () => {
    await expect(all(gradeFolder(folder, { workers: 0, techniques: ['guessing'] }))).rejects.toThrow(
      RangeError,
    )
    await expect(all(gradeFolder(folder, { workers: -1 }))).rejects.toThrow(RangeError)
  })

  it('takes a geometry for all puzzles', async () => {
    const regions = Array.from({ length: 16 }, (_, cell) => (Math.floor(cell / 4) + (cell % 4)) % 4)
    const geometry = regionGeometry('slanted', regions)
    const file = join(folder, 'c', 'd.csv')
    const [record] = await all(gradeFolder(file, { workers: 0, geometry }))
    expect(record).toMatchObject({ grade: { verdict: 'none' } })
  })
})

/** Threads that load the sources. */
const onThreads = { workers: 2, workerFile: new URL('./source-worker.mjs', import.meta.url) }

describe('gradeFolder on threads', () => {
  it('starts them', async () => {
    const pool = await createPool(2, onThreads)
    expect(pool.width).toBe(4) // 1 would mean that the work is done in this thread
    await pool.close()
  })

  it('gives the same records as one thread', async () => {
    const records = await all(gradeFolder(folder, onThreads))
    expect(places(records)).toEqual(EXPECTED)
    expect(records).toEqual(await all(gradeFolder(folder, { workers: 0 })))
  })

  it('stops at the signal', async () => {
    const controller = new AbortController()
    let done = 0
    const reading = (async () => {
      for await (const _ of gradeFolder(folder, { ...onThreads, signal: controller.signal })) {
        done++
        controller.abort()
      }
    })()
    await expect(reading).rejects.toMatchObject({ code: 'aborted' })
    expect(done).toBe(1)
  })

  it('ends them when the reader breaks off', async () => {
    const threads = () => process.getActiveResourcesInfo().filter((name) => name === 'MessagePort').length
    const before = threads()
    for await (const _ of gradeFolder(folder, onThreads)) break
    expect(threads()).toBeLessThanOrEqual(before)
  })

  it('makes a record of a job whose thread was lost, and goes on with another', async () => {
    const pool = await createPool(1, { workerFile: new URL('./fragile-worker.mjs', import.meta.url) })
    const job = { kind: 'read', file: 'picture.jpg', options: {} } as const
    expect(await pool.run(job)).toMatchObject({ ok: false, error: { code: 'internal' } })
    expect(await pool.run(job)).toMatchObject({ ok: false, error: { code: 'internal' } })
    await pool.close()
    await expect(pool.run(job)).rejects.toMatchObject({ code: 'aborted' })
  })
})

describe('where threads cannot be started', () => {
  it('the same records come from this thread', async () => {
    // Beside the sources there is no worker file.
    expect(places(await all(gradeFolder(folder, { workers: 2 })))).toEqual(EXPECTED)
  })
})
