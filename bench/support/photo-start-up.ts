import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { SpeedPage } from './speed-pages.js'

export interface StartUp {
  /** Which digit reader the photo reader was made with. */
  readonly reader: string
  /** From loading the module to the first reading. */
  readonly ms: number
  readonly rssMiB: number
  readonly engineLoaded: boolean
}

const PROGRAM = fileURLToPath(new URL('./start-reader.ts', import.meta.url))

/** Starts a process with each digit reader, which reads one small photo and says what it took. */
export function startUps({ small }: SpeedPage): StartUp[] {
  const folder = mkdtempSync(join(tmpdir(), 'start-up-'))
  const photo = join(folder, 'page.jpg')
  writeFileSync(photo, small)
  try {
    return ['network', 'tesseract'].map((reader) => {
      const { stdout, stderr, status } = spawnSync(
        process.execPath,
        ['--import', 'tsx', PROGRAM, reader, photo],
        { encoding: 'utf8' },
      )
      if (status !== 0) throw new Error(`The start-up of the ${reader} reader failed: ${stderr}`)
      return { reader, ...(JSON.parse(stdout) as Omit<StartUp, 'reader'>) }
    })
  } finally {
    rmSync(folder, { recursive: true })
  }
}
