import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type GradeFolderOptions, gradeFiles, gradeFolder, gradeStream } from '../../src/batch/grade-files.js'
import { type GradeRecord, recordedPuzzle } from '../../src/batch/records/grade-record.js'
import { LIBRARY_VERSION } from '../../src/batch/version.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { canonicalKey } from '../../src/grid/canonical.js'
import { puzzleToJson } from '../../src/grid/json.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { createPhotoReader } from '../../src/photo/node.js'
import { gradeRecordSchema } from '../../src/schemas.js'
import { PUZZLES } from '../support/puzzles.js'

const easy = formatPuzzle(PUZZLES.singles)
const wing = formatPuzzle(PUZZLES.xyWing)
const photo = fileURLToPath(new URL('../../fixtures/pages/1-front-page.jpg', import.meta.url))
let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-mixed-'))
  const put = (name: string, data: string | Uint8Array) => writeFileSync(join(folder, name), data)
  put('a.txt', `No. 17, by Ottoline Crake\n30 November 2026\n${easy}\n${easy.slice(0, 80)}\n${wing}\n`)
  put('b.csv', `id,puzzle\n3,${easy}\n4,${wing}\n`)
  put('c.json', JSON.stringify(puzzleToJson(PUZZLES.xWing)))
  put(
    'd.JSONL',
    `${JSON.stringify(puzzleToJson(PUZZLES.singles))}\n${JSON.stringify(puzzleToJson(PUZZLES.xyWing))}\n`,
  )
  put('e.txt.gz', gzipSync(`${easy}\n${wing}\n`))
  put('f.gz', gzipSync(`${easy}\n`).subarray(0, 40))
  copyFileSync(photo, join(folder, 'g.jpg'))
  // a picture that calls itself text, and text that calls itself a picture
  copyFileSync(photo, join(folder, 'h.txt'))
  put('i.png', `${easy}\n`)
  put('j.txt', '')
  put('k.txt', Buffer.from(`${easy}\n`, 'utf16le'))
  put('l.txt', Buffer.from([0x50, 0x4b, 3, 4, ...Array.from({ length: 200 }, (_, i) => i % 7)]))
  put('m.heic', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1'))
  put('n.docx', 'not asked for')
  mkdirSync(join(folder, 'o', 'p'), { recursive: true })
  put('o/p/q.txt', `${wing}\n`)
  symlinkSync('..', join(folder, 'o', 'up'))
  symlinkSync('a.txt', join(folder, 'r.txt'))
  symlinkSync('nowhere', join(folder, 's.txt'))
  symlinkSync('t.txt', join(folder, 't.txt'))
})
afterAll(() => rmSync(folder, { recursive: true }))

async function all(records: AsyncIterable<GradeRecord>): Promise<GradeRecord[]> {
  const list: GradeRecord[] = []
  for await (const record of records) list.push(record)
  return list
}

const here = { workers: 0 } as const
const said = (record: GradeRecord) =>
  'grade' in record ? record.grade.level : 'error' in record ? record.error.code : record.skipped.because
const summaryOf = (records: readonly GradeRecord[]) =>
  records.map((record) => [record.path, record.line ?? record.spot?.grid, said(record)])

