import { readdirSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, matchesGlob } from 'node:path'
import { Script } from 'node:vm'
import { build } from 'esbuild'
import { NeedsFreshModules, type RoomTest, TestCollector } from './room-tests.js'
import { MUTANT_ROOMS } from './rooms.js'

/** What changed sources read and write: which mutant is alive, and which are reached by which test. */
interface Switchboard {
  activeMutant?: string
  currentTestId?: string
  hitCount?: number
  hitLimit?: number
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> }
}
const switchboard: Switchboard = ((globalThis as { __stryker__?: Switchboard }).__stryker__ ??= {})

interface MutantRun {
  readonly activeMutant: { readonly id: string }
  /** Ids of the tests that reach the mutant; left out where it is reached while modules load. */
  readonly testFilter?: readonly string[]
  /** A mutant reached more often than this does not end. */
  readonly hitLimit?: number
  readonly mutantActivation: 'static' | 'runtime'
}

type TestFile = (require: (name: string) => unknown) => unknown

/**
 * Runs the tests of one room within the process that Stryker starts, a thread and a transformation of every module a
 * mutant being most of what a run by the test runner proper costs. Sources and tests are made into one script, once; a test
 * file is given modules of its own by evaluating it again, so that nothing that a mutant has left in them outlives it.
 */
class RoomRunner {
  private files: readonly string[] = []
  private evaluate!: () => Readonly<Record<string, TestFile>>

  capabilities() {
    return { reloadEnvironment: true }
  }

  /** The working directory is the copy of the project with the changed sources. */
  async init(): Promise<void> {
    this.files = testFiles(process.env.MUTANT_ROOM)
    const entry = this.files.map((file) => {
      const path = JSON.stringify(file)
      return `exports[${path}] = () => import('./' + ${path})`
    })
    const { outputFiles } = await build({
      stdin: { contents: entry.join('\n').replaceAll("'./' + \"", '"./'), resolveDir: process.cwd() },
      bundle: true,
      write: false,
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      packages: 'external',
      logLevel: 'error',
    })
    const script = new Script(`(function (exports, require) {${outputFiles[0]!.text}\n})`)
    const packages = createRequire(join(process.cwd(), 'package.json'))
    this.evaluate = () => {
      throw new Error(`${script} ${packages}`)
    }
  }
}
