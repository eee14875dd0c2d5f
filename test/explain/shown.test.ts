import fc from 'fast-check'
import { SaxesParser } from 'saxes'
import { describe, expect, it } from 'vitest'
import type { Names } from '../../src/explain/names.js'
import { ROLES } from '../../src/explain/picture/roles.js'
import { renderSvg } from '../../src/explain/render-svg.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { englishTerms } from '../../src/explain/words/english/terms.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { germanTerms } from '../../src/explain/words/german/terms.js'
import { setName } from '../../src/explain/words/set-names.js'
import { boardFromMarks } from '../../src/grid/board/make.js'
import { DIGIT_STYLES, digitName } from '../../src/grid/digit-names.js'
import { digitsOf } from '../../src/grid/digits.js'
import { type Geometry, STANDARD, withFurtherPeers } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { seededRandom } from '../../src/grid/random.js'
import { ALL_GEOMETRIES, ALL_ORDERS, slantedGeometry } from '../support/any-geometry.js'
import { inOrder, readCandidates, readCells, readDigit, readDigits } from '../support/read-names.js'

const namesOf = (geometry: Geometry): Names => ({ geometry, digits: 'letters', cells: 'short' })
const ascending = (numbers: readonly number[]) => [...numbers].sort((a, b) => a - b)

/** What people are shown can be read in one way only, in words and in pictures, whatever the order of the grid. */
describe.each(ALL_ORDERS.flatMap((order) => DIGIT_STYLES.map((style) => [order, style] as const)))(
  'words of order %i with %s',
  (order, style) => {
    const geometry = slantedGeometry(order)
    const names = { geometry, digits: style, cells: 'short' } as const
    const terms = englishTerms(names)
    const german = germanTerms(names)
    const cell = fc.integer({ min: 0, max: geometry.cellCount - 1 })
    const digit = fc.integer({ min: 1, max: order })
    const cells = fc.uniqueArray(cell, { minLength: 1, maxLength: 8 })
    const candidates = fc.uniqueArray(fc.record({ cell, digit }), {
      minLength: 1,
      maxLength: 10,
      selector: (candidate) => candidate.cell * 17 + candidate.digit,
    })
    const word = fc.constantFrom('and' as const, 'or' as const)

    it('name digits, cells and candidates one to one', () => {
      fc.assert(
        fc.property(
          cells,
          fc.uniqueArray(digit, { minLength: 1 }),
          candidates,
          word,
          (cells, digits, list, word) => {
            expect(readCells(geometry, terms.cells(cells, word))).toEqual(ascending(cells))
            expect(readDigits(geometry, terms.digits(digits, word))).toEqual(digits)
            expect(readCandidates(geometry, terms.candidates(list, word))).toEqual(inOrder(list))
            const removals = terms.theCandidates(list).replaceAll('the ', '')
            expect(readCandidates(geometry, removals)).toEqual(inOrder(list))
            const oder = word === 'and' ? 'und' : 'oder'
            expect(readCells(geometry, german.cells(cells, oder))).toEqual(ascending(cells))
            expect(readDigits(geometry, german.digits(digits, oder))).toEqual(digits)
            expect(readCandidates(geometry, german.candidates(list, oder))).toEqual(inOrder(list))
            const gone = german.theCandidates(list).replaceAll('die ', '')
            expect(readCandidates(geometry, gone)).toEqual(inOrder(list))
          },
        ),
        { seed: 45 },
      )
    })

    it('name no set as a digit', () => {
      const digits = Array.from({ length: order }, (_, i) => digitName(i + 1, style))
      const sets = Array.from({ length: 60 }, (_, i) => setName(i, names))
      expect(new Set([...digits, ...sets]).size).toBe(order + 60)
    })

    it('name every role in the legend by a name of its own', () => {
      for (const { role: nameOf } of [ENGLISH, GERMAN])
        expect(new Set(ROLES.map((role) => nameOf(role, names))).size).toBe(ROLES.length)
    })
  },
)