describe('one call for a mixed folder', () => {
  it('makes a record of everything, whatever it calls itself', async () => {
    const records = await all(gradeFolder(folder, here))
    expect(summaryOf(records)).toEqual([
      ['a.txt', 3, 'scan'],
      ['a.txt', 4, 'text-shape'],
      ['a.txt', 5, 'pattern'],
      ['b.csv', 2, 'scan'],
      ['b.csv', 3, 'pattern'],
      ['c.json', 1, 'pattern'],
      ['d.JSONL', 1, 'scan'],
      ['d.JSONL', 2, 'pattern'],
      ['e.txt.gz', 1, 'scan'],
      ['e.txt.gz', 2, 'pattern'],
      ['f.gz', undefined, 'file-unreadable'],
      ['g.jpg', 1, 'chain'],
      ['h.txt', 1, 'chain'],
      ['i.png', 1, 'scan'],
      ['j.txt', undefined, 'empty'],
      ['k.txt', 1, 'text-shape'],
      ['l.txt', undefined, 'format'],
      ['m.heic', undefined, 'format'],
      ['n.docx', undefined, 'extension'],
      ['o/p/q.txt', 1, 'pattern'],
      ['o/up', undefined, 'seen'],
      ['r.txt', 3, 'scan'],
      ['r.txt', 4, 'text-shape'],
      ['r.txt', 5, 'pattern'],
      ['s.txt', undefined, 'file-unreadable'],
      ['t.txt', undefined, 'file-unreadable'],
    ])
    expect(records.map(({ piece }) => piece)).toEqual(records.map((_, index) => index + 1))
    for (const record of records)
      expect(gradeRecordSchema.parse(JSON.parse(JSON.stringify(record)))).toEqual(record)
    expect(records[0]).toEqual({
      version: 1,
      library: LIBRARY_VERSION,
      options: {},
      piece: 1,
      file: join(folder, 'a.txt'),
      path: 'a.txt',
      line: 3,
      number: '17',
      setter: 'Ottoline Crake',
      date: '2026-11-30',
      puzzle: easy,
      geometry: PUZZLES.singles.geometry,
      canonical: canonicalKey(PUZZLES.singles),
      grade: gradePuzzle(PUZZLES.singles),
    })
    const heic = records.find(({ path }) => path === 'm.heic')!
    expect('skipped' in heic && heic.skipped.message).toMatch(/HEIC.*JPEG/)
    const packed = records.find(({ path }) => path === 'f.gz')!
    expect('error' in packed && packed.error.message).toMatch(/It is damaged or ends too early/)
  })

  it('says of a photo what the reader says, without its pictures', async () => {
    const [record] = await all(gradeFiles([photo], here))
    const reader = await createPhotoReader()
    const {
      readings: [reading],
    } = await reader.read(photo)
    await reader.close()
    if (!record || !('grade' in record)) throw new Error(JSON.stringify(record))
    expect(recordedPuzzle(record)).toEqual(reading.puzzle)
    expect(record.photo).toMatchObject({ status: reading.status, doubtful: reading.doubtful })
    expect(record.spot).toMatchObject({ grid: 1, of: 1 })
    expect(record.grade).toEqual(gradePuzzle(reading.puzzle))
    expect(JSON.stringify(record).length).toBeLessThan(2000)
  })

  it.each([[['txt']], [['.txt']], [['TXT']], [['.Txt']]])('takes extensions as %j', async (extensions) => {
    const records = await all(gradeFolder(join(folder, 'o'), { ...here, extensions }))
    expect(summaryOf(records)[0]).toEqual(['p/q.txt', 1, 'pattern'])
    const others = await all(gradeFolder(folder, { ...here, extensions: ['docx'] }))
    expect(summaryOf(others)).toContainEqual(['a.txt', undefined, 'extension'])
    expect(summaryOf(others)).toContainEqual(['n.docx', undefined, 'empty'])
  })

  it('names files below a root, so that parts of a folder fit together', async () => {
    const part = join(folder, 'o', 'p')
    const options = { ...here, root: folder }
    expect(summaryOf(await all(gradeFolder(part, options)))).toEqual([['o/p/q.txt', 1, 'pattern']])
    const file = join(part, 'q.txt')
    expect(summaryOf(await all(gradeFolder([file, part], options)))).toHaveLength(2)
    expect(summaryOf(await all(gradeFiles([file], options)))).toEqual([['o/p/q.txt', 1, 'pattern']])
  })

  it('takes names from a stream, and calls a folder among them an error', async () => {
    async function* names() {
      yield join(folder, 'n.docx')
      yield join(folder, 'o')
      yield join(folder, 'i.png')
    }
    const records = await all(gradeFiles(names(), here))
    expect(summaryOf(records).map(([path, , what]) => [path, what])).toEqual([
      ['n.docx', 'empty'],
      ['o', 'file-unreadable'],
      ['i.png', 'scan'],
    ])
  })

  it('takes a stream of text, of packed text, or of a picture', async () => {
    const text = `${easy}\n${wing}\n`
    expect((await all(gradeStream([text], { ...here, name: 'today' }))).map(said)).toEqual([
      'scan',
      'pattern',
    ])
    expect((await all(gradeStream([gzipSync(text)], here))).map(said)).toEqual(['scan', 'pattern'])
    const [record] = await all(gradeStream([new Uint8Array(readFileSync(photo))], here))
    expect(record).toMatchObject({ path: 'stream', spot: { grid: 1 }, grade: { status: 'solved' } })
  })

  it('hands a line out while the next is not there yet', async () => {
    async function* typed() {
      yield `${easy}\n\n`
      await new Promise(() => {})
    }
    for await (const record of gradeStream(typed(), here)) {
      expect(said(record)).toBe('scan')
      break
    }
  })

  it('gives as-done the same records in another order', async () => {
    const onThreads: GradeFolderOptions = {
      workers: 2,
      workerFile: new URL('./source-worker.mjs', import.meta.url),
    }
    const byPiece = (records: GradeRecord[]) => records.sort((a, b) => a.piece - b.piece)
    const records = await all(gradeFolder(folder, { ...onThreads, order: 'as-done' }))
    // photos take far longer than a line of text, so they cannot have kept their places
    expect(records.map(({ piece }) => piece)).not.toEqual(records.map((_, index) => index + 1))
    expect(byPiece(records)).toEqual(await all(gradeFolder(folder, here)))
  })
})

describe('how far a batch is', () => {
  it('counts records, errors, skipped files and bytes, up to all of them', async () => {
    const seen: Parameters<NonNullable<GradeFolderOptions['onProgress']>>[0][] = []
    const records = await all(gradeFolder(folder, { ...here, onProgress: (progress) => seen.push(progress) }))
    const last = seen.at(-1)!
    expect(last).toMatchObject({
      done: records.length,
      total: records.length,
      errors: records.filter((record) => 'error' in record).length,
      skipped: records.filter((record) => 'skipped' in record).length,
      bytes: last.totalBytes,
      timeLeft: 0,
    })
    for (const [before, after] of seen.slice(1).map((progress, i) => [seen[i]!, progress] as const)) {
      expect(after.bytes).toBeGreaterThanOrEqual(before.bytes)
      expect(after.done).toBeGreaterThanOrEqual(before.done)
    }
    expect(last.totalBytes).toBeGreaterThan(100_000)
    expect(last.rate).toBeGreaterThan(0)
  })

  it('knows the place within one long file', async () => {
    const file = join(folder, 'long')
    writeFileSync(file, `${easy}\n`.repeat(300))
    const shares: number[] = []
    for await (const _ of gradeFiles([file], {
      ...here,
      onProgress: ({ done, bytes }) => shares.push(bytes / (done * 82)),
    }));
    rmSync(file)
    expect(shares).toHaveLength(301)
    for (const share of shares) expect(share).toBeCloseTo(1, 1)
  })
})
