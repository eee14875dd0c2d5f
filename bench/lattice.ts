/**
 * How well grids are found: every labelled grid against what `findLattices` returns, and the time each stage takes.
 *
 *     npx tsx bench/lattice.ts --dir DIR [--worst N]
 *
 * DIR holds pictures with a `labels.json` (drawn pictures: every crossing is known exactly) or a `labels.csv` (file,
 * camera, givens, four corners placed by hand). Errors are the farthest crossing (or corner) of a grid, in cells of
 * that grid. A grid counts as found when that is under half a cell: hand-placed corners can be that far off. The last
 * line is one JSON object.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { cutCells, decodePicture, findLattices, type Lattice, type Point } from '../src/photo.js'
import { wholeNumber } from './support/whole-number.js'

interface GridTruth {
  readonly order: number
  /** All crossings, or the four corners clockwise. */
  readonly points: readonly Point[]
}

interface PictureTruth {
  readonly file: string
  readonly grids: readonly GridTruth[]
  /** Middles of grids that the picture shows in part; finding them is neither right nor wrong. */
  readonly optional: readonly Point[]
}

type Pair = readonly [number, number]

function readTruth(dir: string): PictureTruth[] {
  const json = join(dir, 'labels.json')
  if (existsSync(json)) {
    const pictures = JSON.parse(readFileSync(json, 'utf8')) as {
      file: string
      grids: { order: number; lattice: Pair[] }[]
      partGrids?: Pair[][]
    }[]
    return pictures.map(({ file, grids, partGrids = [] }) => ({
      file,
      grids: grids.map(({ order, lattice }) => ({ order, points: lattice.map(([x, y]) => ({ x, y })) })),
      optional: partGrids.map((lattice) => middleOf(lattice.map(([x, y]) => ({ x, y })))),
    }))
  }
  const byFile = new Map<string, GridTruth[]>()
  for (const line of readFileSync(join(dir, 'labels.csv'), 'utf8').split(/\r?\n/).slice(1)) {
    if (line.trim() === '') continue
    const [file = '', , givens = '', ...corners] = line.split(',')
    const grids = byFile.get(file) ?? []
    byFile.set(file, grids)
    if (givens === '') continue
    const n = corners.filter((text) => text.trim() !== '').map(Number)
    const points = n.length === 8 ? [0, 2, 4, 6].map((k) => ({ x: n[k]!, y: n[k + 1]! })) : []
    grids.push({ order: Math.sqrt(givens.length), points })
  }
  return [...byFile].map(([file, grids]) => ({ file, grids, optional: [] }))
}

function middleOf(points: readonly Point[]): Point {
  return {
    x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
    y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
  }
}

const away = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y)

/** Errors of a lattice against the truth in cells, the best of the four quarter turns: the farthest and the mean. */
function errors(lattice: Lattice, truth: GridTruth): { worst: number; mean: number } {
  const none = { worst: Number.POSITIVE_INFINITY, mean: Number.POSITIVE_INFINITY }
  const { order } = lattice
  if (order !== truth.order) return none
  if (truth.points.length === 0) return { worst: 0, mean: 0 }
  const side = order + 1
  const corners = truth.points.length === 4
  let points: Point[] = [...lattice.points]
  const cell =
    (away(points[0]!, points[side * side - 1]!) + away(points[order]!, points[side * order]!)) /
    (2 * Math.SQRT2 * order)
  let best = none
  for (let quarter = 0; quarter < 4; quarter++) {
    const compared = corners
      ? [points[0]!, points[order]!, points[side * side - 1]!, points[side * order]!]
      : points
    const distances = compared.map((point, k) => away(point, truth.points[k]!) / cell)
    const worst = Math.max(...distances)
    if (worst < best.worst)
      best = { worst, mean: distances.reduce((sum, d) => sum + d, 0) / distances.length }
    const before = points
    points = before.map((_, k) => before[(order - (k % side)) * side + Math.floor(k / side)]!)
  }
  return best
}

