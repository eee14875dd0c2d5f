/**
 * Reads every page of a labelled folder that somebody has written in, through the public API, and says how often givens
 * and entries come out exactly right.
 *
 *     npm run bench:written -- --dir DIR [--labels FILE] [--json OUT]
 *
 * labels.csv: a header line, then file, kind, givens and entries (81 characters each, 0 = none); or labels.json as the
 * drawn pictures have it, with pencil marks. `certain` counts readings that say so of all three; `certainWrong` those
 * of them that differ anywhere. `marksRight` counts cells with marks of which every mark is right, where labels have
 * them.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import type { PictureLabel } from '../fixtures/draw/labels.js'
import { GridreasonError } from '../src/index.js'
import { createPhotoReader, type Reading } from '../src/photo.js'

interface Label {
  readonly file: string
  readonly givens: readonly number[]
  readonly entries: readonly number[]
  /** cell -> marks; undefined where the labels do not say. */
  readonly marks: ReadonlyMap<number, readonly number[]> | undefined
}

const digits = (text: string) => [...text.trim()].map(Number)

function labelsOfCsv(path: string): Label[] {
  const [, ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/)
  return lines.map((line) => {
    const [file = '', , givens = '', entries = ''] = line.split(',')
    return { file, givens: digits(givens), entries: digits(entries), marks: undefined }
  })
}

function labelsOfJson(path: string): Label[] {
  const pictures = JSON.parse(readFileSync(path, 'utf8')) as PictureLabel[]
  return pictures.flatMap(({ file, grids: [grid] }) => {
    if (!grid) return []
    const givens = digits(grid.givens)
    const written = new Map(grid.handwriting.map(({ cell, digit }) => [cell, digit]))
    const marks = new Map(grid.pencilMarks.map((mark) => [mark.cell, mark.digits]))
    return [{ file, givens, entries: givens.map((_, cell) => written.get(cell) ?? 0), marks }]
  })
}

const { values } = parseArgs({
  options: { dir: { type: 'string' }, labels: { type: 'string' }, json: { type: 'string' } },
})
if (!values.dir) {
  console.error('Say which folder: npm run bench:written -- --dir DIR [--labels FILE] [--json OUT]')
  process.exit(2)
}
const { dir } = values
const asJson = join(dir, 'labels.json')
const labelsFile = values.labels ?? (existsSync(asJson) ? asJson : join(dir, 'labels.csv'))
const labels = labelsFile.endsWith('.json') ? labelsOfJson(labelsFile) : labelsOfCsv(labelsFile)

const figures = {
  pages: 0,
  givensExact: 0,
  entriesExact: 0,
  bothExact: 0,
  cellsWrong: 0,
  certain: 0,
  certainWrong: 0,
  entries: 0,
  entriesRight: 0,
  markedCells: 0,
  marksRight: 0,
}
const seconds: number[] = []
const records: object[] = []

const reader = await createPhotoReader()
for (const label of labels) {
  figures.pages++
  figures.entries += label.entries.filter((digit) => digit !== 0).length
  figures.markedCells += label.marks?.size ?? 0
  const started = performance.now()
  let reading: Reading | undefined
  let trouble = ''
  try {
    reading = closest((await reader.read(join(dir, label.file))).readings, label)
  } catch (error) {
    if (!(error instanceof GridreasonError)) throw error
    trouble = error.code
  }
  seconds.push((performance.now() - started) / 1000)
  const wrong = reading ? wrongCells(reading, label) : { givens: [0], entries: [0], marks: [] }
  const [givens, entries] = [wrong.givens.length === 0, wrong.entries.length === 0]
  if (givens) figures.givensExact++
  if (entries) figures.entriesExact++
  if (givens && entries) figures.bothExact++
  figures.cellsWrong += reading ? new Set([...wrong.givens, ...wrong.entries]).size : label.givens.length
  if (reading) {
    figures.entriesRight += label.entries.filter((d, cell) => d && !wrong.entries.includes(cell)).length
    figures.marksRight += [...(label.marks?.keys() ?? [])].filter(
      (cell) => !wrong.marks.includes(cell),
    ).length
  }
  const right = givens && entries && wrong.marks.length === 0
  if (reading?.status === 'certain') {
    figures.certain++
    if (!right) figures.certainWrong++
  }
  if (!right) {
    const text = `givens ${wrong.givens.length}, entries ${wrong.entries.length}, marks ${wrong.marks.length} wrong`
    console.log(`${label.file.padEnd(20)} ${(reading?.status ?? trouble).padEnd(8)} ${text}`)
  }
  const { status, reasons, margin } = reading ?? {}
  records.push({ file: label.file, status: status ?? trouble, reasons, margin, ...wrong })
}
await reader.close()
seconds.sort((a, b) => a - b)
const summary = { ...figures, secondsMedian: Math.round(1000 * (seconds[seconds.length >> 1] ?? 0)) / 1000 }
if (values.json) writeFileSync(values.json, `${JSON.stringify({ ...summary, records }, undefined, 2)}\n`)
console.log(JSON.stringify(summary))

/** The grid of the page that the label means: the one whose givens differ least. */
function closest(readings: readonly Reading[], { givens }: Label): Reading {
  const differing = ({ puzzle }: Reading) =>
    givens.filter((digit, cell) => digit !== puzzle.givens[cell]).length
  return readings.reduce((best, other) => (differing(other) < differing(best) ? other : best))
}

function wrongCells({ puzzle, cells }: Reading, { givens, entries, marks }: Label) {
  const where = (isWrong: (cell: number) => boolean) =>
    givens.flatMap((_, cell) => (isWrong(cell) ? [cell] : []))
  return {
    givens: where((cell) => puzzle.givens[cell] !== givens[cell]),
    entries: where((cell) => (cells[cell]?.entry.digit ?? 0) !== entries[cell]),
    marks: marks
      ? where((cell) => (cells[cell]?.marks.digits ?? []).join() !== (marks.get(cell) ?? []).join())
      : [],
  }
}
