/**
 * How many pages a walkthrough takes: `npm run bench:pages -- FILE… [--first N] [--every N] [--paper A4|Letter]
 * [--version short|full|notes] [--language en|de] [--keep DIR]`.
 *
 * Prints the walkthrough of each puzzle with an installed Chromium (`--chromium PATH`) and counts pages. The last line
 * is one JSON object: puzzles, median, worst, how many take each number of pages, and the milliseconds that making one
 * takes (median, worst).
 */
import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { WALKTHROUGH_VERSIONS, type WalkthroughVersion, walkthrough } from '../src/explain/walkthrough.js'
import { ENGLISH } from '../src/explain/words/english/index.js'
import { GERMAN } from '../src/explain/words/german/index.js'
import { makePuzzle } from '../src/grid/puzzle.js'
import { readPuzzleLines } from './support/puzzle-lines.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    first: { type: 'string', default: '30' },
    every: { type: 'string', default: '1' },
    paper: { type: 'string', default: 'A4' },
    version: { type: 'string', default: 'short' },
    language: { type: 'string', default: 'en' },
    chromium: { type: 'string', default: 'chromium' },
    keep: { type: 'string' },
  },
})
const version = WALKTHROUGH_VERSIONS.find((name) => name === values.version)
if (files.length === 0 || version === undefined || !/^(A4|Letter)$/.test(values.paper)) {
  console.error('Usage: npm run bench:pages -- FILE… [--first N] [--every N] [--paper A4|Letter]')
  process.exit(2)
}
const puzzles = readPuzzleLines(files)
  .filter((_, i) => i % Number(values.every) === 0)
  .slice(0, Number(values.first))
const folder = values.keep ?? mkdtempSync(join(tmpdir(), 'pages-'))
mkdirSync(folder, { recursive: true })

const pages: number[] = []
const times: number[] = []
for (const [i, { givens }] of puzzles.entries()) {
  const before = performance.now()
  const html = pageOf(givens, version)
  times.push(Math.round(performance.now() - before))
  pages.push(printed(html, join(folder, `${i + 1}`)))
  console.log(`${i + 1}: ${pages[i]} pages, ${times[i]} ms`)
}
if (values.keep === undefined) rmSync(folder, { recursive: true })

const counts: Record<number, number> = {}
for (const count of pages) counts[count] = (counts[count] ?? 0) + 1
console.log(
  JSON.stringify({
    puzzles: pages.length,
    paper: values.paper,
    version,
    pages: middleAndEnd(pages),
    counts,
    milliseconds: middleAndEnd(times),
  }),
)

function pageOf(givens: readonly number[], version: WalkthroughVersion): string {
  const wording = values.language === 'de' ? GERMAN : ENGLISH
  const html = walkthrough(makePuzzle(givens), { wording, version })
  return html.replace('</style>', `@page { size: ${values.paper} }</style>`)
}

function printed(html: string, name: string): number {
  writeFileSync(`${name}.html`, html)
  execFileSync(
    values.chromium,
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--no-pdf-header-footer',
      `--print-to-pdf=${name}.pdf`,
      `file://${name}.html`,
    ],
    { stdio: 'ignore' },
  )
  return readFileSync(`${name}.pdf`, 'latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
}

function middleAndEnd(numbers: readonly number[]): { readonly median: number; readonly worst: number } {
  const ascending = [...numbers].sort((a, b) => a - b)
  return { median: ascending[ascending.length >> 1]!, worst: ascending.at(-1)! }
}
