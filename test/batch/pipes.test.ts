import { execFileSync } from 'node:child_process'
import { mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { gradeFolder } from '../../src/batch/grade-files.js'
import type { GradeRecord } from '../../src/batch/records/grade-record.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { PUZZLES } from '../support/puzzles.js'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gridreason-pipes-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

function pipe(name: string): string {
  const path = join(folder, name)
  execFileSync('mkfifo', [path])
  return path
}

async function stoppedAfter(target: string): Promise<number> {
  const controller = new AbortController()
  let aborted = 0
  setTimeout(() => {
    aborted = performance.now()
    controller.abort()
  }, 60)
  const reading = (async () => {
    for await (const _ of gradeFolder(target, { workers: 0, signal: controller.signal }));
  })()
  await expect(reading).rejects.toMatchObject({ code: 'aborted' })
  return performance.now() - aborted
}

/** Longer than the 100 ms that limits promise, as other programs run on the machine of a test. */
const PATIENCE = 1500

// Windows has neither named pipes in the file system nor devices such as /dev/zero.
describe.skipIf(process.platform === 'win32')('gradeFolder on what is no file', () => {
  it('stops at the signal while nobody writes into a pipe, and while a writer is silent', async () => {
    expect(await stoppedAfter(pipe('unopened'))).toBeLessThan(PATIENCE)
    const silent = pipe('silent')
    openSync(silent, 'r+')
    expect(await stoppedAfter(silent)).toBeLessThan(PATIENCE)
  })

  it('stops at the signal in an endless device', async () => {
    const endless = pipe('endless')
    const writer = openSync(endless, 'r+')
    const timer = setInterval(() => writeSync(writer, '# on and on\n'.repeat(100)), 5)
    expect(await stoppedAfter(endless)).toBeLessThan(PATIENCE)
    clearInterval(timer)
    for (const [device, because] of [
      ['/dev/zero', 'format'],
      ['/dev/null', 'empty'],
    ] as const) {
      const records: GradeRecord[] = []
      for await (const record of gradeFolder(device, { workers: 0 })) records.push(record)
      expect(records).toMatchObject([{ skipped: { because } }])
    }
  })

  it('grades what comes through a pipe', async () => {
    const path = pipe('puzzles')
    const records: GradeRecord[] = []
    const reading = (async () => {
      for await (const record of gradeFolder(path, { workers: 0 })) records.push(record)
    })()
    await new Promise((resolve) => setTimeout(resolve, 50))
    writeFileSync(path, `${formatPuzzle(PUZZLES.singles)}\n${formatPuzzle(PUZZLES.xWing)}\n`)
    await reading
    expect(records.map((record) => 'grade' in record && record.grade.level)).toEqual(['scan', 'pattern'])
  })

  it('gives up a puzzle at its time limit and goes on with the next', async () => {
    const hard = join(folder, 'hard.txt')
    const line = '..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1........4...9'
    writeFileSync(hard, `${line}\n${formatPuzzle(PUZZLES.singles)}\n`)
    const stopped = { workers: 0, techniques: ['mutant-jellyfish'] } as const
    const records: GradeRecord[] = []
    for await (const record of gradeFolder(hard, { ...stopped, timeLimit: 1 })) records.push(record)
    expect(records[0]).toMatchObject({ error: { code: 'time-limit' } })
    expect(records).toHaveLength(2)
  })
})