describe.each(ALL_GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const layout = layoutOf(geometry)
  it('has a name of its own for each house, alone and with others', () => {
    const terms = englishTerms(namesOf(geometry))
    const names = layout.houses.map(({ index }) => terms.house(index))
    expect(new Set(names).size).toBe(layout.houses.length)
    expect(names).toEqual(layout.houses.map(({ name }) => name))
    const pairs = layout.houses.flatMap(({ index }) =>
      layout.houses.slice(index + 1).map((other) => terms.houses([index, other.index])),
    )
    expect(new Set(pairs).size).toBe(pairs.length)
  })

  it('says its rule: a sentence for every kind of house', () => {
    const rule = ENGLISH.rule({ geometry, digits: 'numbers', cells: 'short' })
    expect(rule).toMatch(/^Each row, column and .*\.$/)
    expect(rule).toContain(`1 to ${geometry.order} once each`)
    for (const kind of ['box', 'region', 'diagonal'] as const) {
      const has = layout.houses.some((house) => house.kind === kind)
      expect(rule.includes(kind), `${kind} in "${rule}"`).toBe(has)
    }
    for (const { kind, name } of layout.houses)
      if (kind === 'region' || kind === 'diagonal') expect(rule).toContain(name)
  })

  it.each(DIGIT_STYLES)('is drawn so that every digit, mark and label can be read, with %s', (style) => {
    const random = seededRandom(geometry.order)
    const any = () => 1 + Math.floor(random() * geometry.order)
    const puzzle = makePuzzle(
      Array.from({ length: geometry.cellCount }, () => (random() < 0.3 ? any() : 0)),
      geometry,
    )
    const marks = puzzle.givens.map(() => Math.floor(random() * (1 << geometry.order)))
    const board = boardFromMarks(puzzle, puzzle.givens, marks)
    const { digits, candidates, labels } = readPicture(renderSvg(board, { digits: style }), geometry.order)
    expect(digits).toEqual(Array.from(board.digits))
    expect(candidates).toEqual(Array.from(board.candidates, (set) => digitsOf(set)))
    const lines = Array.from({ length: geometry.order }, (_, i) => i + 1)
    expect(labels).toEqual([...lines.map((i) => `c${i}`), ...lines.map((i) => `r${i}`)])
  })
})

describe('the rule of a geometry with peers outside its houses', () => {
  it('says that there are some', () => {
    expect(ENGLISH.rule(namesOf(withFurtherPeers(STANDARD, 'further peers', [[0, 80]])))).toContain(
      'further cells must not hold the same digit',
    )
    expect(ENGLISH.rule(namesOf(STANDARD))).not.toContain('further')
  })
})

/** Side of a cell, and room for the labels. */
const CELL = 72
const LABELS = 30

/** What stands in each cell of a picture, read by the places and sizes of its texts alone. */
function readPicture(svg: string, order: number) {
  const geometry = slantedGeometry(order)
  const digits = new Array<number>(order * order).fill(0)
  const candidates = Array.from(digits, (): number[] => [])
  const labels: { text: string; at: number }[] = []
  let place: { x: number; y: number; font: number } | undefined
  const parser = new SaxesParser()
  parser.on('opentag', ({ name, attributes }) => {
    const [x, y, font] = ['x', 'y', 'font-size'].map((key) => Number(attributes[key] ?? 0))
    place = name === 'text' ? { x: x!, y: y!, font: font! } : undefined
  })
  parser.on('text', (text) => {
    if (!place || text.trim() === '') return
    const column = Math.floor((place.x - LABELS) / CELL)
    const row = Math.floor((place.y - LABELS) / CELL)
    if (row < 0 || column < 0) {
      labels.push({ text, at: row < 0 ? column : order + row })
      return
    }
    const cell = row * order + column
    const digit = readDigit(geometry, text)
    if (place.font > CELL / 3) digits[cell] = digit
    else candidates[cell]!.push(digit)
  })
  parser.on('closetag', () => {
    place = undefined
  })
  parser.write(svg).close()
  labels.sort((a, b) => a.at - b.at)
  return { digits, candidates, labels: labels.map(({ text }) => text) }
}
