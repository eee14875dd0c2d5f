/**
 * Reads every photo of a labelled folder through the public API and says how many puzzles come out exactly right.
 *
 *     npm run bench:photos -- --dir DIR [--labels FILE] [--json OUT]
 *
 * labels.csv: a header line, then file, camera, givens (81 characters, 0 = empty) and the corners, which are not used
 * here except to tell which grid of a page the label means: the one whose middle is nearest, and within half a side.
 *
 * Drawn pictures have a `labels.json` too, which says which rule each grid has; a reading with another is not exact.
 *
 * A photo on which no grid is found counts all its cells as wrong. `certainWrong` counts readings called certain whose
 * givens differ from the label.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { boxedGeometry, type Geometry, GridreasonError, layoutOf, regionGeometry } from '../src/index.js'
import { createPhotoReader, type Point, type Reading } from '../src/photo.js'

interface Label {
  readonly file: string
  readonly givens: string
  /** Where the grid is, as far as the label says. */
  readonly place: { readonly middle: Point; readonly side: number } | undefined
  /** The rule of the grid, where the labels say it. */
  readonly geometry: Geometry | undefined
}

interface DrawnGrid {
  readonly givens: string
  readonly boxRows?: number
  readonly boxColumns?: number
  readonly regions?: readonly number[]
  readonly diagonals?: true
}

/** file and givens -> the rule of the grid, for drawn pictures. */
function readRules(path: string): Map<string, Geometry> {
  if (!existsSync(path)) return new Map()
  const pictures = JSON.parse(readFileSync(path, 'utf8')) as { file: string; grids: DrawnGrid[] }[]
  return new Map(
    pictures.flatMap(({ file, grids }) =>
      grids.map((grid) => [`${file} ${grid.givens}`, ruleOf(grid)] as const),
    ),
  )
}

function ruleOf({ boxRows, boxColumns, regions, diagonals }: DrawnGrid): Geometry {
  return regions
    ? regionGeometry('drawn', regions, { diagonals: diagonals === true })
    : boxedGeometry(boxRows!, boxColumns!)
}

/** Do two geometries have the same houses, however their regions are numbered? */
function haveSameHouses(one: Geometry, other: Geometry): boolean {
  const houses = (geometry: Geometry) =>
    layoutOf(geometry)
      .houses.map(({ cells }) => [...cells].sort((a, b) => a - b).join())
      .sort()
      .join(';')
  return houses(one) === houses(other)
}

function readLabels(path: string): Label[] {
  const rules = readRules(path.replace(/csv$/, 'json'))
  const [, ...lines] = readFileSync(path, 'utf8').split(/\r?\n/)
  return lines
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const [file = '', , givens = '', ...corners] = line.split(',')
      const numbers = corners.filter((text) => text.trim() !== '').map(Number)
      return {
        file,
        givens: givens.replaceAll('.', '0'),
        place: numbers.length === 8 ? placeOf(numbers) : undefined,
        geometry: rules.get(`${file} ${givens}`),
      }
    })
}

