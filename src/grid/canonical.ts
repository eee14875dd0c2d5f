import { checkOptions, count, iterable, type OptionChecks } from '../check-arguments.js'
import { StoppedError } from '../errors.js'
import { LIMIT_CHECKS, type Limits, runInSlices, runNow, type Task, type Watch } from '../limits.js'
import { canonicalLabelling, type Labelling } from './canonical/labelling.js'
import { lineGraph } from './canonical/line-graph.js'
import { onlyDigit } from './digits.js'
import type { Geometry } from './geometry.js'
import { checkPuzzle, type Puzzle } from './puzzle.js'
import { assertSayable, regionsOf } from './regions.js'
import {
  followedBy,
  type GridTransform,
  makeTransform,
  relabelling,
  squareSymmetries,
  transformPuzzle,
  transposition,
} from './symmetry.js'
import { digitSymbol } from './text/symbols.js'

export interface CanonicalOptions extends Limits {
  /** Steps of search before giving up; ordinary puzzles take a few hundred at most. */
  readonly nodeBudget?: number
}

/** The one puzzle that stands for all that are the same but for names and order. */
export interface CanonicalForm {
  readonly puzzle: Puzzle
  /** Equal exactly for equivalent puzzles: the geometry and the puzzle on one line. */
  readonly key: string
  /** How the puzzle becomes its canonical form. */
  readonly transform: GridTransform
  /**
   * Ways to move lines, bands, stacks and sides (in other geometries: to turn and mirror) that change no more than the
   * digits' names, the identity included. Exact up to 2^53.
   */
  readonly automorphisms: number
}

export const USUAL_NODE_BUDGET = 50_000

export const CANONICAL_CHECKS: OptionChecks<CanonicalOptions> = { ...LIMIT_CHECKS, nodeBudget: count(0) }

/**
 * The canonical form of a puzzle or a full grid: equal exactly for puzzles that are the same under relabelling, line,
 * band and stack swaps, and transposition. Boxes wider than high stand for those higher than wide. In other geometries
 * (regions, diagonals) equivalence means relabelling and those turns and mirrorings that keep the geometry.
 *
 * @throws StoppedError `budget-spent` when the search takes more than `nodeBudget` steps, `time-limit` when that was
 *   over first, `aborted` when the signal has fired
 *
 * @example
 * const { puzzle: form } = canonicalForm(puzzle)
 * canonicalKey(form) === canonicalKey(puzzle) // → true
 */
