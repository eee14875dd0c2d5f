import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, expect, it } from 'vitest'
import { LineSorter } from '../../../src/batch/records/sort-lines.js'

const folder = mkdtempSync(join(tmpdir(), 'gridreason-sort-'))
afterAll(() => rmSync(folder, { recursive: true }))

async function sorted(lines: readonly string[], memory: number): Promise<string[]> {
  const sorter = new LineSorter('run', { folder, memory })
  for (const line of lines) await sorter.add(line)
  const result: string[] = []
  for await (const line of sorter.sorted()) result.push(line)
  return result
}

it('sorts as in memory, however little of it there is, and leaves nothing behind', async () => {
  const line = fc.string({ unit: 'grapheme', maxLength: 8 }).map((text) => text.replace(/[\r\n]/g, ' '))
  await fc.assert(
    fc.asyncProperty(
      fc.array(line, { maxLength: 60 }),
      fc.integer({ min: 40, max: 600 }),
      async (lines, memory) => {
        expect(await sorted(lines, memory)).toEqual([...lines].sort())
        expect(readdirSync(folder)).toEqual([])
      },
    ),
    { seed: 3, numRuns: 40 },
  )
})

it('merges more sorted pieces than are read at once', async () => {
  const lines = Array.from({ length: 150 }, (_, i) => String((i * 7919) % 1009).padStart(4, '0'))
  // two lines fill the memory, so that there are 75 pieces
  expect(await sorted(lines, 60)).toEqual([...lines].sort())
})
