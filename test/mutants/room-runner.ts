import { readdirSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, matchesGlob } from 'node:path'
import { Script } from 'node:vm'
import { build } from 'esbuild'
import { vi } from 'vitest'
import { NeedsFreshModules, type RoomTest, TestCollector } from './room-tests.js'
import { MUTANT_ROOMS, type MutantRoom } from './rooms.js'

/** What the changed sources read and write: which mutant is alive, and which are reached by which test. */
interface Switchboard {
  activeMutant?: string | undefined
  currentTestId?: string | undefined
  hitCount?: number | undefined
  hitLimit?: number | undefined
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> }
}
const shared = globalThis as { __stryker__?: Switchboard }
shared.__stryker__ ??= {}
const switchboard = shared.__stryker__

interface MutantRun {
  readonly activeMutant: { readonly id: string }
  /** Ids of the tests that reach the mutant; all tests when left out. */
  readonly testFilter?: readonly string[]
  /** A mutant reached more often than this does not end. */
  readonly hitLimit?: number
  /** Is the mutant alive while modules load, or from then on? */
  readonly mutantActivation: 'static' | 'runtime'
}

/** The numbers that Stryker knows. */
const STATUS = { passed: 0, failed: 1, skipped: 2 } as const

/**
 * Runs the tests of a room within the process that Stryker has started: with a test runner proper, a new thread and the
 * modules handed over to it are most of what a mutant costs. Sources and tests become one script, compiled once; each
 * test file is given modules of its own by evaluating it again, so that nothing outlives a mutant.
 */
class RoomRunner {
  private files: readonly string[] = []
  private leftOut: RegExp | undefined
  private evaluate!: (require: (name: string) => unknown) => Readonly<Record<string, () => unknown>>

  capabilities() {
    return { reloadEnvironment: true }
  }

  /** The working directory is a copy of the project that has all mutants in its sources, asleep. */
  async init(): Promise<void> {
    const room = roomFromEnvironment()
    this.files = testFilesOf(room)
    this.leftOut = room.leftOut
    const { outputFiles } = await build({
      stdin: {
        contents: this.files.map((file) => `exports['${file}'] = () => require('./${file}')`).join('\n'),
        resolveDir: process.cwd(),
      },
      bundle: true,
      write: false,
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      packages: 'external',
      logLevel: 'error',
    })
    const script = new Script(`(function (exports, require) {${outputFiles[0]!.text}\n})`)
    this.evaluate = (require) => {
      const exports = {}
      script.runInThisContext()(exports, require)
      return exports
    }
  }

  async dryRun() {
    const mutantCoverage = { static: {}, perTest: {} }
    Object.assign(switchboard, { mutantCoverage, activeMutant: undefined, hitLimit: undefined })
    const tests: object[] = []
    for (const file of this.files) {
      const count = this.load(file).length
      // what loading reaches is the same each time
      switchboard.mutantCoverage = { static: {}, perTest: mutantCoverage.perTest }
      for (let i = 0; i < count; i++) {
        // with modules of its own, since what one test has made once, the next would not be seen to need
        const { id, name, run } = this.load(file)[i]!
        switchboard.currentTestId = id
        const begun = performance.now()
        const trouble = await troubleOf(run)
        switchboard.currentTestId = undefined
        tests.push({
          id,
          name,
          fileName: join(process.cwd(), file),
          timeSpentMs: performance.now() - begun,
          ...(trouble === undefined
            ? { status: STATUS.passed }
            : trouble instanceof NeedsFreshModules
              ? { status: STATUS.skipped }
              : { status: STATUS.failed, failureMessage: `${trouble}` }),
        })
      }
      switchboard.mutantCoverage = mutantCoverage
    }
    return { status: 'complete', tests, mutantCoverage }
  }

