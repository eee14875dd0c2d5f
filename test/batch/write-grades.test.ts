import { execFileSync, spawn } from 'node:child_process'
import {
  appendFileSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PassThrough } from 'node:stream'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { gradeFolder } from '../../src/batch/grade-files.js'
import { csvValues } from '../../src/batch/records/csv.js'
import type { GradeRecord } from '../../src/batch/records/grade-record.js'
import { formatFor } from '../../src/batch/records/record-format.js'
import { type WriteGradesOptions, writeGrades } from '../../src/batch/write-grades.js'
import { coverage } from '../../src/grade/coverage.js'
import { seededRandom } from '../../src/grid/random.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { diagonalGeometry, slantedGeometry } from '../support/any-geometry.js'
import { PUZZLES } from '../support/puzzles.js'
import { runKilled } from './killed-runs.js'

const here = (name: string) => fileURLToPath(new URL(name, import.meta.url))
let folder: string
let source: string
let work: string
let records: GradeRecord[]
let sound: Record<'jsonl' | 'csv', string>

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-write-'))
  source = join(folder, 'source')
  work = join(folder, 'work')
  mkdirSync(source)
  mkdirSync(work)
  const lines = Object.values(PUZZLES).map((puzzle) => `${formatPuzzle(puzzle).replaceAll('\n', ' ')}\n`)
  writeFileSync(
    join(source, 'a.txt'),
    `No. 3, "a", by Ottoline Crake\n${lines.join('')}${lines[0]!.slice(0, 80)}\n`,
  )
  writeFileSync(join(source, 'b.bin'), 'passed over')
  copyFileSync(here('../../fixtures/pages/1-front-page.jpg'), join(source, 'c.jpg'))
  writeFileSync(join(source, 'd.txt'), lines.join(''))
  records = []
  for await (const record of gradeFolder(source, { workers: 0 })) records.push(record)
  sound = { jsonl: '', csv: '' }
  for (const format of ['jsonl', 'csv'] as const) {
    const out = join(work, `sound.${format}`)
    await writeGrades(source, out, { workers: 0 })
    sound[format] = readFileSync(out, 'utf8')
  }
}, 60_000)
afterAll(() => rmSync(folder, { recursive: true }))

let count = 0
const newOut = (format: string) => join(work, `${++count}.${format}`)
const write = (out: string | NodeJS.WritableStream, options: WriteGradesOptions = {}) =>
  writeGrades(source, out, { workers: 0, ...options })

