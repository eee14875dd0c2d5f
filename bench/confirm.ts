/**
 * Has a general SAT library confirm every conclusion of every technique on boards of random puzzles:
 * `npm run bench:confirm -- [--boards N] [--seed N] [--techniques PATTERN]`.
 *
 * Steps that assume one solution are held against the counted solution instead. The last line is a JSON object.
 */
import { parseArgs } from 'node:util'
import { CATALOGUE } from '../src/logic/catalogue.js'
import { Confirmer, type Sample, samplesOf } from '../test/support/confirm.js'
import { randomPuzzle } from '../test/support/random-boards.js'
import { printResult, printTable } from './support/report.js'

const { values } = parseArgs({
  options: {
    boards: { type: 'string', default: '510' },
    seed: { type: 'string', default: '610000' },
    techniques: { type: 'string', default: '.' },
  },
})
const wanted = Number(values.boards)
const techniques = CATALOGUE.filter(({ name }) => new RegExp(values.techniques).test(name))

const BOARDS_A_PUZZLE = 3
const samples: Sample[] = []
for (let seed = Number(values.seed); samples.length < wanted; seed++)
  samples.push(...samplesOf(randomPuzzle(seed), `seed ${seed}`, BOARDS_A_PUZZLE))

interface Tally {
  readonly name: string
  steps: number
  conclusions: number
  refuted: number
  milliseconds: number
}
const tallies = techniques.map(
  ({ name }): Tally => ({
    name,
    steps: 0,
    conclusions: 0,
    refuted: 0,
    milliseconds: 0,
  }),
)
for (const [done, sample] of samples.entries()) {
  if (done % 50 === 0) console.error(`${done} of ${samples.length} boards`)
  const confirmer = new Confirmer(sample)
  for (const tally of tallies) {
    const from = performance.now()
    const { steps, conclusions, refuted } = confirmer.confirm(tally.name)
    tally.milliseconds += performance.now() - from
    tally.steps += steps.length
    tally.conclusions += conclusions
    tally.refuted += refuted.length
    for (const { kind, candidate } of refuted)
      console.log(`refuted: ${tally.name}, ${sample.name}: ${kind} ${JSON.stringify(candidate)}`)
  }
}

const sum = (part: (tally: Tally) => number): number => tallies.reduce((all, tally) => all + part(tally), 0)
printTable(
  ['technique', 'steps', 'conclusions', 'refuted', 'seconds'],
  tallies.map((t) => [t.name, t.steps, t.conclusions, t.refuted, Math.round(t.milliseconds / 100) / 10]),
)
printResult({
  boards: samples.length,
  techniques: techniques.length,
  steps: sum(({ steps }) => steps),
  conclusions: sum(({ conclusions }) => conclusions),
  refuted: sum(({ refuted }) => refuted),
  neverFound: tallies.filter(({ steps }) => steps === 0).map(({ name }) => name),
})
