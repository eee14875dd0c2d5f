/**
 * A page of all techniques: what each looks like, how it is found, why it is right, and its proof.
 *
 *     npx tsx examples/catalogue.ts [file]
 *
 * Everything on the page is said, drawn and proven by the library, off one example board a technique. It is made with
 * the package, as dist/catalogue.html.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { argv } from 'node:process'
import {
  conclusionNotation,
  explainStep,
  type FoundStep,
  findSteps,
  hunt,
  LEVELS,
  type Level,
  renderSvg,
  techniqueTitle,
  verifyStep,
} from '../src/index.js'
import { techniqueExamples } from './support/technique-examples.js'

const LEVEL_SAYS: Readonly<Record<Level, string>> = {
  scan: 'Found by looking along rows, columns and boxes; no pencil marks needed.',
  mark: 'Pencil marks in a line or box are compared with each other.',
  pattern: 'One digit, or a few cells, seen as a figure across the grid.',
  chain: 'Links are followed from one candidate to the next.',
  branch: 'All cases of a cell or house are followed to what they share.',
}

const STYLE = `
:root { color-scheme: light; --ink: #23262d; --soft: #5d6069; --hair: #d9d2c5; --accent: #0d6660 }
body { max-width: 62rem; margin: 0 auto; padding: 2rem 1rem 4rem; background: #fffdf7; color: var(--ink); font: 1rem/1.55 system-ui, sans-serif }
h1, h2, h3 { font-family: "Palatino Linotype", Palatino, Georgia, serif; line-height: 1.2 }
h2 { margin-top: 3rem; border-bottom: 2px solid var(--ink); padding-bottom: 0.25rem }
article { display: grid; grid-template-columns: minmax(0, 22rem) minmax(0, 1fr); gap: 0 2rem; padding: 1.5rem 0; border-bottom: 1px solid var(--hair); break-inside: avoid }
article h3 { grid-column: 1 / -1; margin: 0 0 0.75rem }
article svg { width: 100%; height: auto }
h4 { margin: 0.75rem 0 0.25rem; color: var(--accent) }
p, ol { margin: 0 0 0.5rem }
ol { padding-left: 1.2rem }
nav ul { columns: 15rem; padding-left: 1.1rem }
a { color: var(--accent) }
.soft { color: var(--soft); font-size: 0.9rem }
@media (max-width: 44rem) { article { grid-template-columns: minmax(0, 1fr) } }
`

const steps = [...techniqueExamples()].map(([technique, board]) => {
  const [step] = findSteps(board, { techniques: [technique], limit: 1 })
  if (!step) throw new Error(`There is no ${technique} on its board.`)
  return step
})
const file = argv[2] ?? 'out/catalogue.html'
mkdirSync(dirname(file), { recursive: true })
writeFileSync(file, page(steps))
console.log(`${steps.length} techniques are in ${file}.`)

function page(all: readonly FoundStep[]): string {
  const levels = LEVELS.map((level) => ({ level, own: all.filter((step) => step.level === level) }))
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Techniques of gridreason</title>
<style>${STYLE}</style>
<h1>All techniques</h1>
<p>${all.length} of them, easiest first. Each has an example on a board; its words and its picture come from the
library, and the library has proven it.</p>
<nav aria-label="Techniques">${levels
    .map(
      ({ level, own }) =>
        `<h3>${level}</h3><ul>${own.map(({ technique }) => `<li><a href="#${technique}">${techniqueTitle(technique)}</a></li>`).join('')}</ul>`,
    )
    .join('')}</nav>
${levels.map(({ level, own }) => `<h2>${level}</h2>\n<p>${LEVEL_SAYS[level]}</p>\n${own.map(article).join('\n')}`).join('\n')}
</html>
`
}

function article(step: FoundStep): string {
  const { before, technique, premises, assumes, placements, removals } = step
  const verdict = verifyStep(before, step)
  if (!verdict.proven) throw new Error(`The example of ${technique} is not proven.`)
  const rests =
    assumes === 'one-solution'
      ? 'It rests on the puzzle having one solution: another would come of exchanging digits.'
      : `Denied, it would leave no way to satisfy ${premises.length === 1 ? 'its premise' : `its ${premises.length} premises`}.`
  return `<article id="${technique}">
<h3>${techniqueTitle(technique)}</h3>
<div>${renderSvg(before, { step, marks: 'all' })}</div>
<div>
<h4>How it is found</h4>
${list(hunt(step, { pictures: false }).sentences)}
<h4>Why it is right</h4>
${list(explainStep(step).sentences)}
<p class="soft">${escaped(conclusionNotation(before.geometry, placements, removals))}. ${rests}</p>
</div>
</article>`
}

function list(sentences: readonly string[]): string {
  return `<ol>${sentences.map((sentence) => `<li>${escaped(sentence)}</li>`).join('')}</ol>`
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
}
