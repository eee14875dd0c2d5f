import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { puzzleOf } from '../../../src/grid/board/ask.js'
import { boxedGeometry } from '../../../src/grid/geometry.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { makePuzzle } from '../../../src/grid/puzzle.js'
import { sameRules } from '../../../src/grid/regions.js'
import { TEXT_FORMATS } from '../../../src/grid/text/formats.js'
import { parseBoard, parsePuzzle } from '../../../src/grid/text/parse.js'
import { readBoards, readPuzzles } from '../../../src/grid/text/stream.js'
import { EMPTY_SYMBOLS } from '../../../src/grid/text/symbols.js'
import { formatPuzzle } from '../../../src/grid/text/write.js'
import { ALL_GEOMETRIES } from '../../support/any-geometry.js'
import { anyBoard, anyPuzzle, boardFacts, GEOMETRIES, SEED } from '../arbitraries.js'

const property = { seed: SEED, numRuns: 20 }
const STYLES = TEXT_FORMATS.map((format) => format.name)

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const layout = layoutOf(geometry)
  it.each(STYLES)('puzzles written as %s read back the same', (style) => {
    fc.assert(
      fc.property(
        anyPuzzle(geometry),
        fc.constantFrom(...EMPTY_SYMBOLS),
        fc.constantFrom(',' as const, ';' as const, '\t' as const),
        (puzzle, empty, separator) => {
          const text = formatPuzzle(puzzle, { style, empty, separator })
          for (const format of [undefined, style]) {
            const options = format ? { format } : {}
            const back = parsePuzzle(text, options)
            expect(back.givens).toEqual(puzzle.givens)
            expect(layoutOf(back.geometry).houses.map((house) => house.cells)).toEqual(
              layout.houses.map((house) => house.cells),
            )
          }
        },
      ),
      property,
    )
  })

  it.each(['marks', 'json'] as const)('boards written as %s read back the same', (style) => {
    fc.assert(
      fc.property(anyBoard(geometry), (board) => {
        const text = formatPuzzle(board, { style })
        expect(boardFacts(parseBoard(text))).toEqual(boardFacts(board))
        expect(puzzleOf(parseBoard(text, { geometry })).givens).toEqual(puzzleOf(board).givens)
      }),
      property,
    )
  })

  it('files of boards and puzzles in mixed styles read back the same', async () => {
    const entry = fc.tuple(anyBoard(geometry), fc.constantFrom(...STYLES))
    await fc.assert(
      fc.asyncProperty(
        fc.array(entry, { minLength: 1, maxLength: 4 }),
        fc.nat(200),
        async (entries, chunk) => {
          const texts = entries.map(([board, style], i) => `# ${i}\n${formatPuzzle(board, { style })}\n\n`)
          const text = texts.join('')
          const chunks = text.match(new RegExp(`[^]{1,${chunk + 1}}`, 'g')) ?? []
          let i = 0
          for await (const found of readPuzzles(chunks, { geometry })) {
            const [board, style] = entries[i]!
            const shows =
              style === 'marks' || style === 'json' ? puzzleOf(board).givens : Array.from(board.digits)
            expect(found.ok ? found.puzzle.givens : found.error.message).toEqual(shows)
            expect(found.comments).toEqual([String(i)])
            i++
          }
          expect(i).toBe(entries.length)
          i = 0
          for await (const found of readBoards(chunks, { geometry })) {
            const [board, style] = entries[i++]!
            if (style === 'marks') expect(found.ok && boardFacts(found.board)).toEqual(boardFacts(board))
          }
        },
      ),
      { ...property, numRuns: 8 },
    )
  })
})

describe('digits as numbers', () => {
  const above = ALL_GEOMETRIES.filter(({ order }) => order > 9)

  it.each(above.map((geometry) => [geometry.name, geometry] as const))(
    'are drawn and read back on %s',
    (_, geometry) => {
      const puzzle = makePuzzle(
        Array.from({ length: geometry.cellCount }, (_, cell) => cell % (geometry.order + 1)),
        geometry,
      )
      const text = formatPuzzle(puzzle, { style: 'ruled', digits: 'numbers' })
      expect(text).toContain(` ${geometry.order} `)
      const read = parsePuzzle(text)
      expect(read.givens).toEqual(puzzle.givens)
      expect(sameRules(read.geometry, geometry)).toBe(true)
    },
  )

  it('are refused where a digit is one character', () => {
    const empty = makePuzzle(new Array(144).fill(0), boxedGeometry(3, 4))
    for (const style of ['line', 'rows', 'marks', 'json'] as const)
      expect(() => formatPuzzle(empty, { style, digits: 'numbers' })).toThrow(
        /`style` must be ruled or separated/,
      )
    expect(formatPuzzle(makePuzzle(new Array(81).fill(0)), { digits: 'numbers' })).toBe('.'.repeat(81))
  })
})
