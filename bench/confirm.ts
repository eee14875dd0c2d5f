/**
 * Has a general SAT library confirm every conclusion of every technique on boards of random puzzles:
 * `npm run bench:confirm -- [--boards N] [--seed N] [--techniques PATTERN]`.
 *
 * Steps that assume one solution are held against the counted solution instead. What hardly occurs on the boards is
 * looked for on others, from which wrong candidates are struck out at random, and confirmed where it occurs. The last
 * line is a JSON object.
 */

import { parseArgs } from 'node:util'
import { CATALOGUE } from '../src/logic/catalogue.js'
import type { TechniqueName } from '../src/logic/technique-names.js'
import { Confirmer, type Sample, samplesOf } from '../test/support/confirm.js'
import { randomPuzzle } from '../test/support/random-boards.js'
import { boardsWith } from '../test/support/struck-boards.js'
import { printResult, printTable } from './support/report.js'
import { wholeNumber } from './support/whole-number.js'

const { values } = parseArgs({
  options: {
    boards: { type: 'string', default: '510' },
    seed: { type: 'string', default: '610000' },
    techniques: { type: 'string', default: '.' },
  },
})
const wanted = wholeNumber('boards', values.boards, 1)
const firstSeed = wholeNumber('seed', values.seed)
const techniques = CATALOGUE.filter(({ name }) => new RegExp(values.techniques).test(name))

const BOARDS_A_PUZZLE = 3
const samples: Sample[] = []
for (let seed = firstSeed; samples.length < wanted; seed++)
  samples.push(...samplesOf(randomPuzzle(seed), `seed ${seed}`, BOARDS_A_PUZZLE))

interface Tally {
  readonly name: TechniqueName
  steps: number
  conclusions: number
  refuted: number
  milliseconds: number
  /** Boards looked for because the technique was on hardly any of the others. */
  ownBoards: number
}
const tallies = techniques.map(
  ({ name }): Tally => ({
    name,
    steps: 0,
    conclusions: 0,
    refuted: 0,
    milliseconds: 0,
    ownBoards: 0,
  }),
)
for (const [done, sample] of samples.entries()) {
  if (done % 50 === 0) console.error(`${done} of ${samples.length} boards`)
  const confirmer = new Confirmer(sample)
  for (const tally of tallies) confirm(tally, sample, confirmer)
}
/** With fewer steps than this, a technique gets boards of its own. */
const FEW = 25
const OWN_BOARDS = 25
const TRIES = 30_000
for (const tally of tallies) {
  if (tally.steps >= FEW) continue
  const own = boardsWith(tally.name, firstSeed, OWN_BOARDS, TRIES)
  for (const sample of own) confirm(tally, sample, new Confirmer(sample))
  tally.ownBoards = own.length
}

function confirm(tally: Tally, sample: Sample, confirmer: Confirmer): void {
  const from = performance.now()
  const { steps, conclusions, refuted } = confirmer.confirm(tally.name)
  tally.milliseconds += performance.now() - from
  tally.steps += steps.length
  tally.conclusions += conclusions
  tally.refuted += refuted.length
  for (const { kind, candidate } of refuted)
    console.log(`refuted: ${tally.name}, ${sample.name}: ${kind} ${JSON.stringify(candidate)}`)
}

const sum = (part: (tally: Tally) => number): number => tallies.reduce((all, tally) => all + part(tally), 0)
printTable(
  ['technique', 'steps', 'conclusions', 'refuted', 'seconds', 'boards of its own'],
  tallies.map((t) => [
    t.name,
    t.steps,
    t.conclusions,
    t.refuted,
    Math.round(t.milliseconds / 100) / 10,
    t.ownBoards || '',
  ]),
)
printResult({
  boards: samples.length,
  techniques: techniques.length,
  steps: sum(({ steps }) => steps),
  conclusions: sum(({ conclusions }) => conclusions),
  refuted: sum(({ refuted }) => refuted),
  ownBoards: sum(({ ownBoards }) => ownBoards),
  neverFound: tallies.filter(({ steps }) => steps === 0).map(({ name }) => name),
})
