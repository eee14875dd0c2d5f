import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { conclusionsFrom } from '../exchange/conclusions.js'
import { type ExchangePattern, extrasOf } from '../exchange/pattern.js'
import { factsOf } from '../facts.js'
import { linesOf } from '../lines.js'
import { filled } from '../number-lists.js'
import { KeptAnswers, stampOfHouses } from '../path-memory.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/** Cells that may have extras: with more, hardly anything sees them all. */
const MOST_WITH_EXTRAS = 3

/** Loops of four cells are unique rectangles. */
const SHORTEST = 6

/**
 * A closed walk of six cells or more through cells that share two digits, each step within a house and every house met by
 * none or two of its cells: filled with the two digits by turns, it could be filled the other way round.
 */
export const uniqueLoop: Technique = {
  name: 'unique-loop',
  level: 'chain',
  assumes: 'one-solution',
  find(board, report) {
    const { order } = board.geometry
    const { bivalue, openCells, stamps } = factsOf(board)
    const plain = new Map<DigitSet, number>()
    for (const cell of bivalue)
      plain.set(board.candidates[cell]!, (plain.get(board.candidates[cell]!) ?? 0) + 1)
    for (let a = 1; a <= order; a++) {
      for (let b = a + 1; b <= order; b++) {
        const both = digitBit(a) | digitBit(b)
        if ((plain.get(both) ?? 0) < SHORTEST - MOST_WITH_EXTRAS) continue
        const cells = openCells.filter((cell) => (board.candidates[cell]! & both) === both)
        if (cells.length < SHORTEST) continue
        let stamp = 0
        for (const cell of cells) stamp = Math.max(stamp, stamps.ofCell[cell]!)
        // cells only leave the list, and one that left changes its length though not the stamp
        stamp = stamp * board.geometry.cellCount + cells.length
        const patterns = keptLoops.of(a * order + b, stamp, () => loopsOf(board, cells, both))
        if (reportKept(board, 'unique-loop', patterns, report)) return
      }
    }
  },
}

const keptLoops = new KeptAnswers<readonly KeptPattern[]>()

function loopsOf(board: Board, all: readonly number[], both: DigitSet): readonly KeptPattern[] {
  const cells = inPairs(board.geometry, all)
  if (cells.length < SHORTEST) return []
  const patterns: KeptPattern[] = []
  for (const loop of loopsThrough(board, cells, both)) addPattern(board, loop, both, patterns)
  return patterns
}

/** A pattern, the houses of its cells, and what follows from it for as long as nothing changes there. */
interface KeptPattern {
  readonly pattern: ExchangePattern
  readonly around: readonly number[]
  /** The stamp of these houses for which this follows. */
  stamp: number
  steps: readonly Step[]
}

/** Adds the pattern of these cells with these digits, unless nothing keeps them from being exchanged. */
function addPattern(board: Board, cells: readonly number[], digits: DigitSet, patterns: KeptPattern[]): void {
  const allowed = filled(cells.length, digits)
  const extras = extrasOf(board, cells, allowed)
  if (extras.length === 0) return
  const around: number[] = []
  for (let i = 0; i < cells.length; i++) {
    const houses = board.geometry.housesOf[cells[i]!]!
    for (let j = 0; j < houses.length; j++) if (!around.includes(houses[j]!)) around.push(houses[j]!)
  }
  patterns.push({ pattern: { cells, allowed, extras }, around, stamp: 0, steps: [] })
}

function reportKept(
  board: Board,
  technique: string,
  patterns: readonly KeptPattern[],
  report: (step: Step) => boolean,
): boolean {
  const { stamps } = factsOf(board)
  for (let i = 0; i < patterns.length; i++) {
    const kept = patterns[i]!
    const stamp = stampOfHouses(stamps, kept.around)
    if (kept.stamp !== stamp) {
      kept.stamp = stamp
      kept.steps = conclusionsFrom(board, technique, kept.pattern)
    }
    for (let j = 0; j < kept.steps.length; j++) if (report(kept.steps[j]!)) return true
  }
  return false
}

/** The cells without those that are alone in one of their houses, again and again: no loop can run through them. */
function inPairs(geometry: Geometry, cells: readonly number[]): readonly number[] {
  for (;;) {
    const count = new Uint8Array(geometry.houses.length)
    for (const cell of cells) for (const house of geometry.housesOf[cell]!) count[house]!++
    const left = cells.filter((cell) => isPairedIn(geometry.housesOf[cell]!, count))
    if (left.length === cells.length) return left
    cells = left
  }
}

function isPairedIn(houses: readonly number[], count: Uint8Array): boolean {
  for (let i = 0; i < houses.length; i++) if (count[houses[i]!]! < 2) return false
  return true
}

