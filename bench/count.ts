// How fast is the uniqueness check? `npm run bench:count -- FILE…` (one 9×9 puzzle a line)
//
// Every contender answers the same question (none, one or several solutions) for the same puzzles in the same run. They
// take turns of about equal length and each contender's best turn counts, so that other load on the machine hits all
// alike. The peer is the general exact-cover library `dancing-links` in the best of its encodings.

import { parseArgs } from 'node:util'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { createSearch } from '../src/count/engine.js'
import { GeneralSearch } from '../src/count/general-search.js'
import type { SolutionSearch } from '../src/count/search.js'
import { layoutOf } from '../src/grid/layout.js'
import { checkUniqueness, countUpToTwo, makePuzzle, type Puzzle, STANDARD } from '../src/index.js'
import { PlainKernel9 } from '../test/count/kernel9/plain-kernel9.js'
import { COVER_ENCODINGS, countByCover } from './support/exact-cover.js'
import { type PuzzleLine, readPuzzleLines } from './support/puzzle-lines.js'
import { percentile, printResult, printTable, significant } from './support/report.js'
import { wholeNumber } from './support/whole-number.js'

const { values: options, positionals: files } = parseArgs({
  allowPositionals: true,
  options: { rounds: { type: 'string', default: '7' }, calls: { type: 'string', default: '1000000' } },
})
const rounds = wholeNumber('rounds', options.rounds, 1)
const calls = wholeNumber('calls', options.calls)
if (files.length === 0) {
  console.error('usage: npm run bench:count -- FILE… [--rounds 7] [--calls 1000000]')
  process.exit(2)
}

type Item = PuzzleLine & { readonly puzzle: Puzzle }
/** Answers 0, 1 or 2 for "several". */
interface Contender {
  readonly name: string
  answer(item: Item): number
}

const KIND_COUNT = { none: 0, unique: 1, many: 2 } as const

function byVerdict({ puzzle }: Item): number {
  const verdict = checkUniqueness(puzzle)
  if (verdict.kind === 'undecided') throw new Error('the node budget was spent on a bench puzzle')
  return KIND_COUNT[verdict.kind]
}

function bySearch(search: SolutionSearch): (item: Item) => number {
  return ({ givens }) => {
    search.start(givens)
    if (search.next(Number.MAX_SAFE_INTEGER) !== 'solution') return 0
    return search.next(Number.MAX_SAFE_INTEGER) === 'solution' ? 2 : 1
  }
}

const OURS: Contender = { name: 'checkUniqueness', answer: byVerdict }
const CONTENDERS: readonly Contender[] = [
  OURS,
  { name: 'countUpToTwo', answer: ({ givens }) => countUpToTwo(givens) },
  { name: 'TypeScript kernel', answer: bySearch(new PlainKernel9()) },
  { name: 'general search', answer: bySearch(new GeneralSearch(layoutOf(STANDARD))) },
]
const PEERS: readonly Contender[] = COVER_ENCODINGS.map((encoding) => ({
  name: `dancing-links, ${encoding}`,
  answer: ({ givens }) => countByCover(givens, encoding, 2),
}))

/** Seconds for `passes` runs of a contender over all items; its answers must be the expected ones. */
function turn(
  contender: Contender,
  items: readonly Item[],
  expected: readonly number[],
  passes: number,
): number {
  const answers = new Uint8Array(items.length)
  const begin = performance.now()
  for (let pass = 0; pass < passes; pass++) {
    for (let i = 0; i < items.length; i++) answers[i] = contender.answer(items[i]!)
  }
  const seconds = (performance.now() - begin) / 1000
  const wrong = items.findIndex((_, i) => answers[i] !== expected[i])
  if (wrong >= 0) {
    throw new Error(
      `${contender.name} says ${answers[wrong]} for ${items[wrong]!.text}, checkUniqueness ${expected[wrong]}`,
    )
  }
  return seconds
}

const SECONDS_A_TURN = 0.25

/** Seconds for all items, the best of the rounds, per contender. */
function race(items: readonly Item[], expected: readonly number[]): Map<Contender, number> {
  const all = [...CONTENDERS, ...PEERS]
  const passes = all.map((contender) => {
    turn(contender, items, expected, 1)
    return Math.max(1, Math.round(SECONDS_A_TURN / turn(contender, items, expected, 1)))
  })
  const best = new Map(all.map((contender) => [contender, Number.POSITIVE_INFINITY]))
  for (let round = 0; round < rounds; round++) {
    all.forEach((contender, i) => {
      const seconds = turn(contender, items, expected, passes[i]!) / passes[i]!
      best.set(contender, Math.min(seconds, best.get(contender)!))
    })
  }
  return best
}

