import { execFile } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { TECHNIQUE_NAMES } from '../../src/index.js'
import { gradeRecordSchema } from '../../src/schemas.js'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Runs an example as its readers do; fails when it exits with an error. */
async function run(name: string, ...args: string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--import', 'tsx', `examples/${name}.ts`, ...args],
    { cwd: root, encoding: 'utf8' },
  )
  return stdout
}

const GRID = /\+-------\+-------\+-------\+\n(\|( [.\d]){3} \|( [.\d]){3} \|( [.\d]){3} \|\n){3}/

describe('examples', () => {
  it('photo-to-walkthrough, the demo, prints the grid and the path and writes a page', async () => {
    const stdout = await run('photo-to-walkthrough')
    expect(stdout).toMatch(GRID)
    expect(stdout).toContain('Verdict: exactly one solution.')
    expect(stdout).toMatch(/Steps \d+ to \d+, by scanning: r\dc\d=\d/)
    expect(stdout).toContain('Solved.')
    const [, file] = /is in (.+\.html)/.exec(stdout)!
    expect(readFileSync(file!, 'utf8')).toMatch(/^<!doctype html>[\s\S]*<svg [\s\S]*<\/html>\s*$/)
  })

  it('catalogue has every technique that exists, each proven on its board', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'gridreason-catalogue-'))
    const page = join(folder, 'catalogue.html')
    expect(await run('catalogue', page)).toContain(`${TECHNIQUE_NAMES.length} techniques`)
    const html = readFileSync(page, 'utf8')
    for (const name of TECHNIQUE_NAMES) expect(html).toContain(`<article id="${name}">`)
    expect(html.match(/<svg /g)).toHaveLength(TECHNIQUE_NAMES.length)
    rmSync(folder, { recursive: true })
  })

  it('import-a-photo prints each reading with its status', async () => {
    const stdout = await run('import-a-photo')
    expect(stdout).toMatch(/: \d+ grids?\n/)
    expect(stdout).toMatch(GRID)
    expect(stdout).toMatch(/status: (certain|check)/)
  })

  it('import-a-photo says why there is no grid', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'gridreason-example-'))
    const wall = join(folder, 'wall.png')
    await sharp({ create: { width: 640, height: 480, channels: 3, background: '#b8a890' } }).toFile(wall)
    await expect(run('import-a-photo', wall)).rejects.toMatchObject({
      code: 1,
      stderr: expect.stringContaining('no-grid-found'),
    })
    rmSync(folder, { recursive: true })
  })

  it('stuck-on-paper reads what is written in, and helps', async () => {
    const stdout = await run('stuck-on-paper')
    const [page] = JSON.parse(readFileSync(join(root, 'fixtures/pages/labels.json'), 'utf8')).filter(
      ({ file }: { file: string }) => file === '5-half-solved.jpg',
    )
    const { handwriting, pencilMarks } = page.grids[0]
    const name = (cell: number) => `r${Math.floor(cell / 9) + 1}c${(cell % 9) + 1}`
    for (const { cell, digit } of handwriting) expect(stdout).toContain(`${name(cell)}=${digit}`)
    for (const { cell, digits } of pencilMarks) expect(stdout).toContain(`${name(cell)} ${digits.join('')}`)
    expect(stdout).toMatch(/progress: (on|off)-track\n {2}\S/)
  })

  it('embed-hints goes from the vague to the whole, and to mistakes', async () => {
    const stdout = await run('embed-hints')
    for (const kind of ['look', 'method', 'cells', 'argument', 'mistake', 'unsound'])
      expect(stdout).toContain(`[${kind}]`)
  })

  it('export-frames saves a picture for each sentence, and when it comes', async () => {
    const stdout = await run('export-frames')
    const [, count, folder] = /^(\d+) pictures 1920 pixels wide and their times are in (.+)$/m.exec(stdout)!
    expect(Number(count)).toBeGreaterThan(5)
    const { width, height } = await sharp(join(folder!, '01.png')).metadata()
    expect([width, height]).toEqual([1920, 1080])
    const cues = readFileSync(join(folder!, 'cues.vtt'), 'utf8')
    expect(cues.match(/-->/g)).toHaveLength(Number(count))
  })

  it('grade-a-folder sorts the week by what it demands and saves records', async () => {
    const stdout = await run('grade-a-folder')
    const days = [...stdout.matchAll(/(\w+day)$/gm)].map(([, day]) => day)
    expect(new Set(days).size).toBe(7)
    expect(days[0]).toBe('Monday')
    expect(days[6]).toBe('Sunday')
    const [, file] = /records in (.+\.jsonl)/.exec(stdout)!
    const lines = readFileSync(file!, 'utf8').trim().split('\n')
    expect(lines).toHaveLength(7)
    for (const line of lines) gradeRecordSchema.parse(JSON.parse(line))
  })

  it('grade-with-a-bar grades a folder once, and goes on with what it has', async () => {
    rmSync(join(root, 'out/archive.jsonl'), { force: true })
    expect(await run('grade-with-a-bar')).toMatch(/^24 records in .+, 0 of them from before; 0 not read/)
    expect(await run('grade-with-a-bar')).toMatch(/^24 records in .+, 24 of them from before; 0 not read/)
  })

  it('report-on-a-folder saves a page with pictures', async () => {
    const [, file] = /report is in (.+\.html)/.exec(await run('report-on-a-folder'))!
    expect(readFileSync(file!, 'utf8')).toMatch(/^<!doctype html>[\s\S]*31 puzzles were graded[\s\S]*<svg /)
  })

  it('technique-coverage counts what the week uses', async () => {
    const stdout = await run('technique-coverage')
    expect(stdout).toMatch(/^7 puzzles: 7 solved, 0 stuck, 0 unsound; \d+ rounds/)
    expect(stdout).toMatch(/Hidden single +scan/)
  })

  it('exercises-for-a-class prints twelve positions and saves a sheet with pictures', async () => {
    const stdout = await run('exercises-for-a-class')
    expect(stdout.match(/^\d+\. No\. \d+: Look at /gm)!.length).toBe(12)
    const [, file] = /exercises in (.+\.html)/.exec(stdout)!
    expect(readFileSync(file!, 'utf8').match(/<svg /g)).toHaveLength(24)
  })

  it('pick-for-the-week picks by key, level and need', async () => {
    const stdout = await run('pick-for-the-week')
    const [, three] = /^Three of the easiest, with rising effort: (.+)$/m.exec(stdout)!
    const efforts = [...three!.matchAll(/\((\d+)\)/g)].map(([, effort]) => Number(effort))
    expect(efforts).toHaveLength(3)
    expect(efforts).toEqual([...efforts].sort((a, b) => a - b))
    expect(stdout).toMatch(/^An XY-chain is needed by those who know patterns: No\. \d+/m)
    expect(stdout).toMatch(/No\. \d+: XY-chain$/m)
  })
})