const FOUND_WITHIN = 0.5

/** Processor time of this process so far, which other programs on the machine disturb less than the clock. */
function cpuMs(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

const { values } = parseArgs({
  options: { dir: { type: 'string' }, worst: { type: 'string', default: '15' } },
})
const shown = wholeNumber('worst', values.worst)
if (!values.dir) {
  console.error('Say which folder: npx tsx bench/lattice.ts --dir DIR')
  process.exit(2)
}
const truths = readTruth(values.dir)
const rows: { file: string; worst: number; mean: number }[] = []
const extras: string[] = []
const times = { decode: [] as number[], find: [] as number[], cut: [] as number[] }
let grids = 0
let found = 0
for (const truth of truths) {
  const start = cpuMs()
  const picture = await decodePicture(join(values.dir, truth.file))
  const decoded = cpuMs()
  const lattices = await findLattices(picture.gray)
  const looked = cpuMs()
  if (lattices[0]) cutCells(picture.gray, lattices[0])
  times.decode.push(decoded - start)
  times.find.push(looked - decoded)
  if (lattices[0]) times.cut.push(cpuMs() - looked)

  const scale = picture.fullWidth / picture.gray.width
  const full = lattices.map((lattice) => ({
    ...lattice,
    points: lattice.points.map(({ x, y }) => ({ x: x * scale, y: y * scale })),
  }))
  const used = new Set<number>()
  for (const grid of truth.grids) {
    grids++
    let best = { worst: Number.POSITIVE_INFINITY, mean: Number.POSITIVE_INFINITY }
    let at = -1
    full.forEach((lattice, k) => {
      const error = errors(lattice, grid)
      if (error.worst < best.worst) {
        best = error
        at = k
      }
    })
    if (best.worst < FOUND_WITHIN) {
      found++
      used.add(at)
    }
    rows.push({ file: truth.file, ...best })
  }
  full.forEach((lattice, k) => {
    const middle = middleOf(lattice.points)
    const size = away(lattice.points[0]!, lattice.points.at(-1)!)
    if (used.has(k) || truth.optional.some((point) => away(point, middle) < size / 3)) return
    extras.push(
      `${truth.file}: order ${lattice.order} at ${Math.round(middle.x)}, ${Math.round(middle.y)}, support ${lattice.support.toFixed(2)}`,
    )
  })
}

const quantile = (list: readonly number[], share: number) =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))] ?? 0
const rounded = (value: number) => Math.round(value * 1000) / 1000
const good = rows.filter(({ worst }) => worst < FOUND_WITHIN)
console.log(`Grids missed or farthest off (worst crossing, mean, in cells):`)
for (const row of [...rows].sort((a, b) => b.worst - a.worst).slice(0, shown)) {
  console.log(
    row.worst < FOUND_WITHIN
      ? `  ${row.file}  ${row.worst.toFixed(3)}  ${row.mean.toFixed(3)}`
      : `  ${row.file}  missed`,
  )
}
console.log(`Grids reported that no label names: ${extras.length}`)
for (const extra of extras) console.log(`  ${extra}`)
console.log(
  JSON.stringify({
    pictures: truths.length,
    grids,
    found,
    unlabelled: extras.length,
    worstCrossingMedian: rounded(
      quantile(
        good.map(({ worst }) => worst),
        0.5,
      ),
    ),
    worstCrossing95: rounded(
      quantile(
        good.map(({ worst }) => worst),
        0.95,
      ),
    ),
    meanCrossing: rounded(good.reduce((sum, { mean }) => sum + mean, 0) / good.length),
    decodeMs: rounded(quantile(times.decode, 0.5)),
    findMs: rounded(quantile(times.find, 0.5)),
    findMsWorst: rounded(Math.max(...times.find)),
    cutMs: rounded(quantile(times.cut, 0.5)),
  }),
)
