import { execFile, execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { afterAll, describe, expect, it } from 'vitest'
import { mergeGrades } from '../../src/batch/merge-grades.js'
import { writeGrades } from '../../src/batch/write-grades.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { PUZZLES } from '../support/puzzles.js'

const root = fileURLToPath(new URL('../../', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'gridreason-queue-'))
afterAll(() => rmSync(folder, { recursive: true }))

function hasRedis(): boolean {
  try {
    execFileSync('redis-server', ['--version'])
    return true
  } catch {
    return false
  }
}

// A Redis server is no package of npm; `.ci/run` installs it, other machines may be without.
describe.skipIf(!hasRedis())('a folder under a queue', () => {
  it('has the records of one run, though a worker is killed in the middle', async () => {
    const source = join(folder, 'source')
    mkdirSync(join(source, 'more'), { recursive: true })
    const lines = Object.values(PUZZLES).map((puzzle) => formatPuzzle(puzzle))
    for (const name of ['a', 'b', 'more/c', 'more/d'])
      writeFileSync(
        join(source, `${name}.txt`),
        `${[...lines, ...lines, ...lines].join('\n')}\nbroken 1.2.3\n`,
      )
    const out = join(folder, 'queue.jsonl')
    const { stdout } = await promisify(execFile)(
      process.execPath,
      ['--import', 'tsx', 'examples/queue/grade-under-a-queue.ts', source, out],
      { cwd: root, encoding: 'utf8' },
    )
    expect(stdout).toContain('One of two workers was killed.')
    expect(stdout).toContain('written twice: 0; not finished: 0')
    const [run, whole] = [join(folder, 'run.jsonl'), join(folder, 'whole.jsonl')]
    await writeGrades(source, run, { workers: 0 })
    await mergeGrades([run], whole)
    expect(readFileSync(out, 'utf8')).toBe(readFileSync(whole, 'utf8'))
  }, 120_000)
})
