/**
 * What is said, counted: `npm run bench:words -- FILE… [--first N] [--per-technique N]`.
 *
 * Explains steps found on the boards of the puzzles' paths, in English and in German, and prints one JSON object as its
 * last line: steps; `untrue`, steps of which a fact or a reason does not hold in the counted solution; `fallbacks`,
 * sentences of those kept for steps that are no proof; `withoutReason`, candidates removed without a reason in the
 * sentences; `strange` and `unnamed`, steps that name a cell, house or digit which they do not have, or leave out one
 * that their proof has; `grammar`, faults by rule; and words a step (median, 90 %, longest) by technique.
 */
import { parseArgs } from 'node:util'
import { solutionsOf } from '../src/count/count-solutions.js'
import { ENGLISH } from '../src/explain/words/english/index.js'
import { GERMAN } from '../src/explain/words/german/index.js'
import { newBoard } from '../src/grid/board/make.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import { findSteps } from '../src/logic/solving/find.js'
import { solve } from '../src/logic/solving/solve.js'
import type { FoundStep } from '../src/logic/steps/step.js'
import { TECHNIQUE_NAMES } from '../src/logic/technique-names.js'
import { faultsHeard, hear, strays } from '../test/support/heard.js'
import { untruths } from '../test/support/untruths.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: { first: { type: 'string' }, 'per-technique': { type: 'string' } },
})
if (files.length === 0) {
  console.error('Usage: npm run bench:words -- FILE… [--first N] [--per-technique N]')
  process.exit(2)
}
const most = Number(values['per-technique'] ?? Number.POSITIVE_INFINITY)
const lines = readPuzzleLines(files).slice(0, values.first ? Number(values.first) : undefined)

const LANGUAGES = { en: ENGLISH, de: GERMAN } as const
type Language = keyof typeof LANGUAGES
const counts = () => ({ fallbacks: 0, withoutReason: 0, strange: 0, unnamed: 0, grammar: 0 })
let untrue = 0
const faults: Record<Language, ReturnType<typeof counts>> = { en: counts(), de: counts() }
const lengths: Record<Language, Map<string, number[]>> = { en: new Map(), de: new Map() }
const explained = new Map<string, number>()
let steps = 0

for (const { givens } of lines) {
  const puzzle = makePuzzle(givens)
  const path = solve(puzzle)
  const solution = solutionsOf(puzzle, { limit: 2 }).solutions
  if (solution.length !== 1) continue
  for (const step of path.steps) count(step, solution[0]!)
  const { board } = solve(puzzle, { preset: 'mark' })
  for (const start of [newBoard(puzzle), board])
    for (const technique of TECHNIQUE_NAMES)
      if ((explained.get(technique) ?? 0) < most)
        for (const step of findWithin(start, technique)) count(step, solution[0]!)
}

/** Steps of one technique, as many as are found in some seconds. */
function findWithin(board: FoundStep['before'], technique: FoundStep['technique']): readonly FoundStep[] {
  try {
    return findSteps(board, { techniques: [technique], limit: 10, timeLimit: 5000 })
  } catch {
    return []
  }
}

function count(step: FoundStep, solution: readonly number[]): void {
  const before = explained.get(step.technique) ?? 0
  if (before >= most) return
  explained.set(step.technique, before + 1)
  steps++
  const wrong = untruths(step, solution)
  untrue += Number(wrong.length > 0)
  for (const fault of wrong) console.error(`untrue ${step.technique}: ${fault}`)
  for (const language of Object.keys(LANGUAGES) as Language[]) {
    const heard = hear(step, LANGUAGES[language])
    const { strange, unnamed } = strays(step, heard)
    const grammar = faultsHeard(step, LANGUAGES[language], heard)
    const own = faults[language]
    own.fallbacks += heard.fallbacks
    own.withoutReason += heard.withoutReason
    own.strange += Number(strange.length > 0)
    own.unnamed += Number(unnamed.length > 0)
    own.grammar += grammar.length
    for (const fault of [...strange, ...unnamed, ...grammar])
      console.error(`${language} ${step.technique}: ${fault}`)
    const list = lengths[language].get(step.technique) ?? []
    list.push(heard.sentences.join(' ').split(/\s+/).length)
    lengths[language].set(step.technique, list)
  }
}

const words = Object.fromEntries(
  TECHNIQUE_NAMES.filter((name) => explained.has(name)).map((name) => [
    name,
    Object.fromEntries(
      (Object.keys(LANGUAGES) as Language[]).map((language) => {
        const list = lengths[language].get(name)!.sort((a, b) => a - b)
        const at = (share: number) => list[Math.min(list.length - 1, Math.floor(share * list.length))]
        return [language, { median: at(0.5), ninety: at(0.9), longest: list[list.length - 1] }]
      }),
    ),
  ]),
)
for (const name of Object.keys(words))
  console.log(name.padEnd(38), explained.get(name), JSON.stringify(words[name]))
console.log(JSON.stringify({ puzzles: lines.length, steps, techniques: explained.size, untrue, ...faults }))
