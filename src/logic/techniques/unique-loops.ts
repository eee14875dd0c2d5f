import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { conclusionsFrom } from '../exchange/conclusions.js'
import { type ExchangePattern, extrasOf } from '../exchange/pattern.js'
import { factsOf } from '../facts.js'
import { linesOf } from '../lines.js'
import { filled, zeros } from '../number-lists.js'
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
    const { bivalue } = factsOf(board)
    if (bivalue.length < FEWEST_PLAIN) return
    for (let a = 1; a < order; a++) {
      for (let b = a + 1; b <= order; b++) {
        const both = digitBit(a) | digitBit(b)
        let plain = 0
        for (let i = 0; i < bivalue.length; i++) if (board.candidates[bivalue[i]!] === both) plain++
        if (plain >= FEWEST_PLAIN && reportLoops(board, both, a * order + b, report)) return
      }
    }
  },
}

/** Cells of a loop that have no extras. */
const FEWEST_PLAIN = SHORTEST - MOST_WITH_EXTRAS

/** @param place of the two digits among all pairs */
function reportLoops(board: Board, both: DigitSet, place: number, report: (step: Step) => boolean): boolean {
  const { openCells, stamps } = factsOf(board)
  const cells: number[] = []
  let stamp = 0
  for (let i = 0; i < openCells.length; i++) {
    const cell = openCells[i]!
    if ((board.candidates[cell]! & both) !== both) continue
    cells.push(cell)
    stamp = Math.max(stamp, stamps.ofCell[cell]!)
  }
  if (cells.length < SHORTEST) return false
  // cells only leave the list, and one that left changes its length though not the stamp
  stamp = stamp * board.geometry.cellCount + cells.length
  const patterns = keptLoops.of(place, stamp, () => loopsOf(board, cells, both))
  return reportKept(board, 'unique-loop', patterns, report)
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
    const count = zeros(geometry.houses.length)
    for (let i = 0; i < cells.length; i++) {
      const houses = geometry.housesOf[cells[i]!]!
      for (let j = 0; j < houses.length; j++) count[houses[j]!]!++
    }
    const left: number[] = []
    for (let i = 0; i < cells.length; i++)
      if (isPairedIn(geometry.housesOf[cells[i]!]!, count)) left.push(cells[i]!)
    if (left.length === cells.length) return left
    cells = left
  }
}

function isPairedIn(houses: readonly number[], count: readonly number[]): boolean {
  for (let i = 0; i < houses.length; i++) if (count[houses[i]!]! < 2) return false
  return true
}

/** Each loop once: it starts at its smallest cell and goes on to the smaller neighbour. Smaller ones come first. */
function loopsThrough(board: Board, cells: readonly number[], both: number): number[][] {
  const walk = new LoopWalk(board, cells, both)
  return walk
    .loops()
    .sort(inOrder)
    .map((loop) => loop.map((position) => cells[position]!))
    .filter((loop) => isClosed(board, loop))
}

/** Walks from cell to cell; cells are positions in the list. */
class LoopWalk {
  private readonly houses: (readonly number[])[] = []
  /** 1 where a cell has more than the two digits. */
  private readonly extras: number[] = []
  private readonly neighbours: readonly (readonly number[])[]
  /** house -> whether cells of even and of odd turns on the path are in it, as two bits. */
  private readonly turns: number[]
  private readonly onPath: number[]
  private readonly path: number[] = []
  private readonly found: number[][] = []

  constructor({ geometry, candidates }: Board, cells: readonly number[], both: DigitSet) {
    for (let i = 0; i < cells.length; i++) {
      this.houses.push(geometry.housesOf[cells[i]!]!)
      this.extras.push((candidates[cells[i]!]! & ~both) === 0 ? 0 : 1)
    }
    this.neighbours = neighboursOf(geometry, cells)
    this.turns = zeros(geometry.houses.length)
    this.onPath = zeros(cells.length)
  }

  loops(): number[][] {
    // every loop has cells without extras, and they are few: it is met from the smallest of them
    for (let start = 0; start < this.extras.length; start++) if (!this.extras[start]) this.walk(start, 0)
    return this.found
  }

