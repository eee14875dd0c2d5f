import { InputError } from '../../src/errors.js'
import { cellGroups, cellsNotation, parseCells } from '../../src/explain/cell-names.js'
import { conclusionNotation, linkNotation } from '../../src/explain/notation.js'
import { englishTerms } from '../../src/explain/words/english/terms.js'
import type { Candidate } from '../../src/grid/board.js'
import { DIGIT_STYLES } from '../../src/grid/digit-names.js'
import { type Geometry, regionGeometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { shuffled } from '../../src/grid/random.js'
import type { ChainLink, ChainNode } from '../../src/logic/steps/step.js'
import { ALL_GEOMETRIES, ALL_ORDERS } from '../support/any-geometry.js'
import {
  inOrder,
  readCandidates,
  readCells,
  readConclusion,
  readDigits,
  readLinks,
} from '../support/read-names.js'
import { below, pick, type Random } from './boards.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

/** What is named reads back as the same: cells, digits, links and conclusions of grids of any order, and geometries. */
export const namesFuzzer: Fuzzer = {
  name: 'names',
  runCase(random) {
    const geometry = random() < 0.8 ? pick(random, ALL_GEOMETRIES) : anyRegions(random)
    checkGeometry(geometry)
    for (let i = 0; i < 10; i++) {
      checkCells(random, geometry)
      checkCandidates(random, geometry)
      checkLinks(random, geometry)
      checkMisspelt(random, geometry)
    }
    return { grids: 1, names: 40 }
  },
}

/** Regions of any cells at all, numbered in any order. */
function anyRegions(random: Random): Geometry {
  const order = pick(random, ALL_ORDERS)
  const regions = Array.from({ length: order * order }, (_, i) => i % order)
  return regionGeometry('any', shuffled(regions, random), { diagonals: random() < 0.5 })
}

function checkGeometry(geometry: Geometry): void {
  const back: Geometry = JSON.parse(JSON.stringify(geometry))
  assertSame(geometry, layoutOf(back).houses, layoutOf(geometry).houses, 'saved geometry')
}

function checkCells(random: Random, geometry: Geometry): void {
  const cells = someCells(random, geometry, 12)
  assertSame(geometry, parseCells(geometry, cellsNotation(geometry, cells)), cells, 'cells in one word')
  const groups = cellGroups(geometry, shuffled(cells, random))
  const read = groups.flatMap((group) => parseCells(geometry, group))
  assertSame(geometry, ascending(read), cells, 'groups of cells')
  const terms = englishTerms({ geometry, digits: pick(random, DIGIT_STYLES), cells: 'short' })
  assertSame(geometry, readCells(geometry, terms.cells(cells)), cells, 'cells in words')
  const digits = shuffled(digitsOf(geometry), random).slice(0, 1 + below(random, geometry.order))
  assertSame(geometry, readDigits(geometry, terms.digits(digits)), digits, 'digits in words')
}

function checkCandidates(random: Random, geometry: Geometry): void {
  const style = pick(random, DIGIT_STYLES)
  const placements = someCandidates(random, geometry)
  const removals = someCandidates(random, geometry)
  const written = conclusionNotation(geometry, placements, removals, style)
  const expected = { placements: inOrder(placements), removals: inOrder(removals) }
  assertSame(geometry, readConclusion(geometry, written), expected, written)
  const words = englishTerms({ geometry, digits: style, cells: 'short' }).candidates(removals)
  assertSame(geometry, readCandidates(geometry, words), expected.removals, words)
}

function checkLinks(random: Random, geometry: Geometry): void {
  const node = (cells = someCells(random, geometry, 3)): ChainNode => ({
    digit: pick(random, digitsOf(geometry)),
    cells,
  })
  const links: ChainLink[] = []
  for (let i = 1 + below(random, 8); i > 0; i--) {
    const from = (random() < 0.8 ? links.at(-1)?.to : undefined) ?? node()
    const to = node(random() < 0.4 ? [...from.cells] : undefined)
    links.push({ kind: pick(random, ['strong', 'weak']), from, to, by: { kind: 'premises' } })
  }
  const loop = random() < 0.5
  const written = linkNotation(geometry, links, loop, pick(random, DIGIT_STYLES))
  const expected = { links: links.map(({ kind, from, to }) => ({ kind, from, to })), loop }
  assertSame(geometry, readLinks(geometry, written), expected, written)
}

const CHARACTERS = [...'rc0123456789,,. ()-=AR']

/**
 * A name with a few characters put in, left out or exchanged is refused, or names the cells that its own name names.
 */
function checkMisspelt(random: Random, geometry: Geometry): void {
  const characters = [...cellsNotation(geometry, someCells(random, geometry, 6))]
  for (let i = 1 + below(random, 3); i > 0; i--) {
    const added = random() < 0.7 ? [pick(random, CHARACTERS)] : []
    characters.splice(below(random, characters.length + 1), below(random, 2), ...added)
  }
  const text = characters.join('')
  let cells: number[]
  try {
    cells = parseCells(geometry, text)
  } catch (error) {
    if (error instanceof InputError) return
    throw error
  }
  assertSame(geometry, cells, namedBy(geometry, text), text)
}

/**
 * The same by spelling out every cell that a text could mean: a slow way, which has nothing in common with the other.
 */
function namedBy(geometry: Geometry, text: string): number[] {
  const { order } = geometry
  const names = (numbers: string, line: number) =>
    order <= 9 ? numbers.includes(`${line}`) : `,${numbers},`.includes(`,${line},`)
  const groups = text.replaceAll(' ', '').split(/,?r/).slice(1)
  return Array.from({ length: geometry.cellCount }, (_, cell) => cell).filter((cell) =>
    groups.some((group) => {
      const [rows, columns] = group.split('c')
      return names(rows!, Math.floor(cell / order) + 1) && names(columns!, (cell % order) + 1)
    }),
  )
}

function someCells(random: Random, { order, cellCount }: Geometry, most: number): number[] {
  const cells = new Set<number>()
  const from = below(random, cellCount)
  for (let i = 1 + below(random, most); i > 0; i--) {
    // now anywhere, now in line with the first, as cells that are named together mostly are
    const manner = random()
    if (manner < 0.3) cells.add(below(random, cellCount))
    else if (manner < 0.65) cells.add(from - (from % order) + below(random, order))
    else cells.add((from % order) + order * below(random, order))
  }
  return ascending([...cells])
}

function someCandidates(random: Random, geometry: Geometry): Candidate[] {
  const digits = shuffled(digitsOf(geometry), random).slice(0, 1 + below(random, 3))
  return digits.flatMap((digit) => someCells(random, geometry, 4).map((cell) => ({ cell, digit })))
}

function digitsOf({ order }: Geometry): number[] {
  return Array.from({ length: order }, (_, i) => i + 1)
}

function ascending(numbers: readonly number[]): number[] {
  return [...numbers].sort((a, b) => a - b)
}

function assertSame(geometry: Geometry, found: unknown, expected: unknown, what: string): void {
  const [is, should] = [found, expected].map((value) => JSON.stringify(value))
  if (is !== should) throw new FuzzFault(`${what} (${geometry.name}): read ${is}; written ${should}`)
}
