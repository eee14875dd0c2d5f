/**
 * What is drawn, held against geometry: `npm run bench:pictures -- FILE… [--first N] [--per-technique N]`.
 *
 * Draws steps found on the boards of the puzzles' paths, reads the pictures back from their markup, and prints one JSON
 * object as its last line: steps; `faulty`, steps with a fault; `frames`, frames that run over a digit or enclose a
 * cell that is not in them; `links` and `badges` over a digit that stands or a mark that matters; milliseconds a
 * picture (median, longest); and how much of what hunts say is false, with hunts that have near misses.
 */
import { parseArgs } from 'node:util'
import { solutionsOf } from '../src/count/count-solutions.js'
import { hunt } from '../src/explain/hunt.js'
import { planPicture } from '../src/explain/picture/plan.js'
import { renderSvg } from '../src/explain/render-svg.js'
import { puzzleOf } from '../src/grid/board/ask.js'
import { newBoard } from '../src/grid/board/make.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import { findSteps } from '../src/logic/solving/find.js'
import { solve } from '../src/logic/solving/solve.js'
import type { FoundStep } from '../src/logic/steps/step.js'
import { TECHNIQUE_NAMES } from '../src/logic/technique-names.js'
import { falsehoods } from '../test/support/clue-truth.js'
import { faultsOf, readDrawing } from '../test/support/drawn.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: { first: { type: 'string' }, 'per-technique': { type: 'string' } },
})
if (files.length === 0) {
  console.error('Usage: npm run bench:pictures -- FILE… [--first N] [--per-technique N]')
  process.exit(2)
}
const most = Number(values['per-technique'] ?? Number.POSITIVE_INFINITY)
const lines = readPuzzleLines(files).slice(0, values.first ? Number(values.first) : undefined)

const drawn = new Map<string, number>()
const counts = { steps: 0, faulty: 0, frames: 0, links: 0, badges: 0, untrueHunts: 0, huntsWithMisses: 0 }
const times: number[] = []

for (const { givens } of lines) {
  const puzzle = makePuzzle(givens)
  for (const step of solve(puzzle).steps) check(step)
  const { board } = solve(puzzle, { preset: 'mark' })
  for (const start of [newBoard(puzzle), board])
    for (const technique of TECHNIQUE_NAMES)
      if ((drawn.get(technique) ?? 0) < most) for (const step of findWithin(start, technique)) check(step)
}

/** Steps of one technique, as many as are found in some seconds. */
function findWithin(board: FoundStep['before'], technique: FoundStep['technique']): readonly FoundStep[] {
  try {
    return findSteps(board, { techniques: [technique], limit: 10, timeLimit: 5000 })
  } catch {
    return []
  }
}

function check(step: FoundStep): void {
  const before = drawn.get(step.technique) ?? 0
  if (before >= most) return
  drawn.set(step.technique, before + 1)
  counts.steps++
  const start = performance.now()
  const svg = renderSvg(step.before, { step, legend: false })
  times.push(performance.now() - start)
  const faults = faultsOf(step, planPicture(step), readDrawing(svg))
  counts.faulty += Number(faults.length > 0)
  for (const fault of faults) {
    counts[fault.startsWith('a link') ? 'links' : fault.startsWith('a badge') ? 'badges' : 'frames']++
    console.error(`${step.technique}: ${fault}`)
  }
  const { clues } = hunt(step, { pictures: false })
  const [solution] = solutionsOf(puzzleOf(step.before), { limit: 1 }).solutions
  const untrue = clues.flatMap((clue) => falsehoods(step, clue, solution!))
  for (const one of untrue) console.error(`${step.technique}: ${one}`)
  counts.untrueHunts += Number(untrue.length > 0)
  counts.huntsWithMisses += Number(clues.length - clues.findIndex(({ kind }) => kind === 'try') > 2)
}

times.sort((a, b) => a - b)
const milliseconds = { median: times[times.length >> 1], longest: times[times.length - 1] }
console.log(JSON.stringify({ ...counts, techniques: drawn.size, milliseconds }))
