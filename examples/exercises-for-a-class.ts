/**
 * Exercises for a class that has learnt pencil-mark work and is about to meet the XY-chain: what a teacher does with a
 * pile of old puzzles. Prints each board as text and saves a sheet with pictures, answers on a page of their own.
 *
 *     npx tsx examples/exercises-for-a-class.ts [file] [technique]
 */
import { createReadStream, mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { findExercises, type TechniqueName, techniqueTitle } from '../src/index.js'
import { endWithTrouble } from './support/trouble.js'

const [
  file = fileURLToPath(new URL('archive/fennmoor-lantern-drawer.txt', import.meta.url)),
  named = 'xy-chain',
] = process.argv.slice(2)
const technique = named as TechniqueName

const questions: string[] = []
const answers: string[] = []
try {
  const text = createReadStream(file, 'utf8')
  for await (const exercise of findExercises(text, technique, { count: 12 })) {
    const { from, opens, hints, explanation, pictures } = exercise
    const number = questions.length + 1
    console.log(`${number}. ${from.title ?? `line ${from.line}`}: ${hints[0]}`)
    console.log(`   ${explanation.sentences.at(-1)} (${explanation.conclusion})`)
    console.log(`   ${opens.finishes ? 'The rest falls.' : `Digits that fall then: ${opens.placed}.`}`)
    questions.push(`<h2>${number}</h2>${pictures.board}`)
    answers.push(`<h2>${number}</h2>${pictures.answer}<p>${explanation.sentences.join(' ')}</p>`)
  }
} catch (error) {
  endWithTrouble(error)
}

const title = `Find the ${techniqueTitle(technique)}`
const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
writeFileSync(
  `${out}exercises.html`,
  `<!doctype html><meta charset="utf-8"><title>${title}</title><h1>${title}</h1>${questions.join('')}
<h1 style="break-before: page">Answers</h1>${answers.join('')}\n`,
)
console.log(`\n${questions.length} exercises in ${out}exercises.html`)