/** Each loop once: it starts at its smallest cell and goes on to the smaller neighbour. Smaller ones come first. */
function loopsThrough(board: Board, cells: readonly number[], both: number): number[][] {
  const { geometry } = board
  const { housesOf } = geometry
  const found: number[][] = []
  // from here on cells are positions in the list
  const extras = cells.map((cell) => (board.candidates[cell]! & ~both ? 1 : 0))
  const neighbours = neighboursOf(geometry, cells)
  /** house -> whether cells of even and of odd turns on the path are in it, as two bits. */
  const turns = new Uint8Array(geometry.houses.length)
  const onPath = new Uint8Array(cells.length)
  const path: number[] = []

  const walk = (at: number, withExtras: number): void => {
    // the two digits stand by turns: a house has no two cells of even turns, nor of odd ones
    const houses = housesOf[cells[at]!]!
    const turn = 1 << (path.length & 1)
    for (let i = 0; i < houses.length; i++) if (turns[houses[i]!]! & turn) return
    for (let i = 0; i < houses.length; i++) turns[houses[i]!]! |= turn
    path.push(at)
    onPath[at] = 1
    const start = path[0]!
    const near = neighbours[at]!
    for (let i = 0; i < near.length; i++) {
      const next = near[i]!
      if (next === start && path.length >= SHORTEST && path[1]! < at) found.push(fromSmallest(path))
      const more = withExtras + extras[next]!
      if ((next > start || extras[next]) && !onPath[next] && more <= MOST_WITH_EXTRAS) walk(next, more)
    }
    onPath[at] = 0
    path.pop()
    for (let i = 0; i < houses.length; i++) turns[houses[i]!]! &= ~turn
  }

  // every loop has cells without extras, and they are few: it is met from the smallest of them
  for (let start = 0; start < cells.length; start++) if (!extras[start]) walk(start, 0)
  return found
    .sort(inOrder)
    .map((loop) => loop.map((position) => cells[position]!))
    .filter((loop) => isClosed(board, loop))
}

/** place of a cell in the list -> the places of those it sees, ascending. */
function neighboursOf(geometry: Geometry, cells: readonly number[]): number[][] {
  const lists: number[][] = cells.map(() => [])
  for (let i = 0; i < cells.length; i++) {
    for (let j = i + 1; j < cells.length; j++) {
      if (!geometry.arePeers(cells[i]!, cells[j]!)) continue
      lists[i]!.push(j)
      lists[j]!.push(i)
    }
  }
  return lists
}

function fromSmallest(loop: readonly number[]): number[] {
  const at = loop.indexOf(Math.min(...loop))
  const turned = [...loop.slice(at), ...loop.slice(0, at)]
  return turned[1]! < turned[turned.length - 1]! ? turned : [turned[0]!, ...turned.slice(1).reverse()]
}

function inOrder(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((position, i) => position !== other[i])
  return at < 0 ? one.length - other.length : one[at]! - (other[at] ?? -1)
}

/** Every house that has cells of the loop has two of them, one of each turn. */
function isClosed(board: Board, path: readonly number[]): boolean {
  if (path.length % 2 !== 0) return false
  const turns = new Map<number, [number, number]>()
  path.forEach((cell, i) => {
    for (const house of board.geometry.housesOf[cell]!) {
      const count = turns.get(house) ?? [0, 0]
      count[(i % 2) as 0 | 1]++
      turns.set(house, count)
    }
  })
  return [...turns.values()].every(([even, odd]) => even === 1 && odd === 1)
}

/** Longest rows of an extended rectangle; two are a unique rectangle. */
const WIDTHS = [3, 4] as const

/**
 * Two lines side by side in their boxes hold the same n digits in the same n places: exchanging the lines there keeps
 * every house as it was. Extras in a few of the cells keep them from it.
 */
export const extendedRectangle: Technique = {
  name: 'extended-rectangle',
  level: 'chain',
  assumes: 'one-solution',
  find(board, report) {
    const { stamps } = factsOf(board)
    const lists = pairedLines(board.geometry)
    for (const width of WIDTHS) {
      for (let i = 0; i < lists.length; i++) {
        const { houses, pairs } = lists[i]!
        const place = width * lists.length + i
        const patterns = keptExtended.of(place, stampOfHouses(stamps, houses), () =>
          extendedIn(board, pairs, width),
        )
        if (reportKept(board, 'extended-rectangle', patterns, report)) return
      }
    }
  },
}

const keptExtended = new KeptAnswers<readonly KeptPattern[]>()

/** The patterns of so many pairs of facing cells. */
function extendedIn(board: Board, all: readonly Pair[], width: number): readonly KeptPattern[] {
  const pairs: Pair[] = []
  const sets: DigitSet[] = []
  let plain = 0
  for (let i = 0; i < all.length; i++) {
    const one = board.candidates[all[i]![0]]!
    const other = board.candidates[all[i]![1]]!
    if (one === 0 || other === 0) continue
    pairs.push(all[i]!)
    sets.push(one, other)
    if (digitCount(one) <= width) plain++
    if (digitCount(other) <= width) plain++
  }
  // most lines have too few cells that could be without extras
  if (pairs.length < width || plain + MOST_WITH_EXTRAS < 2 * width) return []
  const patterns: KeptPattern[] = []
  for (const digits of unionsOf(sets, width)) {
    for (const picked of picksOf(sets, width, digits)) {
      if (!isSpelt(sets, picked, digits)) continue
      const cells: number[] = []
      for (let i = 0; i < picked.length; i++) cells.push(...pairs[picked[i]!]!)
      addPattern(board, cells, digits, patterns)
    }
  }
  return patterns
}