/**
 * Microseconds of `checkUniqueness` per puzzle: the best of a few calls each, so that a pause of the machine does not
 * count.
 */
function timePerPuzzle(items: readonly Item[]): Float64Array {
  return Float64Array.from(items, (item) => {
    let best = Number.POSITIVE_INFINITY
    for (let i = 0; i < 7; i++) {
      const begin = performance.now()
      byVerdict(item)
      best = Math.min(best, performance.now() - begin)
    }
    return best * 1000
  })
}

function meanNodes(items: readonly Item[]): number {
  const search = createSearch(STANDARD)
  const answer = bySearch(search)
  let nodes = 0
  for (const item of items) {
    answer(item)
    nodes += search.nodes
  }
  return nodes / items.length
}

let puzzles = 0
let seconds = 0
let peerSeconds = 0
const everything: Item[] = []
for (const file of files) {
  const items = readPuzzleLines([file]).map((line) => ({ ...line, puzzle: makePuzzle(line.givens) }))
  if (items.length === 0) throw new Error(`${file} holds no puzzle`)
  const expected = items.map(byVerdict)
  const best = race(items, expected)
  const peer = PEERS.reduce((a, b) => (best.get(a)! <= best.get(b)! ? a : b))
  const kinds = [0, 0, 0]
  for (const answer of expected) kinds[answer]!++
  console.log(
    `\n${file}: ${items.length} puzzles (${kinds[1]} with one solution, ${kinds[2]} with several, ${kinds[0]} with none), ` +
      `${significant(meanNodes(items), 3)} nodes a puzzle`,
  )
  printTable(
    ['contender', 'puzzles/s', `times ${peer.name}`],
    [...best].map(([{ name }, time]) => [
      name,
      significant(items.length / time),
      significant(best.get(peer)! / time, 3),
    ]),
  )
  const times = timePerPuzzle(items)
  const worst = items[times.indexOf(Math.max(...times))]!
  const sorted = times.slice().sort()
  console.log('checkUniqueness, microseconds a puzzle:')
  printTable(
    ['p50', 'p90', 'p99', 'p99.9', 'worst', 'its line', 'worst puzzle'],
    [
      [
        ...[0.5, 0.9, 0.99, 0.999, 1].map((p) => significant(percentile(sorted, p), 3)),
        worst.line,
        worst.text,
      ],
    ],
  )
  puzzles += items.length
  seconds += best.get(OURS)!
  peerSeconds += best.get(peer)!
  everything.push(...items)
}

setFlagsFromString('--expose-gc')
const collectGarbage = runInNewContext('gc') as () => void

/** Heap and resident memory over many calls, in MiB, each time after a collection. */
function watchMemory(): { heapGrowth: number; rssGrowth: number } {
  const look = () => {
    collectGarbage()
    const { heapUsed, rss } = process.memoryUsage()
    return { heap: heapUsed / 2 ** 20, rss: rss / 2 ** 20 }
  }
  const looks = [look()]
  for (let part = 0; part < 4; part++) {
    for (let call = 0; call < calls / 4; call++) byVerdict(everything[call % everything.length]!)
    looks.push(look())
  }
  console.log(`\nmemory over ${calls} calls of checkUniqueness:`)
  printTable(
    ['calls', 'heap MiB', 'resident MiB'],
    looks.map(({ heap, rss }, part) => [(part * calls) / 4, significant(heap), significant(rss)]),
  )
  // the first quarter warms up; what counts is whether the rest grows
  return { heapGrowth: looks[4]!.heap - looks[1]!.heap, rssGrowth: looks[4]!.rss - looks[1]!.rss }
}

/** Bytes that one call of `countUpToTwo` leaves on the heap, nothing being collected in between. */
function bytesACall(): number {
  const many = 200_000
  collectGarbage()
  const before = process.memoryUsage().heapUsed
  for (let call = 0; call < many; call++) countUpToTwo(everything[call % everything.length]!.givens)
  return (process.memoryUsage().heapUsed - before) / many
}

console.log(`\ncountUpToTwo leaves ${significant(bytesACall(), 2)} bytes a call on the heap`)
const memory = calls > 0 ? watchMemory() : undefined
console.log()
printResult({
  puzzles,
  perSecond: significant(puzzles / seconds, 5),
  peerPerSecond: significant(puzzles / peerSeconds, 5),
  ratio: significant(peerSeconds / seconds, 3),
  ...(memory && {
    heapGrowthMiB: significant(memory.heapGrowth, 3),
    rssGrowthMiB: significant(memory.rssGrowth, 3),
  }),
})
