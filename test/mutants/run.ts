// Mutation testing: npm run mutate -- [ROOM…] [--only FILE[:LINE-LINE]…] [--fresh] [--concurrency N]
//
// Changes the sources of a room in one place at a time and runs the tests that reach that place. Results are kept in
// out/mutants, and only what changed since is tried again, unless --fresh.
import { mkdirSync, rmSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { Stryker } from '@stryker-mutator/core'
import { describeRoom, type RoomFigures, readSurvivorList, tallyRoom } from './figures.js'
import { MUTANT_ROOMS, type MutantRoom } from './rooms.js'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    only: { type: 'string', multiple: true },
    fresh: { type: 'boolean', default: false },
    concurrency: { type: 'string', default: '2' },
  },
})

const unknown = positionals.filter((name) => !MUTANT_ROOMS.some((room) => room.name === name))
if (unknown.length > 0) {
  console.error(`no room ${unknown.join(', ')}; rooms: ${MUTANT_ROOMS.map(({ name }) => name).join(', ')}`)
  process.exit(2)
}

const rooms = MUTANT_ROOMS.filter(({ name }) => positionals.length === 0 || positionals.includes(name))
const listed = readSurvivorList()
let allReached = true
for (const room of rooms) {
  const figures = await tryRoom(room)
  console.log(describeRoom(room, figures))
  if (figures.score < room.target) allReached = false
}
process.exitCode = allReached ? 0 : 1

async function tryRoom(room: MutantRoom): Promise<RoomFigures> {
  // for the processes that Stryker starts: which room's tests to run, and how to load a runner in TypeScript
  process.env.MUTANT_ROOM = room.name
  process.env.NODE_OPTIONS = `--import ${import.meta.resolve('tsx')}`
  const folder = `out/mutants/${room.name}`
  mkdirSync(folder, { recursive: true })
  if (values.fresh) rmSync(`${folder}/results.json`, { force: true })
  const begun = performance.now()
  const results = await new Stryker({
    configFile: 'test/mutants/stryker.json',
    mutate: [...(values.only ?? room.sources)],
    incrementalFile: `${folder}/results.json`,
    htmlReporter: { fileName: `${folder}/report.html` },
    // inside the project, so that packages are found from there without a link
    tempDirName: `${folder}/sandbox`,
    concurrency: Number(values.concurrency),
  }).runMutationTest()
  const seconds = (performance.now() - begun) / 1000
  return tallyRoom(results, `${folder}/results.json`, listed, seconds, values.only === undefined)
}
