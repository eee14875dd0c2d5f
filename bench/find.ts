/**
 * All instances on a board: `npm run bench:find -- FILE… [--first N] [--against DIR]`.
 *
 * The boards are those of the puzzles where singles, locked candidates and subsets rest; on each `findSteps` looks for
 * every technique up to `chain`. Prints one JSON object as its last line. Times are those of the processor, in
 * milliseconds. `missed`: locked sets over several sectors that trying every way to count the digits finds
 * (`test/support/every-locked-set.ts`) and `findSteps` does not, by what they remove; those whose proof is too long are
 * left out. With `--against`, the checkout in DIR does the same on each board right before or after, both built from
 * source in the same way; `missed` then has its instances, too, by technique and conclusions, and `ratioMedian`,
 * `ratioWorst` say how this median and this worst time compare with those of DIR. `--no-oracle` leaves out the slow
 * trying of every way.
 */
import { parseArgs } from 'node:util'
import { openCount } from '../src/grid/board/ask.js'
import type { Board } from '../src/grid/board.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import type { FoundStep } from '../src/index.js'
import { cellPremise } from '../src/logic/proof/premise-holds.js'
import { isProvenBy } from '../src/logic/proof/trim.js'
import { solve } from '../src/logic/solving/solve.js'
import { conclusionsOf } from '../src/logic/steps/identity.js'
import { WORKADAY_TECHNIQUES } from '../src/route/workaday.js'
import { everyLockedSet } from '../test/support/every-locked-set.js'
import { builtLibrary } from './support/built-library.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    first: { type: 'string' },
    against: { type: 'string' },
    'no-oracle': { type: 'boolean' },
  },
})
if (files.length === 0) {
  console.error('Usage: npm run bench:find -- FILE… [--first N] [--against DIR] [--no-oracle]')
  process.exit(2)
}

type Library = Awaited<ReturnType<typeof builtLibrary>>
interface Measured {
  readonly library: Library
  readonly times: number[]
}

const restOf = ({ solve, makePuzzle }: Pick<Library, 'solve' | 'makePuzzle'>, givens: readonly number[]) =>
  solve(makePuzzle(givens), { techniques: WORKADAY_TECHNIQUES, oneSolution: false }).board

/** Every instance up to `chain`, and the processor's time for it. */
function look({ library, times }: Measured, givens: readonly number[]): FoundStep[] {
  const board = restOf(library, givens)
  const from = process.cpuUsage()
  const steps = library.findSteps(board, { preset: 'chain' })
  const { user, system } = process.cpuUsage(from)
  times.push((user + system) / 1000)
  return steps
}

const keyOf = (step: FoundStep) => `${step.technique} ${conclusionsOf(step)}`

/** What the oracle removes by sets over three houses or more, each with the cells it is proven by. */
function missedByOracle(board: Board, found: ReadonlySet<string>): number {
  let missed = 0
  for (const { cells, removals, houses } of everyLockedSet(board)) {
    if (houses < 3 || found.has(`multi-sector-locked-set ${removals.map((one) => `-${one}`).sort()}`))
      continue
    const conclusion = {
      placements: [],
      removals: removals.map((one) => {
        const [cell, digit] = one.split('.').map(Number)
        return { cell: cell!, digit: digit! }
      }),
    }
    const premises = cells.map((cell) => cellPremise(board, cell))
    if (isProvenBy(board.geometry, premises, conclusion)) missed++
  }
  return missed
}

const own: Measured = { library: await builtLibrary('.'), times: [] }
const other: Measured | undefined = values.against
  ? { library: await builtLibrary(values.against), times: [] }
  : undefined
const lines = readPuzzleLines(files).slice(0, values.first ? Number(values.first) : undefined)
let instances = 0
let missed = 0
for (const [i, { givens }] of lines.entries()) {
  const board = restOf({ solve, makePuzzle }, givens)
  if (openCount(board) === 0) continue
  const before = other && i % 2 === 0 ? look(other, givens) : undefined
  const steps = look(own, givens)
  const others = before ?? (other ? look(other, givens) : [])
  const found = new Set(steps.map(keyOf))
  instances += steps.length
  for (const step of others) if (!found.has(keyOf(step))) missed++
  if (!values['no-oracle']) missed += missedByOracle(board, found)
}

const sorted = ({ times }: Measured) => [...times].sort((a, b) => a - b)
const rounded = (n: number) => Math.round(n * 1000) / 1000
const summary = (measured: Measured) => {
  const times = sorted(measured)
  return { median: times[times.length >> 1] ?? 0, worst: times.at(-1) ?? 0 }
}
const { median, worst } = summary(own)
const compared = other && summary(other)
console.log(
  JSON.stringify({
    boards: own.times.length,
    instances,
    msMedian: rounded(median),
    msWorst: rounded(worst),
    missed,
    ...(compared && {
      msMedianAgainst: rounded(compared.median),
      msWorstAgainst: rounded(compared.worst),
      ratioMedian: rounded(median / compared.median),
      ratioWorst: rounded(worst / compared.worst),
    }),
  }),
)
