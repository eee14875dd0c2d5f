import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { gradeFolder } from '../../src/batch/grade-files.js'
import { type GradeRecord, recordedPuzzle } from '../../src/batch/records/grade-record.js'
import { createPool } from '../../src/batch/threads/node-pool.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { boxedGeometry, type Geometry, regionGeometry } from '../../src/grid/geometry.js'
import { puzzleToJson } from '../../src/grid/json.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { parsePuzzle } from '../../src/grid/text/parse.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { gradeRecordSchema } from '../../src/schemas.js'
import { diagonalGeometry, slantedGeometry } from '../support/any-geometry.js'
import { PUZZLES } from '../support/puzzles.js'

const easy = formatPuzzle(PUZZLES.singles)
const wing = formatPuzzle(PUZZLES.xyWing)
let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-batch-'))
  writeFileSync(join(folder, 'b.txt'), `# comment\n\nTuesday\n${easy}\n${easy.slice(0, 80)}\n${wing}\n`)
  writeFileSync(join(folder, 'a.txt'), `${wing}\n`)
  writeFileSync(join(folder, 'notes.odt'), 'not looked at')
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
    'grade' in record ? record.grade.level : 'error' in record ? record.error.code : record.skipped.because,
  ])

const EXPECTED = [
  ['.hidden.txt', undefined, 'hidden'],
  ['a.txt', 1, 'pattern'],
  ['b.txt', 4, 'scan'],
  ['b.txt', 5, 'text-shape'],
  ['b.txt', 6, 'pattern'],
  [join('c', 'd.csv'), 1, null],
  ['notes.odt', undefined, 'extension'],
]

describe('gradeFolder in this thread', () => {
  it('grades every puzzle in order and reports what it cannot read', async () => {
    const seen: number[] = []
    const records = await all(gradeFolder(folder, { workers: 0, onProgress: ({ done }) => seen.push(done) }))
    expect(places(records)).toEqual(EXPECTED)
    expect(seen).toEqual([1, 2, 3, 4, 5, 6, 7, 7])
    expect(records[2]).toMatchObject({
      title: 'Tuesday',
      puzzle: easy,
      geometry: { key: '3x3', order: 9, box: { rows: 3, columns: 3 } },
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

  it('refuses unknown techniques and worker counts before it reads', () => {
    const refused = expect.objectContaining({ code: 'argument' })
    expect(() => gradeFolder(folder, { workers: 0, techniques: ['guessing'] as never })).toThrow(refused)
    expect(() => gradeFolder(folder, { workers: -1 })).toThrow(refused)
  })

  it('takes a geometry for all puzzles', async () => {
    const regions = Array.from({ length: 16 }, (_, cell) => (Math.floor(cell / 4) + (cell % 4)) % 4)
    const geometry = regionGeometry('slanted', regions)
    const file = join(folder, 'c', 'd.csv')
    const [record] = await all(gradeFolder(file, { workers: 0, geometry }))
    expect(record).toMatchObject({ grade: { verdict: 'none' } })
  })

  it.each([
    ['irregular regions', slantedGeometry(6)],
    ['diagonals', diagonalGeometry(3, 3)],
    ['irregular regions and diagonals', slantedGeometry(5, true)],
    ['boxes three high and two wide', boxedGeometry(3, 2)],
    ['boxes two high and three wide', boxedGeometry(2, 3)],
    ['two-digit numbers', boxedGeometry(4, 3)],
  ] as const)('keeps the rules of puzzles with %s', async (name, geometry) => {
    const puzzle = clueEverySecondCell(geometry)
    const file = join(folder, `${name}.json`)
    writeFileSync(file, JSON.stringify(puzzleToJson(puzzle)))
    const records = await all(gradeFolder(file, { workers: 0, preset: 'scan', nodeBudget: 2000 }))
    rmSync(file)
    const [record] = JSON.parse(JSON.stringify(records)) as GradeRecord[]
    if (!record || !('grade' in record)) throw new Error(JSON.stringify(record))
    expect(record.puzzle).not.toContain('\n')
    const read = recordedPuzzle(gradeRecordSchema.parse(record) as typeof record)
    expect(read.givens).toEqual(puzzle.givens)
    expect(read.geometry).toEqual(geometry)
    expect(layoutOf(read.geometry).houses).toEqual(layoutOf(geometry).houses)
  })
})

/** A puzzle that differs from cell to cell; that it clashes does not matter here. */
function clueEverySecondCell(geometry: Geometry): Puzzle {
  const { order, cellCount } = geometry
  return makePuzzle(
    Array.from({ length: cellCount }, (_, cell) => (cell % 2 === 0 ? 1 + ((cell * 7) % order) : 0)),
    geometry,
  )
}

/** Threads that load the sources. */
const onThreads = { workers: 2, workerFile: new URL('./source-worker.mjs', import.meta.url) }

describe('gradeFolder on threads', () => {
  it('starts them', async () => {
    const pool = await createPool(2, onThreads)
    expect(pool.width).toBeGreaterThan(2) // 1 would mean that the work is done in this thread
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
    const job = { kind: 'read', picture: 'picture.jpg', options: {} } as const
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
