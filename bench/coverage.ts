/**
 * How much of a set of puzzles the techniques reach, and how fast: `npm run bench:coverage -- FILE… [--preset P]
 * [--profile] [--report PAGE.html]`.
 *
 * Prints a table and, as its last line, one JSON object. `solved`, `steps`, `techniques` and `perSecond` are those of
 * the chosen preset (`chain` unless another is given); every step is verified, outside the timed part. `--profile`
 * solves all once more with a clock at every technique and prints where the time goes. `--report` saves a page with a
 * table and pictures: techniques found, used and needed, and their share of the time; what is needed takes a solve for
 * each technique of each path.
 *
 * `worstOverMedian` is the slowest puzzle against the median: the ten slowest of the first run are solved three times
 * more and the best of each counts, so that it tells of puzzles, not of what else the machine did or of code seldom run
 * and not yet compiled. `worstOverMedianFirstRun` is that of the first run as it was. Three times are too few for the
 * runtime to compile what only the hardest puzzles need, so last of all the same ten are timed once more, the best of
 * three, after it has solved other puzzles of the kind (random ones from seeds, that take chains; none of the file's):
 * `worstOverMedianCompiled` tells the work of a puzzle, the difference to the others what code costs that has hardly
 * run.
 */

import { writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { parseArgs } from 'node:util'
import { openCount } from '../src/grid/board/ask.js'
import { makePuzzle, type Puzzle } from '../src/grid/puzzle.js'
import { LEVELS, type Level } from '../src/logic/level.js'
import { verifyStep } from '../src/logic/proof/proof.js'
import { type SolvePath, solve } from '../src/logic/solving/solve.js'
import { chainPuzzles } from './support/chain-puzzles.js'
import { coveragePage } from './support/coverage-page.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { printTable } from './support/report.js'
import { satSolver } from './support/sat-solver.js'
import { techniqueTimes } from './support/technique-times.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    preset: { type: 'string', default: 'chain' },
    profile: { type: 'boolean', default: false },
    report: { type: 'string' },
  },
})
const preset = values.preset as Level
if (files.length === 0 || !LEVELS.includes(preset)) {
  console.error(`Usage: npm run bench:coverage -- FILE… [--preset ${LEVELS.join('|')}]`)
  process.exit(2)
}

const lines = readPuzzleLines(files)
const puzzles = lines.map(({ givens }) => makePuzzle(givens))
// Both contestants are warmed up on the same puzzles; the SAT solver that is measured starts afresh, since it slows
// down with every puzzle it has seen. They take turns, so that what else the machine does hits both alike.
const WARM_UP = 500
const TURN = 50
const warmSat = satSolver()
for (const puzzle of puzzles.slice(0, WARM_UP)) {
  solve(puzzle, { preset })
  warmSat.solve(puzzle.givens)
}

const sat = satSolver()
const milliseconds: number[] = []
const paths: SolvePath[] = []
let satTotal = 0
for (let turn = 0; turn < puzzles.length; turn += TURN) {
  const some = puzzles.slice(turn, turn + TURN)
  for (const puzzle of some) milliseconds.push(timed(puzzle, (path) => paths.push(path)))
  const satFrom = performance.now()
  for (const puzzle of some) sat.solve(puzzle.givens)
  satTotal += performance.now() - satFrom
}
const total = milliseconds.reduce((sum, ms) => sum + ms, 0)

const techniques: Record<string, number> = {}
let steps = 0
let unproven = 0
for (const [index, path] of paths.entries()) {
  for (const step of path.steps) {
    steps++
    techniques[step.technique] = (techniques[step.technique] ?? 0) + 1
    const verdict = verifyStep(step.before, step)
    if (verdict.proven) continue
    unproven++
    console.log(`unproven: ${place(index)} ${step.technique} ${JSON.stringify(verdict.because)}`)
  }
}

const isSolved = (path: SolvePath): boolean => path.status === 'solved'
const usesCases = (path: SolvePath): boolean => path.steps.some((step) => step.level === 'branch')
const usesOneSolution = (path: SolvePath): boolean =>
  path.steps.some((step) => step.assumes === 'one-solution')
// Cases are tried when all else fails, so a path without them is also the path of the preset before.
const withoutCases = paths.map((path) => isSolved(path) && !usesCases(path))
const withoutOneSolution = puzzles.map((puzzle, index) => {
  const path = paths[index]!
  if (!usesOneSolution(path) && !usesCases(path)) return isSolved(path)
  return isSolved(solve(puzzle, { preset: preset === 'branch' ? 'chain' : preset, oneSolution: false }))
})
const count = (flags: readonly boolean[]): number => flags.filter(Boolean).length

