/**
 * Routes through puzzles: `npm run bench:routes -- FILE… [--first N] [--techniques A,B,…] [--max-links N]
 * [--exhaustive]`.
 *
 * Prints one JSON object as its last line. `oneKey`: puzzles opened by a single step beyond the workaday techniques.
 * `hardStepsMean` and `hardStepsBefore`: steps beyond the workaday techniques, of the route and of the path that
 * `solve` takes; over the puzzles that have a route. `needless`: steps beyond singles which can be left out of a route
 * with the rest still filling the board, and `unproven`: steps that `verifyStep` refuses; both must be 0. `provenBest`:
 * routes proven to have the fewest keys. With `--exhaustive` every step of every technique is tried where the workaday
 * ones first rest (`support/single-keys.ts`): `keysExist`: puzzles that some single step opens, `keysMissed`: those of
 * them whose route has more keys. Times are those of the processor, so that other work on the machine counts for less.
 */

import { parseArgs } from 'node:util'
import { openCount } from '../src/grid/board/ask.js'
import { newBoard } from '../src/grid/board/make.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import { runNow } from '../src/limits.js'
import { verifyStep } from '../src/logic/proof/proof.js'
import { solve } from '../src/logic/solving/solve.js'
import { findRoute, type RouteOptions } from '../src/route/find-route.js'
import { fills } from '../src/route/replay.js'
import { isSingle, restWithin, WORKADAY_TECHNIQUES } from '../src/route/workaday.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { singleKey } from './support/single-keys.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    first: { type: 'string' },
    techniques: { type: 'string' },
    'max-links': { type: 'string' },
    exhaustive: { type: 'boolean' },
  },
})
if (files.length === 0) {
  console.error(
    'Usage: npm run bench:routes -- FILE… [--first N] [--techniques A,B,…] [--max-links N] [--exhaustive]',
  )
  process.exit(2)
}

const options = {
  ...(values.techniques && { techniques: values.techniques.split(',') }),
  ...(values['max-links'] && { maxLinks: Number(values['max-links']) }),
} as RouteOptions
const lines = readPuzzleLines(files).slice(0, values.first ? Number(values.first) : undefined)
const puzzles = lines.map(({ givens }) => makePuzzle(givens))
const workaday: ReadonlySet<string> = new Set(WORKADAY_TECHNIQUES)

let solved = 0
let oneKey = 0
let hardSteps = 0
let hardStepsBefore = 0
let needless = 0
let unproven = 0
let provenBest = 0
let keysExist = 0
let keysMissed = 0
const seconds: number[] = []
for (const puzzle of puzzles) {
  const from = process.cpuUsage()
  const route = findRoute(puzzle, options)
  const { user, system } = process.cpuUsage(from)
  seconds.push((user + system) / 1e6)
  if (values.exhaustive) {
    const { board } = runNow({}, (watch) => restWithin(watch, newBoard(puzzle), WORKADAY_TECHNIQUES))
    const exists = openCount(board) > 0 && singleKey(board, options) !== undefined
    keysExist += Number(exists)
    if (exists && (route.status !== 'solved' || route.keys.length > 1)) keysMissed++
  }
  if (route.status !== 'solved') continue
  solved++
  oneKey += Number(route.keys.length === 1)
  hardSteps += route.keys.length
  hardStepsBefore += solve(puzzle, { preset: 'chain' }).steps.filter((s) => !workaday.has(s.technique)).length
  provenBest += Number(route.best === 'proven')
  for (const step of route.steps) unproven += Number(!verifyStep(step.before, step).proven)
  const start = newBoard(puzzle)
  const beyondSingles = route.steps.filter((step) => !isSingle(step))
  for (const left of beyondSingles)
    needless += Number(
      runNow({}, (watch) =>
        fills(
          start,
          beyondSingles.filter((step) => step !== left),
          watch,
        ),
      ),
    )
}
seconds.sort((a, b) => a - b)
const rounded = (n: number) => Math.round(n * 1000) / 1000
console.log(
  JSON.stringify({
    puzzles: puzzles.length,
    solved,
    oneKey,
    ...(values.exhaustive && { keysExist, keysMissed }),
    hardStepsMean: rounded(hardSteps / solved),
    hardStepsBefore: rounded(hardStepsBefore / solved),
    needless,
    unproven,
    provenBest,
    secondsMedian: rounded(seconds[seconds.length >> 1]!),
    secondsWorst: rounded(seconds.at(-1)!),
  }),
)