describe('writeGrades', () => {
  it('writes what gradeFolder gives as JSON Lines, and counts it', async () => {
    expect(sound.jsonl).toBe(records.map((record) => `${JSON.stringify(record)}\n`).join(''))
    const graded = records.flatMap((record) => ('grade' in record ? [record.grade] : []))
    expect(await write(newOut('jsonl'))).toEqual({
      records: records.length,
      earlier: 0,
      errors: records.filter((record) => 'error' in record).length,
      skipped: 1,
      coverage: coverage(graded),
    })
  })

  it('writes CSV that comes back as the same records', () => {
    const format = formatFor('x.csv', undefined)
    const [header, ...lines] = sound.csv.split('\r\n').slice(0, -1)
    expect(`${header}\r\n`).toBe(format.header)
    expect(lines.map((line) => format.parse(line))).toEqual(records)
    for (const line of lines) expect(csvValues(line)).toHaveLength(csvValues(header!)!.length)
  })

  it.each([slantedGeometry(6), diagonalGeometry(3, 3)])('brings $name back from CSV', (geometry) => {
    const format = formatFor('x.csv', undefined)
    const graded = records.find((record) => 'grade' in record)!
    const options = { preset: 'chain', route: true }
    const odd = {
      ...graded,
      options,
      geometry,
      canonical: null,
      title: 'a "b",\r\nc',
      duplicateOf: { path: 'ä', grid: 2 },
    }
    const parsed = format.parse(format.line(odd as GradeRecord).slice(0, -2))
    expect(parsed).toEqual(odd)
  })

  it.each(['jsonl', 'csv'] as const)(
    'goes on after every byte at which a %s file may end',
    async (format) => {
      const random = seededRandom(11)
      const data = Buffer.from(sound[format])
      for (let i = 0; i < 12; i++) {
        const out = newOut(format)
        const length = i === 0 ? 0 : Math.floor(random() * data.length)
        writeFileSync(out, data.subarray(0, length))
        const { records: all, earlier } = await write(out)
        expect(readFileSync(out, 'utf8')).toBe(sound[format])
        expect(all).toBe(records.length)
        const whole = format === 'csv' ? -1 : 0
        expect(earlier).toBe(Math.max(0, data.subarray(0, length).toString().split('\n').length - 1 + whole))
      }
    },
  )

  it('does not grade anything again, and says so in its progress', async () => {
    const out = newOut('jsonl')
    writeFileSync(out, sound.jsonl.split('\n').slice(0, -2).join('\n'))
    appendFileSync(out, '\n')
    const done: number[] = []
    await write(out, { onProgress: (progress) => done.push(progress.done) })
    expect(done[0]).toBe(records.length)
  })

  it('goes on with a file that was written as done', async () => {
    const out = newOut('jsonl')
    const lines = sound.jsonl.split('\n').slice(0, -1)
    writeFileSync(out, `${[lines[5], lines[1], lines[3]].join('\n')}\n`)
    await write(out, { order: 'as-done' })
    const written = readFileSync(out, 'utf8').split('\n').slice(0, -1)
    expect(written.slice(0, 3)).toEqual([lines[5], lines[1], lines[3]])
    expect([...written].sort()).toEqual([...lines].sort())
  })

  it('writes the grids of a page again of which some are missing', async () => {
    const page = records.find((record) => record.spot)!
    const of = (grid: number) => ({
      ...page,
      piece: 1,
      file: 'p.jpg',
      path: 'p.jpg',
      spot: { ...page.spot!, grid, of: 3 },
    })
    const out = newOut('jsonl')
    writeFileSync(out, [1, 2].map((grid) => `${JSON.stringify(of(grid))}\n`).join(''))
    await write(out)
    expect(readFileSync(out, 'utf8')).toBe(sound.jsonl)
  })

  it.each([
    ['other text', 'Dear diary\nI\n', /line 1 is no record/],
    [
      'another source',
      () => sound.jsonl.replaceAll('"a.txt"', '"z.txt"'),
      /piece 1 of the source is now a\.txt/,
    ],
    [
      'other options',
      () => sound.jsonl.replaceAll('"options":{}', '"options":{"preset":"scan"}'),
      /with the options/,
    ],
    ['a piece twice', () => `${sound.jsonl.split('\n')[0]}\n${sound.jsonl}`, /once more/],
    [
      'more than the source has',
      () => `${sound.jsonl}${JSON.stringify({ ...records[0], piece: 999 })}\n`,
      /has 999 pieces/,
    ],
  ])('refuses to go on with %s, and leaves it as it is', async (_, text, message) => {
    const out = newOut('jsonl')
    const data = typeof text === 'string' ? text : text()
    writeFileSync(out, data)
    await expect(write(out)).rejects.toMatchObject({
      code: 'output-foreign',
      message: expect.stringMatching(message),
    })
    expect(readFileSync(out, 'utf8')).toBe(data)
  })

  it('takes a stream as its source, and goes on when it comes again', async () => {
    async function* stream() {
      yield readFileSync(join(source, 'd.txt'), 'utf8')
    }
    const out = newOut('jsonl')
    await writeGrades(stream(), out, { workers: 0, name: 'today' })
    const whole = readFileSync(out, 'utf8')
    truncateSync(out, Math.floor(whole.length / 2))
    await writeGrades(stream(), out, { workers: 0, name: 'today' })
    expect(readFileSync(out, 'utf8')).toBe(whole)
  })

  it('writes to a stream, and says when it is closed', async () => {
    const stream = new PassThrough()
    let text = ''
    stream.on('data', (data) => {
      text += data
    })
    await write(stream)
    expect(text).toBe(sound.jsonl)
    const closed = new PassThrough()
    closed.on('data', () => closed.destroy())
    await expect(write(closed)).rejects.toMatchObject({ code: 'output-closed' })
    const ended = new PassThrough()
    ended.end()
    await expect(write(ended)).rejects.toMatchObject({ code: 'output-closed' })
  })

  it('stops at the signal and goes on after it', async () => {
    const out = newOut('csv')
    const controller = new AbortController()
    const stopped = write(out, {
      signal: controller.signal,
      onProgress: ({ done }) => done === 4 && controller.abort(),
    })
    await expect(stopped).rejects.toMatchObject({ code: 'aborted' })
    expect(readFileSync(out, 'utf8')).not.toBe(sound.csv)
    await write(out)
    expect(readFileSync(out, 'utf8')).toBe(sound.csv)
  })

  it('says what is wrong with an output', async () => {
    await expect(write(work)).rejects.toMatchObject({ code: 'output-unwritable' })
    await expect(write(join(work, 'none', 'x.jsonl'))).rejects.toMatchObject({ code: 'output-unwritable' })
  })
})

// /dev/full, and limits on the size of files, are Linux's.
describe.skipIf(process.platform !== 'linux')('writeGrades where the disk ends', () => {
  it('says that it is full', async () => {
    await expect(write('/dev/full')).rejects.toMatchObject({ code: 'output-full' })
  })

  it('leaves whole lines when it gets full, and goes on when there is room', async () => {
    const out = newOut('jsonl')
    // a limit on the size of files stands for a disk that is full
    const script = [here('write-child.mjs'), here('../../src/batch.ts'), source, out, '{"workers":0}']
    const blocks = Math.floor(sound.jsonl.length / 1024 / 2)
    const command = `trap '' XFSZ; ulimit -f ${blocks}; exec "$@"`
    const args = ['-c', command, 'bash', process.execPath, '--import', 'tsx', ...script]
    expect(() => execFileSync('bash', args, { stdio: 'pipe' })).toThrow(/the disk is full/)
    const left = readFileSync(out, 'utf8')
    expect(left.length).toBeLessThanOrEqual(blocks * 1024)
    expect(sound.jsonl.startsWith(left)).toBe(true)
    expect(left === '' || left.endsWith('\n')).toBe(true)
    await write(out)
    expect(readFileSync(out, 'utf8')).toBe(sound.jsonl)
  })

  it('says that the other end of a pipe is closed', async () => {
    const pipe = join(work, 'pipe')
    execFileSync('mkfifo', [pipe])
    const reader = spawn('head', ['-c', '10', pipe])
    const ended = new Promise((resolve) => reader.on('exit', resolve))
    await expect(write(pipe)).rejects.toMatchObject({ code: 'output-closed' })
    await ended
  })
})

describe('a run that is killed', () => {
  it.each([
    ['jsonl', { workers: 0 }],
    ['csv', { workers: 2, workerFile: here('source-worker.mjs') }],
  ] as const)(
    'and started again ends with the same %s, byte for byte',
    async (format, options) => {
      const out = newOut(format)
      const random = seededRandom(format.length)
      const bytes = sound[format].length
      const hits = await runKilled({
        ...{ source, out, door: here('../../src/batch.ts'), options, random, bytes },
        kills: 3,
      })
      expect(hits).toBeGreaterThan(0)
      expect(existsSync(out) && readFileSync(out, 'utf8')).toBe(sound[format])
    },
    120_000,
  )
})
