/**
 * Report on a folder: a page to print, from what `writeGrades` wrote or straight from the puzzles. Saves it as
 * out/report.html.
 *
 *     npx tsx examples/report-on-a-folder.ts [file or folder …]
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gradeFolder, gradeReport } from '../src/batch.js'

const named = process.argv.slice(2)
const own = ['archive', 'puzzles'].map((name) => fileURLToPath(new URL(name, import.meta.url)))
const page = await gradeReport(gradeFolder(named.length > 0 ? named : own), {
  title: 'The Fennmoor Lantern: puzzles in the drawer',
})

const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
writeFileSync(`${out}report.html`, page)
console.log(`The report is in ${out}report.html`)
