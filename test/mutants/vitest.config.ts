import { matchesGlob, relative } from 'node:path'
import { defineConfig } from 'vitest/config'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { MUTANT_ROOMS } from './rooms.js'

// Stryker knows one vitest configuration; which room's tests it runs comes from `run.ts` by way of the environment.
const room = MUTANT_ROOMS.find(({ name }) => name === process.env.MUTANT_ROOM)
if (!room) throw new Error('MUTANT_ROOM names no room of test/mutants/rooms.ts')
const root = new URL('../..', import.meta.url).pathname
const include = room.tests.filter((glob) => !glob.startsWith('!'))

/** The room's own order: the first test that fails ends the run, so the quick ones go first. */
class RoomOrder extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) =>
      include.findIndex((glob) => matchesGlob(relative(root, moduleId), glob))
    return files.sort((a, b) => rank(a) - rank(b))
  }
}

export default defineConfig({
  test: {
    root,
    include,
    exclude: room.tests.filter((glob) => glob.startsWith('!')).map((glob) => glob.slice(1)),
    testTimeout: 60_000,
    // every run gets a new thread; within it the sources are loaded once for all test files
    isolate: false,
    sequence: { sequencer: RoomOrder },
  },
})
