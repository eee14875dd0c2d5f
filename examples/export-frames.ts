/**
 * Pictures for a talk or a film: how the key step of a puzzle is found and how it works, one picture a sentence, as PNG
 * files of 1920 × 1080 with a list of the times at which each comes.
 *
 *     npx tsx examples/export-frames.ts [puzzle] [theme: light, dark or print]
 *
 * Writes out/frames/*.png and out/frames/cues.vtt.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { cueSheet, type Frame, frames, hunt, keyStep, parsePuzzle, solve, THEMES } from '../src/index.js'
import { endWithTrouble } from './support/trouble.js'

const PUZZLE = '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..'
const WIDTH = 1920

const [text = PUZZLE, wish] = process.argv.slice(2)
const theme = THEMES.find((name) => name === wish) ?? 'light'
try {
  const { steps } = solve(parsePuzzle(text))
  const key = steps[keyStep(steps) ?? -1]
  if (!key) throw new Error('This puzzle has no key step: scanning is enough.')
  const style = { theme, shape: 'wide', width: WIDTH } as const
  const found = hunt(key, { ...style, title: 'How to find it' })
  const rows = joined(found.frames, frames(key, style))

  const folder = fileURLToPath(new URL('../out/frames', import.meta.url))
  mkdirSync(folder, { recursive: true })
  for (const [i, { svg }] of rows.entries()) {
    const name = `${folder}/${String(i + 1).padStart(2, '0')}.png`
    await sharp(Buffer.from(svg)).png().toFile(name)
  }
  writeFileSync(`${folder}/cues.vtt`, cueSheet(rows))
  for (const { from, text: said } of rows) console.log(`${from.toFixed(1).padStart(6)} s  ${said}`)
  console.log(`\n${rows.length} pictures ${WIDTH} pixels wide and their times are in ${folder}`)
} catch (error) {
  endWithTrouble(error)
}

/** The second row comes when the first is over. */
function joined(first: readonly Frame[], second: readonly Frame[]): Frame[] {
  const end = first[first.length - 1]?.to ?? 0
  return [...first, ...second.map((frame) => ({ ...frame, from: end + frame.from, to: end + frame.to }))]
}
