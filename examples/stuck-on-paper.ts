/**
 * Stuck on paper: a photo of the page somebody has been writing in, to what is wrong on it, or else a hint.
 *
 *     npx tsx examples/stuck-on-paper.ts [picture]
 */
import { fileURLToPath } from 'node:url'
import { cellName, checkProgress, formatPuzzle, hint } from '../src/index.js'
import { boardOf, createPhotoReader } from '../src/photo.js'
import { endWithTrouble } from './support/trouble.js'

const HALF_SOLVED = fileURLToPath(new URL('../fixtures/pages/5-half-solved.jpg', import.meta.url))

const reader = await createPhotoReader()
try {
  const {
    readings: [reading],
  } = await reader.read(process.argv[2] ?? HALF_SOLVED)
  const { puzzle, cells, status, reasons, doubtful } = reading
  const named = (cell: number) => cellName(puzzle.geometry, cell)
  console.log(formatPuzzle(puzzle, { style: 'ruled' }))
  const entered = cells.flatMap(({ entry }, cell) => (entry.digit ? [`${named(cell)}=${entry.digit}`] : []))
  console.log(`written in: ${entered.join(' ') || 'nothing'}`)
  const noted = cells.flatMap(({ marks }, cell) =>
    marks.digits.length > 0 ? [`${named(cell)} ${marks.digits.join('')}`] : [],
  )
  console.log(`pencil marks: ${noted.join(', ') || 'none'}`)
  // an app shows these cells and lets its user correct them (`settleCells`) before it goes on
  if (status === 'check')
    console.log(`please look at ${doubtful.map(named).join(' ')} (${reasons.join(', ')})`)

  const board = boardOf(reading)
  const progress = checkProgress(puzzle, board)
  console.log(`progress: ${progress.status}`)
  const help = hint(board, { depth: 'method' })
  for (const sentence of help.says) console.log(`  ${sentence}`)
} catch (error) {
  endWithTrouble(error)
} finally {
  await reader.close()
}
