/** Runs of `writeGrades` in a process of their own that is killed again and again. */
import { spawn } from 'node:child_process'
import { existsSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const CHILD = fileURLToPath(new URL('./write-child.mjs', import.meta.url))

export interface KilledRuns {
  readonly source: string
  readonly out: string
  /** Module with `writeGrades`: the sources of batch, or a build of it. */
  readonly door: string
  readonly options: object
  /** Kills at most; the run after them is left to its end. */
  readonly kills: number
  /** 0 to 1, one after another. */
  readonly random: () => number
  /** Bytes of the whole output, roughly. */
  readonly bytes: number
}

/**
 * Kills the run each time once the file has grown by a random number of bytes.
 *
 * @returns how many kills hit a run at work
 */
export async function runKilled(runs: KilledRuns): Promise<number> {
  let hits = 0
  for (let kill = 0; kill < runs.kills; kill++) {
    const from = sizeOf(runs.out)
    const step = Math.ceil((2 * runs.bytes) / runs.kills)
    if (await endOfRun(runs, from + Math.floor(runs.random() * step))) return hits
    hits++
  }
  if (!(await endOfRun(runs, Number.POSITIVE_INFINITY))) throw new Error('The last run did not end.')
  return hits
}

/** Was the run at its end before the file had so many bytes? */
function endOfRun({ source, out, door, options }: KilledRuns, bytes: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const args = ['--import', 'tsx', CHILD, door, source, out, JSON.stringify(options)]
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] })
    const look = setInterval(() => {
      if (sizeOf(out) > bytes) child.kill('SIGKILL')
    }, 1)
    child.on('error', reject)
    child.on('exit', (code, signal) => {
      clearInterval(look)
      if (code === 0) resolve(true)
      else if (signal === 'SIGKILL') resolve(false)
      else reject(new Error(`The run ended with ${code ?? signal}.`))
    })
  })
}

function sizeOf(file: string): number {
  return existsSync(file) ? statSync(file).size : 0
}
