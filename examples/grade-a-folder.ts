/**
 * Grade a folder: what an editor does with a month of submissions. Prints them by what they demand, least first, and
 * writes one JSON record a line to out/grades.jsonl.
 *
 *     npx tsx examples/grade-a-folder.ts [file or folder …]
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { type GradeRecord, gradeFolder } from '../src/batch.js'
import { compareGrades, techniqueTitle } from '../src/index.js'

const named = process.argv.slice(2)
const targets = named.length > 0 ? named : [fileURLToPath(new URL('puzzles', import.meta.url))]

const records: GradeRecord[] = []
for await (const record of gradeFolder(targets)) records.push(record)

const graded = records.flatMap((record) => ('grade' in record ? [record] : []))
graded.sort((a, b) => compareGrades(a.grade, b.grade))
console.log('level    hardest to find                   its effort  all effort  rounds  puzzle')
for (const { file, line, title, grade } of graded) {
  const { level, bottleneck, effort, rounds, status, verdict } = grade
  const outcome = status === 'solved' ? (level ?? '-') : status === 'stuck' ? `${level ?? '-'}+` : verdict
  console.log(
    [
      outcome.padEnd(8),
      (bottleneck ? techniqueTitle(bottleneck.technique) : '').padEnd(32),
      String(bottleneck?.effort ?? '').padStart(11),
      String(effort).padStart(11),
      String(rounds).padStart(7),
      ` ${title ?? `${file}:${line}`}`,
    ].join(' '),
  )
}
for (const record of records) {
  const { file, line } = record
  const trouble = 'error' in record ? record.error : 'skipped' in record ? record.skipped : undefined
  if (trouble) console.log(`${file}${line ? `:${line}` : ''}: ${trouble.message}`)
}

const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
writeFileSync(`${out}grades.jsonl`, records.map((record) => `${JSON.stringify(record)}\n`).join(''))
console.log(`\n${records.length} records in ${out}grades.jsonl`)