  private walk(at: number, withExtras: number): void {
    const { path, turns, onPath, extras } = this
    // the two digits stand by turns: a house has no two cells of even turns, nor of odd ones
    const houses = this.houses[at]!
    const turn = 1 << (path.length & 1)
    for (let i = 0; i < houses.length; i++) if (turns[houses[i]!]! & turn) return
    for (let i = 0; i < houses.length; i++) turns[houses[i]!]! |= turn
    path.push(at)
    onPath[at] = 1
    const start = path[0]!
    const near = this.neighbours[at]!
    for (let i = 0; i < near.length; i++) {
      const next = near[i]!
      if (next === start && path.length >= SHORTEST && path[1]! < at) this.found.push(fromSmallest(path))
      const more = withExtras + extras[next]!
      if ((next > start || extras[next]) && !onPath[next] && more <= MOST_WITH_EXTRAS) this.walk(next, more)
    }
    onPath[at] = 0
    path.pop()
    for (let i = 0; i < houses.length; i++) turns[houses[i]!]! &= ~turn
  }
}

/** place of a cell in the list -> the places of those it sees, ascending. */
function neighboursOf(geometry: Geometry, cells: readonly number[]): number[][] {
  const lists: number[][] = []
  for (let i = 0; i < cells.length; i++) lists.push([])
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
  let count = 0
  let plain = 0
  for (let i = 0; i < all.length; i++) {
    const one = board.candidates[all[i]![0]]!
    const other = board.candidates[all[i]![1]]!
    if (one === 0 || other === 0) continue
    openPairs[count >> 1] = all[i]!
    facing[count++] = one
    facing[count++] = other
    if (digitCount(one) <= width) plain++
    if (digitCount(other) <= width) plain++
  }
  // most lines have too few cells that could be without extras
  if (count < 2 * width || plain + MOST_WITH_EXTRAS < 2 * width) return NO_PATTERNS
  const unions = unionsOf(count, width)
  if (unions.length === 0) return NO_PATTERNS
  const sets = facing.slice(0, count)
  const pairs = openPairs.slice(0, count >> 1)
  const patterns: KeptPattern[] = []
  for (let u = 0; u < unions.length; u++) {
    const picks = picksOf(sets, width, unions[u]!)
    for (let p = 0; p < picks.length; p++) {
      if (!isSpelt(sets, picks[p]!, unions[u]!)) continue
      const cells: number[] = []
      for (let i = 0; i < picks[p]!.length; i++) cells.push(...pairs[picks[p]![i]!]!)
      addPattern(board, cells, unions[u]!, patterns)
    }
  }
  return patterns
}

const NO_PATTERNS: readonly KeptPattern[] = []
/** The open pairs of the lines that are looked at, and the candidates of their cells, two and two. */
const openPairs: Pair[] = []
const facing: DigitSet[] = []
const plainSets: DigitSet[] = []

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

/**
 * The sets of so many digits that two of the facing cells have between them, few of the cells of a pattern having others: its
 * plain cells spell its digits.
 */
function unionsOf(count: number, size: number): readonly DigitSet[] {
  let unions = NO_UNIONS
  let plain = 0
  for (let i = 0; i < count; i++)
    if (digitCount(facing[i]!) <= size && !isAmong(plainSets, plain, facing[i]!))
      plainSets[plain++] = facing[i]!
  for (let i = 0; i < plain; i++) {
    for (let j = i; j < plain; j++) {
      const union = plainSets[i]! | plainSets[j]!
      if (digitCount(union) !== size || unions.includes(union)) continue
      let within = 0
      for (let k = 0; k < count; k++) if ((facing[k]! & ~union) === 0) within++
      if (within + MOST_WITH_EXTRAS >= 2 * size) unions = [...unions, union]
    }
  }
  return unions
}

const NO_UNIONS: readonly DigitSet[] = []

function isAmong(list: readonly number[], count: number, value: number): boolean {
  for (let i = 0; i < count; i++) if (list[i] === value) return true
  return false
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
