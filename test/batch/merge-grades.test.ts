import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { mergeGrades } from '../../src/batch/merge-grades.js'
import type { GradeRecord } from '../../src/batch/records/grade-record.js'
import { writeGrades } from '../../src/batch/write-grades.js'
import { coverage, mergeCoverage } from '../../src/grade/coverage.js'
import { randomTransform, transformPuzzle } from '../../src/grid/symmetry.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { gradeRecordSchema } from '../../src/schemas.js'
import { PUZZLES } from '../support/puzzles.js'

let folder: string
let source: string
const work = (name: string) => join(folder, 'work', name)
const lines = Object.values(PUZZLES).map((puzzle) => formatPuzzle(puzzle))

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-merge-test-'))
  source = join(folder, 'source')
  mkdirSync(join(source, 'a'), { recursive: true })
  mkdirSync(join(folder, 'work'))
  mkdirSync(join(folder, 'temporary'))
  // `a.txt` comes after the folder `a`, though `.` comes before `/`
  writeFileSync(
    join(source, 'a', '1.txt'),
    `${lines.slice(0, 4).join('\n')}\nbroken 1.2\n${lines[0]!.slice(0, 80)}\n`,
  )
  writeFileSync(join(source, 'a', '2.bin'), 'passed over')
  writeFileSync(join(source, 'a.txt'), `${lines.slice(4).join('\n')}\n`)
})
afterAll(() => rmSync(folder, { recursive: true }))

const here = { workers: 0 } as const
const read = (file: string) =>
  readFileSync(file, 'utf8')
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as GradeRecord)

describe('mergeGrades', () => {
  it.each(['jsonl', 'csv'])(
    'joins %s of parts of a folder as one run would have written it',
    async (format) => {
      const [whole, first, second, merged] = ['whole', 'first', 'second', 'merged'].map((name) =>
        work(`${name}.${format}`),
      )
      await writeGrades(source, whole!, here)
      const data = readFileSync(whole!, 'utf8')
      const end = format === 'csv' ? '\r\n' : '\n'
      const all = data.split(end).slice(0, -1)
      const header = format === 'csv' ? [all.shift()!] : []
      const put = (file: string, some: string[]) => writeFileSync(file, [...header, ...some, ''].join(end))
      // every second record each, and three of them in both
      put(
        first!,
        all.filter((_, i) => i % 2 === 0),
      )
      put(second!, all.filter((_, i) => i % 2 === 1 || i < 5).reverse())
      const result = await mergeGrades([second!, first!], merged!)
      expect(readFileSync(merged!, 'utf8')).toBe(data)
      expect(result).toMatchObject({ records: all.length, repeated: 3, duplicates: 0, unfinished: [] })
      const counts = await writeGrades(source, whole!, here)
      expect(result.coverage).toEqual(counts.coverage)
    },
  )

  it('finds puzzles that are the same under symmetry, in any memory, and leaves no files behind', async () => {
    const images = Object.values(PUZZLES).map((puzzle, seed) =>
      formatPuzzle(transformPuzzle(puzzle, randomTransform(puzzle.geometry, seed))),
    )
    const other = join(folder, 'other')
    mkdirSync(other)
    writeFileSync(join(other, 'z.txt'), `${images.join('\n')}\n${lines[2]}\n`)
    await writeGrades(source, work('one.jsonl'), here)
    await writeGrades(other, work('two.jsonl'), here)
    const temporary = join(folder, 'temporary')
    const results = []
    for (const memory of [2000, 2 ** 24]) {
      const out = work(`same-${memory}.jsonl`)
      results.push([
        await mergeGrades([work('one.jsonl'), work('two.jsonl')], out, { memory, temporary }),
        read(out),
      ])
    }
    expect(results[0]).toEqual(results[1])
    expect(readdirSync(temporary)).toEqual([])
    const records = read(work(`same-${2000}.jsonl`))
    for (const record of records) gradeRecordSchema.parse(record)
    const later = records.filter((record) => record.path === 'z.txt')
    const origins = later.map((record) => 'grade' in record && record.duplicateOf)
    const first = (index: number) =>
      index < 4 ? { path: 'a/1.txt', line: index + 1 } : { path: 'a.txt', line: index - 3 }
    expect(origins).toEqual([...lines.map((_, index) => first(index)), first(2)])
    expect(results[0]![0]).toMatchObject({ duplicates: lines.length + 1, undecided: 0 })
  })

  it('keeps both of two things that parts say of one place, and says which part has no end', async () => {
    await writeGrades(source, work('one.jsonl'), here)
    const [record] = read(work('one.jsonl'))
    writeFileSync(work('odd.jsonl'), `${JSON.stringify({ ...record, title: 'another' })}\n`)
    appendFileSync(work('odd.jsonl'), '{"version":1,')
    const out = work('both.jsonl')
    const result = await mergeGrades([work('one.jsonl'), work('odd.jsonl')], out)
    expect(result).toMatchObject({ repeated: 0, unfinished: [work('odd.jsonl')], duplicates: 1 })
    expect(
      read(out)
        .slice(0, 2)
        .map(({ title }) => title),
    ).toEqual([undefined, 'another'])
  })

  it('refuses parts that do not compare, unless asked to take them', async () => {
    await writeGrades(source, work('scan.jsonl'), { ...here, preset: 'scan' })
    await writeGrades(source, work('one.jsonl'), here)
    const parts = [work('one.jsonl'), work('scan.jsonl')]
    await expect(mergeGrades(parts, work('none.jsonl'))).rejects.toMatchObject({ code: 'output-foreign' })
    expect(await mergeGrades(parts, work('none.jsonl'), { mixed: true })).toMatchObject({ repeated: 0 })
  })

  it('says what is wrong with a part', async () => {
    writeFileSync(work('diary.jsonl'), 'Dear diary\n')
    for (const part of ['diary.jsonl', 'missing.jsonl'])
      await expect(mergeGrades([work(part)], work('none.jsonl'))).rejects.toMatchObject({
        code: 'file-unreadable',
      })
    await expect(mergeGrades([work('one.jsonl')], work('one.jsonl'))).rejects.toMatchObject({
      code: 'argument',
    })
  })
})

it('coverages of parts add up to that of all', () => {
  const all = read(work('one.jsonl')).flatMap((record) => ('grade' in record ? [record.grade] : []))
  const parts = [all.slice(0, 3), all.slice(3), []].map((grades) => coverage(grades))
  expect(mergeCoverage(parts)).toEqual(coverage(all))
})
