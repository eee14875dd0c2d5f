/**
 * Exercises for a class: `npm run bench:exercises -- FILE… --technique T [--known A,B,… | --known LEVEL] [--instances
 * N] [--first N]`.
 *
 * Prints one JSON object as its last line. `positions`: boards on which the technique is the next thing needed, none
 * the same as another under symmetry, in puzzles that the class can finish with it and not without; with a single
 * instance unless `--instances` says more. `perSecond`: positions a second of the processor's time, without their
 * pictures; `lookedAtPerSecond`: puzzles.
 */
import { parseArgs } from 'node:util'
import { makePuzzle } from '../src/grid/puzzle.js'
import type { Exercise } from '../src/lessons/exercise.js'
import { type ExerciseOptions, findExercises } from '../src/lessons/find-exercises.js'
import { LEVELS, type Level } from '../src/logic/level.js'
import type { TechniqueName } from '../src/logic/technique-names.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    technique: { type: 'string' },
    known: { type: 'string' },
    instances: { type: 'string' },
    first: { type: 'string' },
    show: { type: 'boolean' },
  },
})
if (files.length === 0 || values.technique === undefined) {
  console.error(
    'Usage: npm run bench:exercises -- FILE… --technique T [--known A,B,…] [--instances N] [--first N]',
  )
  process.exit(2)
}

const { known } = values
const options = {
  ...(known !== undefined && {
    known: LEVELS.includes(known as Level) ? (known as Level) : known.split(','),
  }),
  instances: values.instances ? Number(values.instances) : 1,
} as ExerciseOptions
const puzzles = readPuzzleLines(files)
  .slice(0, values.first ? Number(values.first) : undefined)
  .map(({ givens }) => makePuzzle(givens))

const from = process.cpuUsage()
const exercises: Exercise[] = []
for await (const exercise of findExercises(puzzles, values.technique as TechniqueName, options))
  exercises.push(exercise)
const { user, system } = process.cpuUsage(from)
const seconds = (user + system) / 1e6
const rounded = (n: number) => Math.round(n * 10) / 10
if (values.show)
  for (const { effort, from: place, opens, explanation } of exercises)
    console.log(effort, place.index, opens, explanation.links ?? explanation.conclusion)
console.log(
  JSON.stringify({
    puzzles: puzzles.length,
    positions: exercises.length,
    perSecond: rounded(exercises.length / seconds),
    lookedAtPerSecond: rounded(puzzles.length / seconds),
  }),
)