export function canonicalForm(puzzle: Puzzle, options: CanonicalOptions = {}): CanonicalForm {
  checkPuzzle(puzzle)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runNow(options, (watch) => formTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const { puzzle: form } = await canonicalFormAsync(puzzle, { signal })
 */
export async function canonicalFormAsync(
  puzzle: Puzzle,
  options: CanonicalOptions = {},
): Promise<CanonicalForm> {
  checkPuzzle(puzzle)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runInSlices(options, (watch) => formTask(puzzle, options, watch))
}

function* formTask(puzzle: Puzzle, options: CanonicalOptions, watch: Watch): Task<CanonicalForm> {
  const { box } = puzzle.geometry
  if (!box) return canonicalByTurns(puzzle)
  const turn = box.rows > box.columns ? transposition(puzzle.geometry) : undefined
  const upright = turn ? transformPuzzle(puzzle, turn) : puzzle
  const labelling = yield* labellingOf(upright, options, watch)
  const lines = lineTransform(upright, labelling)
  const transform = turn ? followedBy(turn, lines) : lines
  const image = transformPuzzle(puzzle, transform)
  return {
    puzzle: image,
    key: keyOf(image.geometry, image.givens),
    transform,
    automorphisms: labelling.automorphisms,
  }
}

/**
 * The key of the canonical form alone, which takes less time than the whole.
 *
 * @example
 * const image = transformPuzzle(puzzle, randomTransform(STANDARD, 7))
 * canonicalKey(image) === canonicalKey(puzzle) // → true
 */
export function canonicalKey(puzzle: Puzzle, options: CanonicalOptions = {}): string {
  checkPuzzle(puzzle)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runNow(options, (watch) => keyTask(puzzle, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const key = await canonicalKeyAsync(puzzle, { signal })
 */
export async function canonicalKeyAsync(puzzle: Puzzle, options: CanonicalOptions = {}): Promise<string> {
  checkPuzzle(puzzle)
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runInSlices(options, (watch) => keyTask(puzzle, options, watch))
}

function* keyTask(puzzle: Puzzle, options: CanonicalOptions, watch: Watch): Task<string> {
  const { geometry } = puzzle
  const { box } = geometry
  if (!box) return canonicalByTurns(puzzle).key
  const upright = box.rows > box.columns ? transformPuzzle(puzzle, transposition(geometry)) : puzzle
  const { form } = yield* labellingOf(upright, options, watch)
  return keyOf(upright.geometry, Array.from(form, onlyDigit))
}

/** What `dedupePuzzles` found. */
export interface Deduped {
  /** The first of each kind, in order. */
  readonly distinct: readonly Puzzle[]
  /** puzzle -> index of the first puzzle that is the same but for names and order (its own when it is the first). */
  readonly firstOf: readonly number[]
  /** Indices of puzzles too symmetric for the budget: kept, but they may be the same as others. Ordinarily empty. */
  readonly undecided: readonly number[]
}

/**
 * Keeps one puzzle of each kind: those that have the same `canonicalForm` are one. `nodeBudget` is for each puzzle, a
 * time limit for all of them.
 *
 * @throws StoppedError `time-limit` when that was over first, `aborted` when the signal has fired
 *
 * @example
 * const image = transformPuzzle(puzzle, mirroring(STANDARD))
 * dedupePuzzles([puzzle, image]).distinct.length // → 1
 */
export function dedupePuzzles(puzzles: Iterable<Puzzle>, options: CanonicalOptions = {}): Deduped {
  iterable(puzzles, 'puzzles')
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runNow(options, (watch) => dedupeTask(puzzles, options, watch))
}

/**
 * The same as a promise: other work of the program goes on meanwhile, and `signal` stops it at any time.
 *
 * @example
 * const { distinct } = await dedupePuzzlesAsync([puzzle], { signal })
 */
export async function dedupePuzzlesAsync(
  puzzles: Iterable<Puzzle>,
  options: CanonicalOptions = {},
): Promise<Deduped> {
  iterable(puzzles, 'puzzles')
  checkOptions<CanonicalOptions>(options, CANONICAL_CHECKS)
  return runInSlices(options, (watch) => dedupeTask(puzzles, options, watch))
}

function* dedupeTask(puzzles: Iterable<Puzzle>, options: CanonicalOptions, watch: Watch): Task<Deduped> {
  const firstByKey = new Map<string, number>()
  const distinct: Puzzle[] = []
  const firstOf: number[] = []
  const undecided: number[] = []
  for (const puzzle of puzzles) {
    if (watch.isDue()) yield
    const index = firstOf.length
    checkPuzzle(puzzle, `puzzles[${index}]`)
    const key = yield* keyWithin(puzzle, options, watch)
    if (key === undefined) undecided.push(index)
    const first = key === undefined ? undefined : firstByKey.get(key)
    firstOf.push(first ?? index)
    if (first !== undefined) continue
    if (key !== undefined) firstByKey.set(key, index)
    distinct.push(puzzle)
  }
  return { distinct, firstOf, undecided }
}

/** The canonical key, or undefined when the budget does not suffice. */
function* keyWithin(puzzle: Puzzle, options: CanonicalOptions, watch: Watch): Task<string | undefined> {
  try {
    return yield* keyTask(puzzle, options, watch)
  } catch (error) {
    if (error instanceof StoppedError && error.code === 'budget-spent') return undefined
    throw error
  }
}

function* labellingOf(
  puzzle: Puzzle,
  { nodeBudget = USUAL_NODE_BUDGET }: CanonicalOptions,
  watch: Watch,
): Task<Labelling> {
  const { box } = puzzle.geometry
  return yield* canonicalLabelling(lineGraph(puzzle, box!.rows, box!.columns), nodeBudget, watch)
}

function keyOf(geometry: Geometry, givens: ArrayLike<number>): string {
  const cells = Array.from(givens, (digit) => (digit ? digitSymbol(digit) : '.')).join('')
  return `${geometryKey(geometry)}:${cells}`
}

/**
 * Names of irregular geometries are their makers' own, and so are the numbers of their pieces: which cells are together
 * tells them apart, whatever order the pieces come in.
 *
 * @throws InputError `geometry-shape` for rules that the key has no words for, as others would have the same key
 */
export function geometryKey(geometry: Geometry): string {
  assertSayable(geometry)
  if (geometry.box) return geometry.key
  const symbolOf = new Map<number, string>()
  const symbols = regionsOf(geometry).map((region) => {
    const symbol = symbolOf.get(region) ?? digitSymbol(symbolOf.size + 1)
    symbolOf.set(region, symbol)
    return symbol
  })
  return `${symbols.join('')}${geometry.diagonals ? '+diagonals' : ''}`
}

/** From a labelling to where each cell and digit goes; digits without givens take the names that are left, in order. */
function lineTransform({ geometry, givens }: Puzzle, { rows, columns, form }: Labelling): GridTransform {
  const { order } = geometry
  const cellTo = new Array<number>(geometry.cellCount)
  const digitTo = new Array<number>(order + 1).fill(0)
  rows.forEach((rowLine, r) => {
    columns.forEach((columnLine, c) => {
      // Lines are numbered rows first; in a transposed form the rows come from the columns.
      const [row, column] = rowLine < order ? [rowLine, columnLine - order] : [columnLine, rowLine - order]
      const cell = row * order + column
      cellTo[cell] = r * order + c
      if (givens[cell]) digitTo[givens[cell]!] = onlyDigit(form[r * order + c]!)
    })
  })
  return makeTransform(geometry, geometry, cellTo, withNamesForAll(digitTo))
}

function withNamesForAll(digitTo: readonly number[]): number[] {
  const taken = new Set(digitTo)
  const free = digitTo.map((_, name) => name).filter((name) => name > 0 && !taken.has(name))
  return digitTo.map((name, digit) => (digit > 0 && name === 0 ? free.shift()! : name))
}

function canonicalByTurns(puzzle: Puzzle): CanonicalForm {
  const images = squareSymmetries(puzzle.geometry).map((turn) => {
    const transform = followedBy(turn, namesByFirstAppearance(transformPuzzle(puzzle, turn)))
    const image = transformPuzzle(puzzle, transform)
    return { puzzle: image, key: keyOf(image.geometry, image.givens), transform }
  })
  const best = images.reduce((a, b) => (b.key < a.key ? b : a))
  return { ...best, automorphisms: images.filter((image) => image.key === best.key).length }
}

function namesByFirstAppearance({ geometry, givens }: Puzzle): GridTransform {
  const digitTo = new Array<number>(geometry.order + 1).fill(0)
  let names = 0
  for (const digit of givens) if (digit && !digitTo[digit]) digitTo[digit] = ++names
  return relabelling(geometry, withNamesForAll(digitTo))
}