function placeOf(corners: readonly number[]): { middle: Point; side: number } {
  const xs = corners.filter((_, i) => i % 2 === 0)
  const ys = corners.filter((_, i) => i % 2 === 1)
  const extent = (values: readonly number[]) => Math.max(...values) - Math.min(...values)
  return { middle: { x: mean(xs), y: mean(ys) }, side: Math.max(extent(xs), extent(ys)) }
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** The reading that the label means: the one whose middle is nearest, if it lies on the labelled grid at all. */
function meant(readings: readonly Reading[], { place }: Label): Reading | undefined {
  if (!place) return readings[0]
  const distance = ({ lattice: { points } }: Reading) =>
    Math.hypot(
      mean(points.map(({ x }) => x)) - place.middle.x,
      mean(points.map(({ y }) => y)) - place.middle.y,
    )
  const nearest = readings.reduce((best, reading) => (distance(reading) < distance(best) ? reading : best))
  return distance(nearest) < place.side / 2 ? nearest : undefined
}

function differences(reading: Reading, givens: string): string[] {
  const { order } = reading.puzzle.geometry
  return [...givens].flatMap((expected, cell) => {
    const digit = reading.puzzle.givens[cell] ?? 0
    if (digit === Number.parseInt(expected, 36)) return []
    const place = `r${Math.floor(cell / order) + 1}c${(cell % order) + 1}`
    return [`${place} is ${expected === '0' ? 'blank' : expected}, read ${digit || 'blank'}`]
  })
}

const { values } = parseArgs({
  options: { dir: { type: 'string' }, labels: { type: 'string' }, json: { type: 'string' } },
})
if (!values.dir) {
  console.error('Say which folder: npm run bench:photos -- --dir DIR [--labels FILE] [--json OUT]')
  process.exit(2)
}
const dir = values.dir
const labels = readLabels(values.labels ?? join(dir, 'labels.csv'))
const reader = await createPhotoReader()

const figures = { photos: 0, gridsFound: 0, cellsWrong: 0, exact: 0, certain: 0, certainWrong: 0 }
const seconds: number[] = []
const records: object[] = []
let peakRss = 0
for (const label of labels) {
  const { file, givens } = label
  figures.photos++
  const started = performance.now()
  let reading: Reading | undefined
  let trouble = ''
  try {
    reading = meant((await reader.read(join(dir, file))).readings, label)
    if (!reading) trouble = 'another grid only'
  } catch (error) {
    if (!(error instanceof GridreasonError)) throw error
    trouble = error.code
  }
  seconds.push((performance.now() - started) / 1000)
  peakRss = Math.max(peakRss, process.memoryUsage.rss())
  const wrong = reading ? differences(reading, givens) : []
  if (reading && label.geometry && !haveSameHouses(label.geometry, reading.puzzle.geometry)) {
    wrong.push('read with another rule')
  }
  const exact = reading !== undefined && wrong.length === 0
  if (reading) figures.gridsFound++
  figures.cellsWrong += reading ? wrong.length : givens.length
  if (exact) figures.exact++
  if (reading?.status === 'certain') {
    figures.certain++
    if (!exact) figures.certainWrong++
  }
  if (!exact) {
    const what = reading
      ? `${wrong.length} wrong: ${wrong.slice(0, 6).join('; ')}${wrong.length > 6 ? '; …' : ''}`
      : trouble
    console.log(`${file.padEnd(18)} ${(reading?.status ?? 'no grid').padEnd(8)} ${what}`)
  }
  records.push({
    file,
    exact,
    status: reading?.status ?? trouble,
    seconds: round(seconds.at(-1)!),
    reasons: reading?.reasons ?? [],
    margin: reading?.margin ?? null,
    wrong,
  })
}
await reader.close()

seconds.sort((a, b) => a - b)
const summary = {
  ...figures,
  secondsMedian: round(seconds[Math.floor(seconds.length / 2)] ?? 0),
  secondsWorst: round(seconds.at(-1) ?? 0),
  peakRssMiB: Math.round(peakRss / 2 ** 20),
}
console.log()
const cells = labels.reduce((sum, { givens }) => sum + givens.length, 0)
const share = (part: number, whole: number) => `${((100 * part) / Math.max(whole, 1)).toFixed(2)} %`
console.log(`photos            ${figures.photos}`)
console.log(`grids found       ${figures.gridsFound}  (${share(figures.gridsFound, figures.photos)})`)
console.log(`exact             ${figures.exact}  (${share(figures.exact, figures.photos)})`)
console.log(`cells wrong       ${figures.cellsWrong} of ${cells}  (${share(figures.cellsWrong, cells)})`)
console.log(`called certain    ${figures.certain}, of these wrong ${figures.certainWrong}`)
console.log(`seconds a photo   median ${summary.secondsMedian}, worst ${summary.secondsWorst}`)
console.log(`peak memory       ${summary.peakRssMiB} MiB`)
if (values.json) writeFileSync(values.json, `${JSON.stringify({ ...summary, records }, undefined, 2)}\n`)
console.log(JSON.stringify(summary))

function round(value: number): number {
  return Math.round(value * 1000) / 1000
}
