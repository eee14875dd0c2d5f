import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { SaxesParser } from 'saxes'
import { beforeAll, describe, expect, it } from 'vitest'
import { gradeFolder } from '../../src/batch/grade-files.js'
import type { GradedRecord, GradeRecord } from '../../src/batch/records/grade-record.js'
import { EffortCounts } from '../../src/batch/report/effort-counts.js'
import { gradeReport } from '../../src/batch/report/grade-report.js'
import { ENGLISH_REPORT, GERMAN_REPORT } from '../../src/batch/report/words.js'
import { mirroring, transformPuzzle } from '../../src/grid/symmetry.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { LEVELS } from '../../src/logic/level.js'
import { PUZZLES } from '../support/puzzles.js'

let records: GradeRecord[]
let graded: GradedRecord[]

beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'gridreason-report-'))
  const lines = Object.values(PUZZLES).map((puzzle) => formatPuzzle(puzzle))
  const image = transformPuzzle(PUZZLES.xyWing, mirroring(PUZZLES.xyWing.geometry))
  const text = `No. 8 <b>"Foxglove" & 'co'</b>\n${lines.join('\n')}\n${formatPuzzle(image)}\n${lines[0]!.slice(1)}\n`
  writeFileSync(join(folder, 'a.txt'), text)
  writeFileSync(join(folder, 'b.odt'), '')
  const page = fileURLToPath(new URL('../../fixtures/pages/8-unsound.jpg', import.meta.url))
  records = []
  for await (const record of gradeFolder([folder, page], { workers: 0 })) records.push(record)
  graded = records.flatMap((record) => ('grade' in record ? [record] : []))
  rmSync(folder, { recursive: true })
}, 60_000)

/** What a page says and shows: its text, part by part, and how many grids it has; fails for broken markup. */
function readPage(page: string): { texts: string[]; svgs: number } {
  const parser = new SaxesParser()
  const texts: string[] = []
  let svgs = 0
  parser.on('opentag', ({ name }) => {
    if (name === 'svg') svgs++
  })
  parser.on('text', (text) => {
    if (text.trim() !== '') texts.push(text.trim())
  })
  parser.on('error', (error) => {
    throw error
  })
  parser.write(page.replace('<!doctype html>\n', '').replace(/<(meta[^>]*|br)>/g, '<$1/>')).close()
  return { texts, svgs }
}

describe('gradeReport', () => {
  it('says how many there are of each kind, in markup that is well formed', async () => {
    const { texts } = readPage(await gradeReport(records, { title: 'Week <1>' }))
    expect(texts).toContain('Week <1>')
    expect(texts).toContain(
      `${graded.length} puzzles were graded. 1 could not be read or graded. 1 file was passed over.`,
    )
    for (const level of LEVELS) {
      const count = graded.filter(({ grade }) => grade.status === 'solved' && grade.level === level).length
      const at = texts.indexOf(level)
      expect(texts[at + 1]).toBe(`${count} (${ENGLISH_REPORT.share(count, graded.length)})`)
    }
    const unsound = graded.find(({ grade }) => grade.status === 'not-tried')!
    expect(texts).toContain(ENGLISH_REPORT.outcomes[unsound.grade.verdict as 'none'])
    expect(texts).toContain('One puzzle is the same as one before but for names and order.')
    expect(texts.some((text) => /No\. 8, .*"Foxglove" & 'co'/.test(text))).toBe(true)
    expect(texts.some((text) => text.includes('expected 81 for'))).toBe(true)
  })

  it('shows the hardest and the easiest, each puzzle once', async () => {
    const { texts } = readPage(await gradeReport(records))
    const efforts = texts
      .flatMap((text) => /effort ([\d,]+),/.exec(text)?.[1]?.replaceAll(',', '') ?? [])
      .map(Number)
    const kinds = new Map([...graded].reverse().map((record) => [record.canonical, record]))
    const solved = [...kinds.values()].filter(({ grade }) => grade.status === 'solved')
    expect(solved.length).toBeLessThan(graded.length - 1)
    const rising = solved.map(({ grade }) => Math.round(grade.effort)).sort((a, b) => a - b)
    expect(efforts).toEqual([...rising.slice().reverse().slice(0, 6), ...rising.slice(0, 6)])
  })

  it('says the same in German, with nothing left in English', async () => {
    async function* stream() {
      yield* records
    }
    const english = readPage(await gradeReport(records))
    const german = readPage(await gradeReport(stream(), { language: GERMAN_REPORT }))
    expect(german.svgs).toBe(english.svgs)
    const own = german.texts.slice(1).filter((text) => english.texts.includes(text) && /[a-z]{4}/i.test(text))
    // what is data, not words: places, messages of errors, codes, and names of techniques that are the same in both
    const names = Object.values(ENGLISH_REPORT.wording.technique) as string[]
    expect(
      own.filter(
        (text) =>
          !/a\.txt|b\.odt|8-unsound|Line \d|text-|^X|wing$|BUG|ALS|Swordfish|Jellyfish|Skyscraper/i.test(
            text,
          ) && !names.includes(text),
      ),
    ).toEqual([])
  })

  it('reports on nothing, and on errors alone', async () => {
    expect(readPage(await gradeReport([])).texts).toContain('0 puzzles were graded.')
    const errors = records.filter((record) => 'error' in record)
    expect(readPage(await gradeReport(errors)).texts).toContain('Not read or graded')
  })

  it('refuses what is no record', async () => {
    for (const wrong of [{}, { ...records[0], version: 2 }, null])
      await expect(gradeReport([wrong as never])).rejects.toMatchObject({ code: 'argument' })
  })
})

it('efforts fall into spans of a logarithmic scale, none left out', () => {
  const counts = new EffortCounts()
  const efforts = [0.4, 1, 1.4, 1.5, 9.9, 10, 149.9, 150, 70_000]
  for (const effort of efforts) counts.add('scan', effort)
  const bins = counts.histogram
  expect(bins.reduce((sum, { total }) => sum + total, 0)).toBe(efforts.length)
  bins.forEach(({ from, total }, i) => {
    const to = bins[i + 1]?.from ?? Number.POSITIVE_INFINITY
    const within = efforts.filter((effort) => (i === 0 || effort >= from) && effort < to)
    expect(total).toBe(within.length)
  })
  expect(counts.quantile(0.5)).toBeCloseTo(9.9)
})
