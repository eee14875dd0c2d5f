import { spawnSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { CELL_SIZE } from '../../../src/photo/digits/digit-reader.js'
import { createTesseractReader } from '../../../src/photo/digits/tesseract-reader.js'
import { type DrawnCell, drawCells } from './drawn-cells.js'

const SEED = 7042
const READER = new URL('../../../src/photo/digits/tesseract-reader.ts', import.meta.url).href

describe('the tesseract reader', () => {
  const reader = createTesseractReader()
  let cells: DrawnCell[]
  beforeAll(async () => {
    cells = await drawCells(60, SEED)
  })
  afterAll(() => reader.close())

  it('reads drawn cells of several families, nine in ten right', async () => {
    const scores = await reader.read(cells.map(({ picture }) => picture))
    const right = scores.filter(({ digits }, i) => digits.indexOf(Math.max(...digits)) === cells[i]!.digit)
    expect(right.length).toBeGreaterThanOrEqual(0.9 * cells.length)
    for (const { digits, handwritten } of scores) {
      expect(digits.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 5)
      expect(handwritten).toBe(0)
    }
  })

  it('says the same of a cell alone as among others', async () => {
    const some = cells.slice(0, 12).map(({ picture }) => picture)
    const together = await reader.read(some)
    const alone = await Promise.all(some.map((picture) => reader.read([picture])))
    expect(alone.flat()).toEqual(together)
  })

  it('stops when asked to', async () => {
    const reading = reader.read([cells[1]!.picture], { signal: AbortSignal.abort() })
    await expect(reading).rejects.toMatchObject({ code: 'aborted' })
  })

  it('can be used again after it was closed', async () => {
    await reader.close()
    await reader.close()
    const [score] = await reader.read([cells[3]!.picture])
    expect(score!.digits[3]).toBeGreaterThan(0.5)
  })
})

it('starts no engine for blank cells, and an idle engine keeps no program running', () => {
  const program = `
    import { createTesseractReader } from ${JSON.stringify(READER)}
    const reader = createTesseractReader()
    const blank = { data: new Uint8Array(${CELL_SIZE ** 2}).fill(255) }
    const bar = { data: blank.data.map((v, i) => (i % 40 > 17 && i % 40 < 22 && i > 400 && i < 1200 ? 0 : 255)) }
    const threads = () => process.getActiveResourcesInfo().filter((kind) => kind === 'MessagePort' || kind === 'Worker').length
    const before = threads()
    const [score] = await reader.read([blank])
    console.log(score.digits[0] > 0.9, threads() - before)
    await reader.read([bar])
    console.log('read')`
  const file = join(mkdtempSync(join(tmpdir(), 'digits-')), 'idle.mts')
  writeFileSync(file, program)
  const run = spawnSync(process.execPath, ['--import', 'tsx', file], {
    cwd: fileURLToPath(new URL('../../..', import.meta.url)),
    encoding: 'utf8',
    timeout: 50_000,
  })
  expect(run.stderr).toBe('')
  expect(run.stdout).toBe('true 0\nread\n')
  expect(run.status).toBe(0)
})