type Pair = readonly [number, number]

/** Two parallel lines and their facing cells that lie within one box or region. */
interface PairedLines {
  readonly houses: readonly number[]
  readonly pairs: readonly Pair[]
}

const pairLists = new WeakMap<Geometry, readonly PairedLines[]>()

/** All parallel lines that share boxes or regions. */
function pairedLines(geometry: Geometry): readonly PairedLines[] {
  let lists = pairLists.get(geometry)
  if (!lists) {
    const { rows, columns, blockOf } = linesOf(geometry)
    // a diagonal would not keep its digits
    const onlyPlain = (cell: number): boolean =>
      geometry.housesOf[cell]!.every((house) => geometry.houses[house]!.kind !== 'diagonal')
    lists = [rows, columns]
      .flatMap((lines) =>
        lines.flatMap((one, i) =>
          lines.slice(i + 1).map((other) => ({
            houses: [one.index, other.index],
            pairs: one.cells
              .map((cell, at): Pair => [cell, other.cells[at]!])
              .filter(([a, b]) => blockOf[a] === blockOf[b] && onlyPlain(a) && onlyPlain(b)),
          })),
        ),
      )
      .filter(({ pairs }) => pairs.length >= WIDTHS[0])
    pairLists.set(geometry, lists)
  }
  return lists
}

/** The sets of so many digits that two of the cells have between them: the plain cells of a pattern spell its digits. */
function unionsOf(sets: readonly DigitSet[], size: number): DigitSet[] {
  const unions: DigitSet[] = []
  const plain: DigitSet[] = []
  for (let i = 0; i < sets.length; i++)
    if (digitCount(sets[i]!) <= size && !plain.includes(sets[i]!)) plain.push(sets[i]!)
  for (let i = 0; i < plain.length; i++) {
    for (let j = i; j < plain.length; j++) {
      const union = plain[i]! | plain[j]!
      if (digitCount(union) === size && !unions.includes(union)) unions.push(union)
    }
  }
  return unions
}

/** Have two cells of these pairs, of no other digits, these digits between them? */
function isSpelt(sets: readonly DigitSet[], pairs: readonly number[], digits: DigitSet): boolean {
  for (let i = 0; i < 2 * pairs.length; i++) {
    const one = sets[2 * pairs[i >> 1]! + (i & 1)]!
    if ((one & ~digits) !== 0) continue
    for (let j = i; j < 2 * pairs.length; j++)
      if ((one | sets[2 * pairs[j >> 1]! + (j & 1)]!) === digits) return true
  }
  return false
}

/** How many cells of a pair have digits beyond these; more than may have them if a cell has none of these. */
function beyond(sets: readonly DigitSet[], pair: number, digits: DigitSet): number {
  const one = sets[2 * pair]!
  const other = sets[2 * pair + 1]!
  if ((one & digits) === 0 || (other & digits) === 0) return MOST_WITH_EXTRAS + 1
  return ((one & ~digits) === 0 ? 0 : 1) + ((other & ~digits) === 0 ? 0 : 1)
}

/** Each choice of `size` pairs, none without these digits and few with others. */
function picksOf(sets: readonly DigitSet[], size: number, digits: DigitSet): number[][] {
  const picks: number[][] = []
  // mostly there are too few pairs with few extras
  let plain = 0
  let withOne = 0
  let withTwo = 0
  for (let pair = 0; 2 * pair < sets.length; pair++) {
    const extras = beyond(sets, pair, digits)
    if (extras === 0) plain++
    else if (extras === 1) withOne++
    else if (extras === 2) withTwo++
  }
  const others = Math.max(0, size - plain)
  const fewest = others + Math.max(0, others - withOne)
  if (plain + withOne + withTwo >= size && fewest <= MOST_WITH_EXTRAS)
    pick(sets, digits, size, MOST_WITH_EXTRAS, 0, [], picks)
  return picks
}

/** Adds each choice of so many more pairs, from one on, that have no more extras than are left. */
function pick(
  sets: readonly DigitSet[],
  digits: DigitSet,
  wanted: number,
  extrasLeft: number,
  from: number,
  picked: number[],
  picks: number[][],
): void {
  if (wanted === 0) {
    picks.push([...picked])
    return
  }
  for (let pair = from; 2 * (pair + wanted) <= sets.length; pair++) {
    const extras = beyond(sets, pair, digits)
    if (extras > extrasLeft) continue
    picked.push(pair)
    pick(sets, digits, wanted - 1, extrasLeft - extras, pair + 1, picked, picks)
    picked.pop()
  }
}
