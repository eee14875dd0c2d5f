import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { gradeFiles } from '../../src/batch/grade-files.js'
import { createPool } from '../../src/batch/threads/node-pool.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { puzzleToJson } from '../../src/grid/json.js'
import { makePuzzle } from '../../src/grid/puzzle.js'

const workerFile = new URL('./source-worker.mjs', import.meta.url)
const photo = fileURLToPath(new URL('../../fixtures/pages/1-front-page.jpg', import.meta.url))

/** A batch stops within 200 ms; the rest is for what else the machine of a test does. */
const PATIENCE = 1500

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-abort-'))
  // empty grids of order 16 take minutes each
  const empty = makePuzzle(new Array(256).fill(0), boxedGeometry(4, 4))
  writeFileSync(join(folder, 'endless.json'), `${JSON.stringify(puzzleToJson(empty))}\n`.repeat(40))
})
afterAll(() => rmSync(folder, { recursive: true }))

it.each([
  [0, 'endless.json'],
  [2, 'endless.json'],
  [8, 'endless.json'],
  [0, photo],
  [2, photo],
])('with %i workers a batch stops at once in the middle of %s', async (workers, name) => {
  const files = new Array<string>(20).fill(name === photo ? photo : join(folder, name))
  for (const wait of [0, 700]) {
    const controller = new AbortController()
    let aborted = 0
    setTimeout(() => {
      aborted = performance.now()
      controller.abort()
    }, wait)
    const reading = (async () => {
      for await (const _ of gradeFiles(files, { workers, workerFile, signal: controller.signal }));
    })()
    await expect(reading).rejects.toMatchObject({ code: 'aborted' })
    expect(performance.now() - aborted).toBeLessThan(PATIENCE)
  }
})

it('one job of a pool can be stopped, waiting or at work, and the others go on', async () => {
  const pool = await createPool(1, { workerFile })
  const job = { kind: 'read', picture: photo, options: {} } as const
  const [first, second] = [new AbortController(), new AbortController()]
  const outcomes = [
    pool.run(job, { signal: first.signal }),
    pool.run(job, { signal: second.signal }),
    pool.run(job),
  ]
  setTimeout(() => {
    first.abort()
    second.abort()
  }, 30)
  const [one, two, three] = await Promise.allSettled(outcomes)
  expect([one, two]).toMatchObject([{ reason: { code: 'aborted' } }, { reason: { code: 'aborted' } }])
  expect(three).toMatchObject({ value: { ok: true } })
  await pool.close()
})
