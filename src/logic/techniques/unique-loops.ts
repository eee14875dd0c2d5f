import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { zeros } from '../facts/number-lists.js'
import { keptAnswers } from '../facts/path-memory.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import { addPattern, type KeptPattern, MOST_WITH_EXTRAS, reportKept } from '../uniqueness/kept-patterns.js'

/** Loops of four cells are unique rectangles. */
const SHORTEST = 6

/**
 * A closed walk of six cells or more through cells that share two digits, each step within a house and every house met
 * by none or two of its cells: filled with the two digits by turns, it could be filled the other way round.
 */
export const uniqueLoop: Technique = {
  name: 'unique-loop',
  level: 'chain',
  assumes: 'one-solution',
  find(facts, report) {
    const { board, bivalue } = facts
    const { order } = board.geometry
    if (bivalue.length < FEWEST_PLAIN) return
    for (let a = 1; a < order; a++) {
      for (let b = a + 1; b <= order; b++) {
        const both = digitBit(a) | digitBit(b)
        let plain = 0
        for (let i = 0; i < bivalue.length; i++) if (board.candidates[bivalue[i]!] === both) plain++
        if (plain >= FEWEST_PLAIN && reportLoops(facts, both, a * order + b, report)) return
      }
    }
  },
}

/** Cells of a loop that have no extras. */
const FEWEST_PLAIN = SHORTEST - MOST_WITH_EXTRAS

/** @param place of the two digits among all pairs */
function reportLoops(facts: Facts, both: DigitSet, place: number, report: (step: Step) => boolean): boolean {
  const { board, openCells, stamps } = facts
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
  const patterns = facts.context.of(keptLoops).of(place, stamp, () => loopsOf(board, cells, both))
  return reportKept(facts, 'unique-loop', patterns, report)
}

const keptLoops = keptAnswers<readonly KeptPattern[]>()

function loopsOf(board: Board, all: readonly number[], both: DigitSet): readonly KeptPattern[] {
  const cells = inPairs(board.geometry, all)
  if (cells.length < SHORTEST) return []
  const patterns: KeptPattern[] = []
  for (const loop of loopsThrough(board, cells, both)) addPattern(board, loop, both, patterns)
  return patterns
}

/** The cells without those that are alone in one of their houses, again and again: no loop can run through them. */
function inPairs(geometry: Geometry, cells: readonly number[]): readonly number[] {
  const layout = layoutOf(geometry)
  for (;;) {
    const count = zeros(layout.houses.length)
    for (let i = 0; i < cells.length; i++) {
      const houses = layout.housesOf[cells[i]!]!
      for (let j = 0; j < houses.length; j++) count[houses[j]!]!++
    }
    const left: number[] = []
    for (let i = 0; i < cells.length; i++)
      if (isPairedIn(layout.housesOf[cells[i]!]!, count)) left.push(cells[i]!)
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
    const layout = layoutOf(geometry)
    for (let i = 0; i < cells.length; i++) {
      this.houses.push(layout.housesOf[cells[i]!]!)
      this.extras.push((candidates[cells[i]!]! & ~both) === 0 ? 0 : 1)
    }
    this.neighbours = neighboursOf(geometry, cells)
    this.turns = zeros(layout.houses.length)
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
  const layout = layoutOf(geometry)
  const lists: number[][] = []
  for (let i = 0; i < cells.length; i++) lists.push([])
  for (let i = 0; i < cells.length; i++) {
    for (let j = i + 1; j < cells.length; j++) {
      if (!layout.arePeers(cells[i]!, cells[j]!)) continue
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
    for (const house of layoutOf(board.geometry).housesOf[cell]!) {
      const count = turns.get(house) ?? [0, 0]
      count[(i % 2) as 0 | 1]++
      turns.set(house, count)
    }
  })
  return [...turns.values()].every(([even, odd]) => even === 1 && odd === 1)
}
