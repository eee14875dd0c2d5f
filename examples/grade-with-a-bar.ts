/**
 * Grade a large folder with a bar on the terminal: how many are done, how fast, how long it will take. Stop it with
 * Ctrl+C, and run it again to go on.
 *
 *     npx tsx examples/grade-with-a-bar.ts [file or folder …]
 */
import { mkdirSync } from 'node:fs'
import { basename } from 'node:path'
import { fileURLToPath } from 'node:url'
import { progress as terminalBar } from '@clack/prompts'
import { type BatchProgress, writeGrades } from '../src/batch.js'
import { GridreasonError } from '../src/index.js'

const named = process.argv.slice(2)
const targets = named.length > 0 ? named : [fileURLToPath(new URL('archive', import.meta.url))]
const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
const file = `${out}archive.jsonl`

const STEPS = 1000
const stop = new AbortController()
process.once('SIGINT', () => stop.abort())
const bar = process.stdout.isTTY
  ? terminalBar({ max: STEPS, style: 'block', onCancel: () => stop.abort() })
  : undefined
bar?.start('Looking for puzzles')
let shown = 0

/** As much of the bar as is done, of the bytes where the number of records is not known yet. */
function show(progress: BatchProgress): void {
  const { done, total, bytes, totalBytes } = progress
  const share = total ? done / total : totalBytes ? bytes / totalBytes : 0
  const steps = Math.max(0, Math.floor(share * STEPS) - shown)
  bar?.advance(steps, said(progress))
  shown += steps
}

function said({ done, total, errors, rate, timeLeft, file }: BatchProgress): string {
  return [
    `${done}${total === undefined ? '' : ` of ${total}`}`,
    ...(errors > 0 ? [`${errors} not read`] : []),
    `${Math.round(rate)} a second`,
    ...(timeLeft === undefined ? [] : [`${duration(timeLeft)} left`]),
    basename(file),
  ].join(' · ')
}

function duration(milliseconds: number): string {
  const seconds = Math.ceil(milliseconds / 1000)
  return seconds < 100 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`
}

try {
  const { records, earlier, errors, coverage } = await writeGrades(targets, file, {
    signal: stop.signal,
    onProgress: show,
  })
  bar?.stop(`${records} records`)
  console.log(`${records} records in ${file}, ${earlier} of them from before; ${errors} not read`)
  for (const [level, count] of Object.entries(coverage.levels)) console.log(`${level.padEnd(8)} ${count}`)
} catch (error) {
  if (!(error instanceof GridreasonError)) throw error
  bar?.stop('Stopped')
  console.error(error.code === 'aborted' ? 'Stopped; run it again to go on.' : error.message)
  process.exitCode = 1
}
