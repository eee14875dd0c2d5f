/**
 * Measure technique coverage: what a researcher asks of a collection. Which techniques do these puzzles use, which of
 * them can a puzzle not do without (given all others up to its level), and how many fall at each level?
 *
 *     npx tsx examples/technique-coverage.ts [file …]
 */
import { createReadStream } from 'node:fs'
import { fileURLToPath } from 'node:url'
import {
  CoverageCounter,
  gradePuzzle,
  indispensableTechniques,
  LEVELS,
  readPuzzles,
  techniqueTitle,
} from '../src/index.js'

const named = process.argv.slice(2)
const files =
  named.length > 0 ? named : [fileURLToPath(new URL('puzzles/fennmoor-lantern-week.txt', import.meta.url))]

const counter = new CoverageCounter()
const indispensable = new Map<string, number>()
for (const file of files) {
  for await (const entry of readPuzzles(createReadStream(file, 'utf8'))) {
    if (!entry.ok) {
      console.log(`${file}:${entry.line}: ${entry.error.message}`)
      continue
    }
    const grade = gradePuzzle(entry.puzzle)
    counter.add(grade)
    // Asked where it tells something: chains and cases stand in for one another too freely.
    if (grade.level !== 'mark' && grade.level !== 'pattern') continue
    for (const technique of indispensableTechniques(entry.puzzle, { preset: grade.level })) {
      indispensable.set(technique, (indispensable.get(technique) ?? 0) + 1)
    }
  }
}

const { puzzles, solved, stuck, notTried, rounds, levels, techniques } = counter.result
console.log(`${puzzles} puzzles: ${solved} solved, ${stuck} stuck, ${notTried} unsound; ${rounds} rounds`)
console.log(LEVELS.map((level) => `${level} ${levels[level]}`).join(', '))
console.log('\ntechnique                        level     puzzles  rounds  hardest in  cannot do without')
for (const row of techniques) {
  console.log(
    [
      techniqueTitle(row.technique).padEnd(32),
      (row.level ?? '').padEnd(8),
      String(row.puzzles).padStart(8),
      String(row.rounds).padStart(7),
      String(row.bottleneckIn).padStart(11),
      String(indispensable.get(row.technique) ?? 0).padStart(18),
    ].join(' '),
  )
}
