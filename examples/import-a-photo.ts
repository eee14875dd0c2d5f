/**
 * Import a photo: what an app does after its user has taken a picture of a printed puzzle.
 *
 *     npx tsx examples/import-a-photo.ts [picture]
 *
 * The reading says whether it is certain. If it is not, the app shows the cells to look at, takes its user's word for
 * them, and the rest is decided again.
 */
import { cellName, formatPuzzle } from '../src/index.js'
import { createPhotoReader, type Reading, settleCells } from '../src/photo.js'
import { pageFromArguments } from './support/default-page.js'
import { endWithTrouble } from './support/trouble.js'

const reader = await createPhotoReader()
try {
  const file = pageFromArguments()
  const { readings } = await reader.read(file)
  console.log(`${file}: ${readings.length} grid${readings.length === 1 ? '' : 's'}`)
  for (const reading of readings) {
    show(reading)
    if (reading.status === 'check') show(confirm(reading))
  }
} catch (error) {
  // Everything that can be wrong with a picture has a code; an app chooses its own words by it.
  endWithTrouble(error)
} finally {
  await reader.close()
}

function show(reading: Reading): void {
  const { puzzle, status, reasons, verdict, cells, doubtful } = reading
  console.log(formatPuzzle(puzzle, { style: 'ruled' }))
  console.log(
    `status: ${status}${reasons.length > 0 ? ` (${reasons.join(', ')})` : ''}; solutions: ${verdict.kind}`,
  )
  const settled = cells.flatMap((cell, index) => (cell.decidedBy === 'logic' ? [index] : []))
  for (const index of settled) {
    const { digit, raw } = cells[index]!
    console.log(
      `  ${cellName(puzzle.geometry, index)}: ${name(digit)} by logic; the pixels alone said ${name(raw.digit)}`,
    )
  }
  for (const index of doubtful) {
    const { digit, confidence, alternatives } = cells[index]!
    const others = alternatives
      .map((other) => `${name(other.digit)} ${percent(other.probability)}`)
      .join(', ')
    console.log(
      `  please look at ${cellName(puzzle.geometry, index)}: ${name(digit)} ${percent(confidence)}, else ${others || 'nothing'}`,
    )
  }
}

/** Stands in for the app's user, who has looked at the doubtful cells and found them read rightly. */
function confirm(reading: Reading): Reading {
  console.log('  … the user looks, and confirms')
  return settleCells(
    reading,
    reading.doubtful.map((cell) => ({ cell, digit: reading.cells[cell]!.digit })),
  )
}

function name(digit: number): string {
  return digit === 0 ? 'empty' : String(digit)
}

function percent(probability: number): string {
  return `${(100 * probability).toFixed(1)} %`
}
