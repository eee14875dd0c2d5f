/**
 * The demo: from a photographed page to an explained solution.
 *
 *     npm run demo                                          the page of the fixtures
 *     npx tsx examples/photo-to-walkthrough.ts [picture]    one of your own
 *
 * Prints the grid, what was settled by logic, the verdict and the route, and writes out/walkthrough.html and
 * out/speaking-notes.html.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import {
  cellGroups,
  explainStep,
  findRoute,
  formatPuzzle,
  type RouteLine,
  walkthrough,
} from '../src/index.js'
import { createPhotoReader } from '../src/photo.js'
import { pageFromArguments } from './support/default-page.js'
import { endWithTrouble } from './support/trouble.js'

const file = pageFromArguments()
const reader = await createPhotoReader()
const {
  readings: [reading, ...others],
} = await reader
  .read(file)
  .catch(endWithTrouble)
  .finally(() => reader.close())
const { puzzle, verdict, cells, doubtful, status } = reading
const { geometry } = puzzle

console.log(`Read from ${file}${others.length > 0 ? ` (the first of ${others.length + 1} grids)` : ''}:\n`)
console.log(formatPuzzle(puzzle, { style: 'ruled' }))
const settled = cells.flatMap(({ decidedBy }, cell) => (decidedBy === 'logic' ? [cell] : []))
console.log(`\nThe reading is ${status === 'certain' ? 'certain' : 'to be checked'}.`)
if (settled.length > 0) console.log(`Settled by logic: ${cellGroups(geometry, settled).join(', ')}`)
if (doubtful.length > 0) console.log(`Please look at: ${cellGroups(geometry, doubtful).join(', ')}`)

if (verdict.kind === 'unique') {
  console.log('Verdict: exactly one solution.\n')
  const route = findRoute(puzzle)
  if (route.status === 'solved') {
    showRoute(route)
    console.log('Solved.')
  } else console.log('No route was found: the techniques do not finish this puzzle.')
} else {
  console.log(`Verdict: ${verdict.kind} — not a sound puzzle, so there is nothing to explain.\n`)
}

const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
const page = `${out}walkthrough.html`
writeFileSync(page, walkthrough(reading))
writeFileSync(`${out}speaking-notes.html`, walkthrough(reading, { version: 'notes' }))
console.log(`\nThe walkthrough with its pictures, which prints on a few pages, is in ${page}`)
console.log(`Notes for telling it to others are beside it, in speaking-notes.html`)

/** Runs of singles are one line; every other step gets its sentences. */
function showRoute({ steps, keys }: RouteLine): void {
  let run: string[] = []
  const finishRun = (until: number) => {
    if (run.length > 0)
      console.log(`Steps ${until - run.length + 1} to ${until}, by scanning: ${run.join(', ')}\n`)
    run = []
  }
  steps.forEach((step, index) => {
    const { title, sentences, links, conclusion } = explainStep(step)
    if (step.level === 'scan') {
      run.push(conclusion)
      return
    }
    finishRun(index)
    console.log(`Step ${index + 1}${keys.includes(index) ? ', the key' : ''}: ${title}`)
    for (const sentence of sentences) console.log(`  ${sentence}`)
    if (links !== undefined) console.log(`  ${links}`)
    console.log()
  })
  finishRun(steps.length)
}