console.log(`\nPreset ${preset}: ${puzzles.length} puzzles, ${steps} steps`)
const width = Math.max(...Object.keys(techniques).map((name) => name.length), 10)
for (const [name, times] of Object.entries(techniques).sort((a, b) => b[1] - a[1]))
  console.log(`  ${name.padEnd(width)} ${String(times).padStart(8)}`)
console.log(`\nNot solved:`)
for (const [index, path] of paths.entries()) {
  if (path.status === 'solved') continue
  if (path.status === 'stopped') throw new Error('a path without a time limit was stopped')
  const why = typeof path.because === 'string' ? path.because : path.because.kind
  console.log(`  ${place(index)} ${path.status} (${why}) with ${openCount(path.board)} cells open`)
}
const sorted = [...milliseconds].sort((a, b) => a - b)
const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!
const worst = milliseconds.indexOf(at(1))
console.log(
  `\nMilliseconds a puzzle: median ${at(0.5).toFixed(2)}, 90 % ${at(0.9).toFixed(2)}, 99 % ${at(0.99).toFixed(2)}, ` +
    `worst ${at(1).toFixed(2)} (${place(worst)}, ${(at(1) / at(0.5)).toFixed(0)} times the median)`,
)
// One run of a puzzle may be held up by whatever else the machine does; three runs hardly ever are.
const slowest = [...milliseconds.keys()].sort((a, b) => milliseconds[b]! - milliseconds[a]!).slice(0, 10)
const again = slowest.map((index) => Math.min(...[1, 2, 3].map(() => timed(puzzles[index]!))))
const worstAgain = Math.max(...again)
console.log(
  `The ten slowest once more, best of three: worst ${worstAgain.toFixed(2)} (${place(slowest[again.indexOf(worstAgain)]!)}, ` +
    `${(worstAgain / at(0.5)).toFixed(0)} times the median)`,
)
const OTHERS_SEED = 520_000
const OTHERS = 300
for (const puzzle of chainPuzzles(OTHERS_SEED, OTHERS)) solve(puzzle, { preset })
const compiled = slowest.map((index) => Math.min(...[1, 2, 3].map(() => timed(puzzles[index]!))))
const worstCompiled = Math.max(...compiled)
console.log(
  `The same after ${OTHERS} other puzzles with chains: worst ${worstCompiled.toFixed(2)} (${place(slowest[compiled.indexOf(worstCompiled)]!)}, ` +
    `${(worstCompiled / at(0.5)).toFixed(0)} times the median)`,
)
const perSecond = (puzzles.length / total) * 1000
const satPerSecond = (puzzles.length / satTotal) * 1000
console.log(
  `Explained solves a second ${perSecond.toFixed(0)}; logic-solver, which only solves, ${satPerSecond.toFixed(0)} ` +
    `(ratio ${(perSecond / satPerSecond).toFixed(2)})\n`,
)
const times =
  values.profile || values.report
    ? techniqueTimes(() => {
        for (const puzzle of puzzles) solve(puzzle, { preset })
      })
    : []
if (values.report) {
  const title = `Coverage of ${files.map((file) => basename(file)).join(', ')}`
  writeFileSync(values.report, coveragePage(title, puzzles, paths, times, preset))
  console.log(`The page is in ${values.report}`)
}
if (values.profile) {
  const all = times.reduce((sum, time) => sum + time.milliseconds, 0)
  printTable(
    ['technique', 'share of time, %', 'boards', 'found on', 'microseconds a board'],
    times
      .filter(({ boards }) => boards > 0)
      .map(({ name, milliseconds: ms, boards, found }) => [
        name,
        round((100 * ms) / all),
        boards,
        found,
        Math.round((1000 * ms) / boards),
      ]),
  )
}
console.log(
  JSON.stringify({
    puzzles: puzzles.length,
    solved: count(paths.map(isSolved)),
    stuck: paths.filter((path) => path.status === 'stuck').length,
    steps,
    unproven,
    perSecond: round(perSecond),
    techniques,
    solvedWithoutCases: count(withoutCases),
    solvedWithoutOneSolution: count(withoutOneSolution),
    satPerSecond: round(satPerSecond),
    worstOverMedian: round(worstAgain / at(0.5)),
    worstOverMedianCompiled: round(worstCompiled / at(0.5)),
    worstOverMedianFirstRun: round(at(1) / at(0.5)),
  }),
)

/** Milliseconds of an explained solve. */
function timed(puzzle: Puzzle, keep: (path: SolvePath) => void = () => {}): number {
  const from = performance.now()
  const path = solve(puzzle, { preset })
  const ms = performance.now() - from
  keep(path)
  return ms
}

function place(index: number): string {
  const { file, line } = lines[index]!
  return `${file}:${line}`
}

function round(value: number): number {
  return Math.round(value * 10) / 10
}
