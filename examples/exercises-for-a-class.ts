/**
 * Exercises for a class that has learnt pencil-mark work and is about to meet the XY-chain: what a teacher does with a
 * pile of old puzzles. Prints each answer as text and saves a sheet to print: four positions a page, hints
 * and answers at the end.
 *
 *     npx tsx examples/exercises-for-a-class.ts [file] [technique]
 */
import { createReadStream, mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { type Exercise, exerciseSheet, findExercises, type TechniqueName } from '../src/index.js'
import { endWithTrouble } from './support/trouble.js'

const [
  file = fileURLToPath(new URL('archive/fennmoor-lantern-drawer.txt', import.meta.url)),
  named = 'xy-chain',
] = process.argv.slice(2)
const technique = named as TechniqueName

const exercises: Exercise[] = []
try {
  const text = createReadStream(file, 'utf8')
  for await (const exercise of findExercises(text, technique, { count: 12 })) {
    const { from, opens, hints, explanation } = exercise
    exercises.push(exercise)
    console.log(`${exercises.length}. ${from.title ?? `line ${from.line}`}: ${hints[0]}`)
    console.log(`   ${explanation.sentences.at(-1)} (${explanation.conclusion})`)
    console.log(`   ${opens.finishes ? 'The rest falls.' : `Digits that fall then: ${opens.placed}.`}`)
  }
} catch (error) {
  endWithTrouble(error)
}

const out = fileURLToPath(new URL('../out/', import.meta.url))
mkdirSync(out, { recursive: true })
writeFileSync(`${out}exercises.html`, exerciseSheet(exercises, { hints: true }))
console.log(`\n${exercises.length} exercises in ${out}exercises.html`)
