/**
 * Grades: are they the same for every image of a puzzle, do they rise with the levels, and do they follow people's
 * times?
 *
 *     npm run bench:grades -- FILE… [--first N] [--images 5] [--no-keys] [--times CSV]
 *
 * Prints one JSON object as its last line. `images`: how many random images of the puzzles were graded, and how many of
 * them have the same level, effort, profile and key technique as their puzzle (`sameLevel`, `sameEffort`,
 * `sameProfile`, `sameKey`). `orderFaults`: pairs of techniques, of different levels, whose median efforts stand the
 * other way round, among techniques met in five rounds or more. With `--times`, a file with the columns puzzle, players
 * and seconds: Spearman's rank correlation of effort with seconds, of all puzzles (`rho`), of those that 20 people or
 * more solved (`rhoMany`) and those that need more than singles (`rhoHard`); the same out of fold, with the formula's
 * numbers fitted to nine tenths of the puzzles and tried on the tenth left, ten times over (`…Out`); and 95 % intervals
 * of these by bootstrap.
 */
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { looksFor } from '../src/grade/ease.js'
import { gradePuzzle } from '../src/grade/grade-puzzle.js'
import { makePuzzle, type Puzzle } from '../src/grid/puzzle.js'
import { randomTransform, transformPuzzle } from '../src/grid/symmetry.js'
import { LEVELS, type Level } from '../src/logic/level.js'
import type { TechniqueName } from '../src/logic/technique-names.js'
import { effortOf, fittedOutOfFold, roundsOf } from './support/effort-fit.js'
import { readPuzzleLines } from './support/puzzle-lines.js'
import { spearman, spearmanInterval } from './support/rank-correlation.js'
import { printResult, printTable, significant } from './support/report.js'

const { positionals: files, values } = parseArgs({
  allowPositionals: true,
  options: {
    first: { type: 'string' },
    images: { type: 'string', default: '5' },
    'no-keys': { type: 'boolean', default: false },
    times: { type: 'string' },
  },
})
if (files.length === 0 && !values.times) {
  console.error('Usage: npm run bench:grades -- FILE… [--first N] [--images 5] [--no-keys] [--times CSV]')
  process.exit(2)
}

/** Rounds in which a technique is met before its median counts. */
const ENOUGH = 5

const lines = readPuzzleLines(files).slice(0, values.first ? Number(values.first) : undefined)
const puzzles = lines.map(({ givens }) => makePuzzle(givens))
printResult({ ...images(), ...order(), ...(values.times ? times(values.times) : {}) })

function images() {
  const same = { sameLevel: 0, sameEffort: 0, sameProfile: 0, ...(!values['no-keys'] && { sameKey: 0 }) }
  const each = Number(values.images)
  const options = { route: !values['no-keys'] }
  for (const [index, puzzle] of puzzles.entries()) {
    if (each === 0) break
    const grade = gradePuzzle(puzzle, options)
    for (let i = 0; i < each; i++) {
      const image = transformPuzzle(puzzle, randomTransform(puzzle.geometry, 1 + index * each + i))
      const other = gradePuzzle(image, options)
      same.sameLevel += Number(other.level === grade.level)
      same.sameEffort += Number(other.effort === grade.effort)
      same.sameProfile += Number(JSON.stringify(other.techniques) === JSON.stringify(grade.techniques))
      if (same.sameKey !== undefined) same.sameKey += Number(other.key?.technique === grade.key?.technique)
      if (other.key?.technique !== grade.key?.technique)
        console.log(
          `${lines[index]!.file}:${lines[index]!.line}: ${grade.key?.technique}, ${other.key?.technique}`,
        )
    }
  }
  return { puzzles: puzzles.length, images: puzzles.length * each, ...same }
}

function order() {
  const looks = new Map<TechniqueName, { level: Level; looks: number[] }>()
  for (const { techniques, level, seen } of puzzles.flatMap((puzzle) => roundsOf(puzzle)))
    for (const technique of techniques) {
      const row = looks.get(technique) ?? { level, looks: [] }
      row.looks.push(looksFor(seen))
      looks.set(technique, row)
    }
  const rows = [...looks]
    .filter(([, { looks }]) => looks.length >= ENOUGH)
    .map(([technique, { level, looks }]) => ({
      technique,
      level,
      count: looks.length,
      median: median(looks),
    }))
    .sort((a, b) => a.median - b.median)
  if (rows.length > 0)
    printTable(
      ['technique', 'level', 'rounds', 'median looks'],
      rows.map(({ technique, level, count, median }) => [technique, level, count, significant(median)]),
    )
  const rank = (level: Level) => LEVELS.indexOf(level)
  const faults = rows.flatMap((a) =>
    rows.filter((b) => rank(a.level) < rank(b.level) && a.median > b.median).map((b) => [a, b]),
  )
  return { orderFaults: faults.length }
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!
}

function times(file: string) {
  const [, ...rows] = readFileSync(file, 'utf8').trim().split(/\r?\n/)
  const timed = rows.map((row) => {
    const [text = '', players, seconds] = row.split(',')
    const puzzle: Puzzle = makePuzzle(Array.from(text, (symbol) => Number(symbol) || 0))
    return { rounds: roundsOf(puzzle), players: Number(players), seconds: Number(seconds) }
  })
  const all = timed.map((_, i) => i)
  const parts = {
    rho: all,
    rhoMany: all.filter((i) => timed[i]!.players >= 20),
    rhoHard: all.filter((i) => timed[i]!.rounds.some(({ level }) => level !== 'scan')),
  }
  const seconds = timed.map((one) => one.seconds)
  const efforts = timed.map(({ rounds }) => effortOf(rounds))
  const { out, chosen } = fittedOutOfFold(
    timed.map(({ rounds }) => rounds),
    seconds,
  )
  for (const [numbers, times] of chosen) console.log(`${numbers}: best of ${times} of the folds`)
  const rounded = (n: number) => Math.round(n * 1000) / 1000
  return {
    timed: timed.length,
    ...Object.fromEntries(
      Object.entries(parts).flatMap(([name, part]): [string, unknown][] => {
        const of = (list: readonly number[]) => part.map((i) => list[i]!)
        return [
          [`${name}Puzzles`, part.length],
          [name, rounded(spearman(of(efforts), of(seconds)))],
          [`${name}Interval`, spearmanInterval(of(efforts), of(seconds)).map(rounded)],
          [`${name}Out`, rounded(spearman(of(out), of(seconds)))],
          [`${name}OutInterval`, spearmanInterval(of(out), of(seconds)).map(rounded)],
        ]
      }),
    ),
  }
}
