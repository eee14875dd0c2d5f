/**
 * Pick for the week: what an editor asks of a drawer of graded puzzles, and which of them a class can do.
 *
 *     npx tsx examples/pick-for-the-week.ts [file or folder …]
 */
import { fileURLToPath } from 'node:url'
import { type GradeRecord, gradeFolder, recordedPuzzle } from '../src/batch.js'
import { needsTechnique, type PickQuery, pick, TECHNIQUE_NAMES, techniqueTitle } from '../src/index.js'

const named = process.argv.slice(2)
const targets = named.length > 0 ? named : [fileURLToPath(new URL('archive', import.meta.url))]
const records: GradeRecord[] = []
for await (const record of gradeFolder(targets)) records.push(record)
const graded = records.flatMap((record) => ('grade' in record ? [record] : []))

show('Three of the easiest, with rising effort', { count: 3 })
show('Four whose hardest step is an XY-chain', { key: 'xy-chain', count: 4 })
show('Pencil marks, but no chains, the hardest first', { level: ['mark', 'pattern'], order: 'falling' })
show('An XY-chain is needed by those who know patterns', { needs: 'xy-chain', known: 'pattern' })

console.log('\nThe easiest technique that a class which knows singles, locked candidates and subsets lacks:')
for (const record of graded) {
  const puzzle = recordedPuzzle(record)
  const lacking = TECHNIQUE_NAMES.find((name) => needsTechnique(puzzle, name, { maxLinks: 9 }))
  console.log(`  ${nameOf(record)}: ${lacking ? techniqueTitle(lacking) : 'more than one'}`)
}

function show(title: string, query: PickQuery): void {
  const picked = pick(graded, query).map((record) => `${nameOf(record)} (${Math.round(record.grade.effort)})`)
  console.log(`${title}: ${picked.join(', ') || 'none'}`)
}

function nameOf({ number, title, file, line }: (typeof graded)[number]): string {
  return number === undefined ? (title ?? `${file}:${line}`) : `No. ${number}`
}