  async mutantRun({ activeMutant, testFilter, hitLimit: dueLimit, mutantActivation }: MutantRun) {
    const wanted = testFilter && new Set(testFilter)
    const hitLimit = dueLimit && Math.ceil(dueLimit / SOONER)
    Object.assign(switchboard, { hitCount: 0, hitLimit, mutantCoverage: { static: {}, perTest: {} } })
    let nrOfTests = 0
    for (const file of this.files) {
      if (testFilter && !testFilter.some((id) => id.startsWith(`${file}#`))) continue
      let tests: readonly RoomTest[]
      switchboard.activeMutant = mutantActivation === 'static' ? activeMutant.id : undefined
      try {
        tests = guarded(() => this.load(file))
      } catch (trouble) {
        if (isEndless(trouble)) return { status: 'timeout', reason: `while ${file} was loaded` }
        // a file that does not load has failed as well as a test has
        switchboard.activeMutant = undefined
        const [first] = this.load(file)
        return { status: 'killed', killedBy: [first!.id], failureMessage: `${trouble}`, nrOfTests }
      }
      switchboard.activeMutant = activeMutant.id
      for (const test of tests) {
        if (wanted && !wanted.has(test.id)) continue
        nrOfTests++
        const trouble = await troubleOf(() => guarded(() => test.run()))
        const { hitCount } = switchboard
        if (isEndless(trouble) || (hitLimit !== undefined && hitCount! > hitLimit))
          return { status: 'timeout', reason: `${test.name}, reached ${hitCount} times` }
        if (trouble !== undefined && !(trouble instanceof NeedsFreshModules))
          return { status: 'killed', killedBy: [test.id], failureMessage: `${trouble}`, nrOfTests }
      }
    }
    return { status: 'survived', nrOfTests }
  }

  async dispose(): Promise<void> {}

  /** The tests of a file, with modules that no other has used. */
  private load(file: string): readonly RoomTest[] {
    const collector = new TestCollector(file)
    this.evaluate((name) => (name === 'vitest' ? collector.api : packages(name)))[file]!()
    return collector.tests.filter(({ name }) => !this.leftOut?.test(name))
  }
}

/** Stryker's own limit is a hundred times what the tests reach without a mutant. */
const SOONER = 10

const packages = createRequire(import.meta.url)

/** What went wrong, if anything did. */
async function troubleOf(run: () => Promise<void>): Promise<unknown> {
  try {
    await run()
    return undefined
  } catch (trouble) {
    return trouble ?? new Error('thrown: nothing')
  }
}

/** Milliseconds after which work without a pause counts as endless. */
const LONGEST = 15_000

const CALL = new Script('__guarded__()')

/**
 * Breaks off work that does not end: to wait until Stryker gives up and starts another process takes far longer. What a
 * test does after it has waited for something is not guarded.
 */
function guarded<Result>(work: () => Result): Result {
  const scope = globalThis as { __guarded__?: () => Result }
  scope.__guarded__ = work
  try {
    return CALL.runInThisContext({ timeout: LONGEST }) as Result
  } catch (trouble) {
    if (isEndless(trouble)) {
      vi.restoreAllMocks()
      vi.unstubAllGlobals()
    }
    throw trouble
  }
}

function isEndless(trouble: unknown): boolean {
  return (trouble as { code?: string } | undefined)?.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT'
}

/** Stryker starts processes of its own for the tests; which room they are for comes from `run.ts` that way. */
function roomFromEnvironment(): MutantRoom {
  const room = MUTANT_ROOMS.find(({ name }) => name === process.env.MUTANT_ROOM)
  if (!room) throw new Error('MUTANT_ROOM names no room of test/mutants/rooms.ts')
  return room
}

/** Quickest first, as the room lists them: the first test that fails ends a run. */
function testFilesOf({ tests }: MutantRoom): string[] {
  const globs = tests.filter((glob) => !glob.startsWith('!'))
  const excluded = tests.filter((glob) => glob.startsWith('!')).map((glob) => glob.slice(1))
  const rank = (file: string) => globs.findIndex((glob) => matchesGlob(file, glob))
  return readdirSync('test', { recursive: true, encoding: 'utf8' })
    .map((path) => `test/${path.replaceAll('\\', '/')}`)
    .filter((file) => rank(file) >= 0 && !excluded.some((glob) => matchesGlob(file, glob)))
    .sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1))
}

export const strykerPlugins = [{ kind: 'TestRunner', name: 'room', injectableClass: RoomRunner }]
