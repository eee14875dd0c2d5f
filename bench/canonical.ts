// How fast are reading, canonical forms and finding duplicates? `npx tsx bench/canonical.ts FILE…`
//
// For each file: how many kinds its puzzles are of, whether random images of them are recognised, and the rates of
// reading, of canonical keys of the puzzles and of their full solutions, beside the general exact-cover library
// counting the same puzzles' solutions up to two. All take turns in one run; each one's best turn counts.
import { createReadStream } from 'node:fs'
import { parseArgs } from 'node:util'
import {
  canonicalForm,
  canonicalKey,
  checkUniqueness,
  dedupePuzzles,
  makePuzzle,
  type Puzzle,
  randomTransform,
  readPuzzles,
  transformPuzzle,
} from '../src/index.js'
import { COVER_ENCODINGS, countByCover } from './support/exact-cover.js'
import { percentile, printResult, printTable, significant } from './support/report.js'
import { wholeNumber } from './support/whole-number.js'

const { values: options, positionals: files } = parseArgs({
  allowPositionals: true,
  options: { rounds: { type: 'string', default: '3' } },
})
const rounds = wholeNumber('rounds', options.rounds, 1)
if (files.length === 0) {
  console.error('usage: npx tsx bench/canonical.ts FILE… [--rounds 3]')
  process.exit(2)
}

async function readAll(file: string): Promise<Puzzle[]> {
  const puzzles: Puzzle[] = []
  for await (const entry of readPuzzles(createReadStream(file, 'utf8'))) {
    if (!entry.ok) throw new Error(`${file}: ${entry.error.message}`)
    puzzles.push(entry.puzzle)
  }
  return puzzles
}

function solutionOf(puzzle: Puzzle): Puzzle[] {
  const verdict = checkUniqueness(puzzle)
  return verdict.kind === 'unique' ? [makePuzzle(verdict.solution, puzzle.geometry)] : []
}

async function secondsOf(work: () => unknown): Promise<number> {
  const start = performance.now()
  await work()
  return (performance.now() - start) / 1000
}

const results: Record<string, number | string>[] = []
for (const file of files) {
  const puzzles = await readAll(file)
  const solutions = puzzles.flatMap(solutionOf)
  const keys = puzzles.map((puzzle) => canonicalKey(puzzle))
  const missed = puzzles.filter((puzzle, i) => {
    const image = transformPuzzle(puzzle, randomTransform(puzzle.geometry, i + 1))
    return canonicalKey(image) !== keys[i]
  }).length

  const tasks: Record<string, readonly [count: number, work: () => unknown]> = {
    read: [puzzles.length, () => readAll(file)],
    keys: [puzzles.length, () => puzzles.map((puzzle) => canonicalKey(puzzle))],
    dedupe: [puzzles.length, () => dedupePuzzles(puzzles)],
    solutionKeys: [solutions.length, () => solutions.map((grid) => canonicalKey(grid))],
    peer: [puzzles.length, () => puzzles.map(({ givens }) => countByCover(givens, COVER_ENCODINGS[0], 2))],
  }
  const best: Record<string, number> = {}
  for (let round = 0; round < rounds; round++) {
    for (const [name, [count, work]] of Object.entries(tasks)) {
      best[name] = Math.max(best[name] ?? 0, count / (await secondsOf(work)))
    }
  }
  const times: number[] = []
  for (const puzzle of [...puzzles, ...solutions])
    times.push((await secondsOf(() => canonicalKey(puzzle))) * 1000)
  times.sort((a, b) => a - b)
  results.push({
    file: file.split('/').at(-1)!,
    puzzles: puzzles.length,
    kinds: dedupePuzzles(puzzles).distinct.length,
    symmetric: puzzles.filter((puzzle) => canonicalForm(puzzle).automorphisms > 1).length,
    imagesMissed: missed,
    readPerSecond: significant(best.read!, 3),
    keysPerSecond: significant(best.keys!, 3),
    dedupePerSecond: significant(best.dedupe!, 3),
    solutionKeysPerSecond: significant(best.solutionKeys!, 3),
    peerPerSecond: significant(best.peer!, 3),
    ratio: significant(best.keys! / best.peer!, 3),
    medianMs: significant(percentile(times, 0.5), 3),
    worstMs: significant(times.at(-1)!, 3),
  })
}
const columns = Object.keys(results[0]!)
printTable(
  columns,
  results.map((row) => columns.map((column) => row[column]!)),
)
printResult({ files: results })
