/**
 * Runs the fuzzers, each for an equal share of the time: `npm run fuzz -- --minutes N [--seed S] [--only NAME]`, or one
 * case of one of them again: `npm run fuzz -- --seed S --only NAME --case K`.
 *
 * Prints one line of progress a fuzzer and, as the last line, a JSON object with the counts of all. Ends with 1 if
 * anything was found. The same seed has the same cases; more time only goes on to more of them.
 */
import { parseArgs } from 'node:util'
import { wholeNumber } from '../../bench/support/whole-number.js'
import { FUZZERS } from './fuzzers.js'
import { type FuzzReport, runFuzzer } from './run-fuzzer.js'

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    case: { type: 'string' },
  },
})
const seed = wholeNumber('seed', values.seed)
const minutes = Number(values.minutes)
if (!(minutes > 0)) stop(`--minutes is "${values.minutes}"; it takes a number above 0.`)
const names = FUZZERS.map(({ name }) => name)
const chosen = values.only ? FUZZERS.filter(({ name }) => name === values.only) : FUZZERS
if (chosen.length === 0) stop(`There is no fuzzer "${values.only}"; --only takes one of ${names.join(', ')}.`)
if (values.case && !values.only) stop('--case also needs the fuzzer: --only NAME.')

const reports: Record<string, FuzzReport> = {}
for (const fuzzer of chosen) {
  const report = values.case ? await again(wholeNumber('case', values.case)) : await share()
  reports[fuzzer.name] = report
  console.error(
    `${fuzzer.name}: ${report.cases} cases, ${report.faults} faults, ${report.seconds.toFixed(1)} s`,
  )

  function share(): Promise<FuzzReport> {
    const budget = (minutes * 60_000) / chosen.length
    return runFuzzer(fuzzer, seed, ({ milliseconds }) => milliseconds >= budget)
  }
  function again(at: number): Promise<FuzzReport> {
    return runFuzzer(fuzzer, seed, (progress) => progress.case > at, at)
  }
}
const faults = Object.values(reports).reduce((sum, report) => sum + report.faults, 0)
console.log(JSON.stringify({ seed, faults, fuzzers: reports }))
process.exitCode = faults > 0 ? 1 : 0

function stop(message: string): never {
  console.error(message)
  process.exit(2)
}
