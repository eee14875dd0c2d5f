import { describe, expect, it } from 'vitest'
import { checkUniqueness } from '../../src/count/check-uniqueness.js'
import { InputError } from '../../src/errors.js'
import { boxedGeometry, regionGeometry, STANDARD } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { toBase64 } from '../../src/photo/base64.js'
import { concludeReading, settleCells } from '../../src/photo/conclude.js'
import { CELL_SIZE } from '../../src/photo/digits/digit-reader.js'
import { readingFromJson, readingToJson } from '../../src/photo/reading-json.js'
import { PRINTED, straightLattice, sureEvidence } from './evidence.js'

const lattice = straightLattice()
const GIVEN = PRINTED.findIndex((digit) => digit !== 0)

describe('concludeReading', () => {
  it('is certain of a clear, sound page and says who decided', () => {
    const reading = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED))
    expect(reading.status).toBe('certain')
    expect(reading.reasons).toEqual([])
    expect(reading.doubtful).toEqual([])
    expect(reading.verdict.kind).toBe('unique')
    expect(reading.puzzle.givens).toEqual(PRINTED)
    expect(new Set(reading.cells.map(({ decidedBy }) => decidedBy))).toEqual(new Set(['pixels']))
    expect(Math.min(...reading.cells.map(({ confidence }) => confidence))).toBeGreaterThan(0.99)
  })

  it('gives each cell its corners on the picture', () => {
    const [corner] = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED)).cells
    expect(corner!.bounds).toEqual([
      { x: 10, y: 20 },
      { x: 60, y: 20 },
      { x: 60, y: 70 },
      { x: 10, y: 70 },
    ])
  })

  it('marks what logic settled against the pixels, and asks to look there', () => {
    // r1c3 looks like an 8 first; column 3 has its 8 already, so it is the 3
    const reading = concludeReading(
      STANDARD,
      lattice,
      0,
      sureEvidence(PRINTED.with(2, 8), { 2: { 3: 0.35 } }),
    )
    expect(reading.puzzle.givens).toEqual(PRINTED)
    expect(reading.cells[2]).toMatchObject({ digit: 3, decidedBy: 'logic', raw: { digit: 8 } })
    expect(reading.doubtful).toContain(2)
  })

  it('lets an unsound page stand as printed, with the verdict', () => {
    const misprint = PRINTED.with(GIVEN, 0)
    const blank = concludeReading(STANDARD, lattice, 0, sureEvidence(misprint))
    expect(blank.puzzle.givens).toEqual(misprint)
    const clash = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED.with(2, 8)))
    expect(clash.puzzle.givens[2]).toBe(8)
    expect(clash.verdict.kind).toBe('none')
    expect(clash.status).toBe('check')
    expect(clash.reasons).toContain('not-sound')
    expect(clash.doubtful).toContain(2)
  })

  it('asks for more of a lead where fewer rules were seen, or cells are in doubt', () => {
    // a blank cell that may hold a given, 5.5 nats less likely: the puzzle would be sound with it, too
    const blank = PRINTED.indexOf(0)
    const given = [1, 2, 3, 4, 5, 6, 7, 8, 9].find((digit) => {
      const evidence = sureEvidence(PRINTED.with(blank, digit))
      return concludeReading(STANDARD, lattice, 0, evidence).verdict.kind === 'unique'
    })!
    const evidence = sureEvidence(PRINTED, { [blank]: { [given]: Math.exp(-5.5) } })
    expect(concludeReading(STANDARD, lattice, 0, evidence).status).toBe('certain')
    expect(concludeReading(STANDARD, { ...lattice, support: 0.8 }, 0, evidence).reasons).toEqual([
      'close-rival',
    ])
    // or where other cells are in doubt, though no other reading of them is sound
    const [one] = PRINTED.flatMap((digit, cell) => (digit && cell !== blank ? [cell] : []))
    const clash = PRINTED.slice(0, 9).find((digit) => digit !== 0 && digit !== PRINTED[one!])!
    const blurred = sureEvidence(PRINTED, { [blank]: { [given]: Math.exp(-5.5) }, [one!]: { [clash]: 0.1 } })
    expect(concludeReading(STANDARD, lattice, 0, blurred).reasons).toEqual(['close-rival'])
  })

  it('is never certain of a cut or faint grid, an unclear turn, or ink that may be handwriting', () => {
    const sure = sureEvidence(PRINTED)
    const cut = concludeReading(STANDARD, { ...lattice, cut: true }, 0, { ...sure, outside: [8] })
    expect(cut.reasons).toEqual(['grid-cut'])
    expect(cut.doubtful).toEqual([8])
    expect(concludeReading(STANDARD, { ...lattice, support: 0.3 }, 0, sure).reasons).toEqual(['grid-faint'])
    expect(concludeReading(STANDARD, lattice, 0, { ...sure, turnLead: 1 }).reasons).toEqual(['turn-unclear'])
    // each rival is far behind, but there are many
    const others = (digit: number) =>
      [0, 1, 2, 3].filter((other) => other !== digit).map((other) => [other, 0.008])
    const blurred = Object.fromEntries(
      PRINTED.map((digit, cell) => [cell, Object.fromEntries(others(digit))] as const),
    )
    expect(concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED, blurred)).reasons).toContain(
      'hard-to-read',
    )
    const handwritten = sure.handwritten.with(GIVEN, 0.6)
    const reading = concludeReading(STANDARD, lattice, 0, { ...sure, handwritten })
    expect(reading.reasons).toEqual(['handwriting'])
    expect(reading.doubtful).toContain(GIVEN)
  })
})

describe('the lead that is asked', () => {
  const given = (handwritten: (cell: number) => number, doubt: number) => {
    const sure = sureEvidence(PRINTED, { [GIVEN]: { 0: doubt } })
    return concludeReading(STANDARD, lattice, 0, {
      ...sure,
      handwritten: sure.handwritten.map((_, cell) => handwritten(cell)),
    }).reasons
  }
  const blanks = PRINTED.flatMap((digit, cell) => (digit === 0 ? [cell] : []))

  it('is a hundred to one', () => {
    expect(given(() => 0, 1 / 80)).toEqual(['close-rival'])
    expect(given(() => 0, 1 / 130)).toEqual([])
  })

  it('is another where somebody has written in the page', () => {
    const written = (count: number) => (cell: number) => (blanks.slice(0, count).includes(cell) ? 0.9 : 0)
    expect(given(written(4), 1 / 80)).toEqual(['close-rival'])
    expect(given(written(5), 1 / 80)).toEqual([])
    expect(given(written(5), 1 / 45)).toEqual(['close-rival'])
  })
})

describe('settleCells', () => {
  it('decides the rest again in the light of what a person says, and leaves the first reading alone', () => {
    const doubts = { 2: { 3: 0.45 } }
    const first = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED.with(2, 8), doubts))
    const settled = settleCells(first, [{ cell: 2, digit: 3 }])
    expect(settled.cells[2]).toMatchObject({ digit: 3, decidedBy: 'user', confidence: 1 })
    expect(settled.status).toBe('certain')
    expect(first.evidence.settled).toEqual({})
  })

  it('keeps a correction even when the page is unsound with it', () => {
    const settled = settleCells(concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED)), [
      { cell: 2, digit: 8 },
    ])
    expect(settled.puzzle.givens[2]).toBe(8)
    expect(settled.verdict.kind).toBe('none')
  })

  it('refuses cells and digits that the grid does not have', () => {
    const reading = concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED))
    expect(() => settleCells(reading, [{ cell: 81, digit: 1 }])).toThrow(InputError)
    expect(() => settleCells(reading, [{ cell: 0, digit: 10 }])).toThrow(InputError)
  })
})

describe('readings as JSON', () => {
  it('come back equal, settled cells and all', () => {
    const reading = settleCells(
      concludeReading(STANDARD, lattice, 2, sureEvidence(PRINTED.with(2, 8), { 2: { 3: 0.45 } })),
      [{ cell: 2, digit: 3 }],
    )
    expect(readingFromJson(JSON.parse(JSON.stringify(readingToJson(reading))))).toEqual(reading)
  })

  it('have pictures of the cells if the reading has', () => {
    const pictures = PRINTED.map((digit) => toBase64(new Uint8Array(CELL_SIZE ** 2).fill(255 - digit)))
    const reading = concludeReading(STANDARD, lattice, 0, { ...sureEvidence(PRINTED), pictures })
    const json = readingToJson(reading)
    expect(json.cells[2]!.picture).toBe(pictures[2])
    expect(readingFromJson(json)).toEqual(reading)
    const [first, ...others] = json.cells
    const { picture: _, ...bare } = first!
    expect(() => readingFromJson({ ...json, cells: [bare, ...others] })).toThrow(/all cells or of none/)
  })

  it('are refused when something is missing or does not fit', () => {
    const json = readingToJson(concludeReading(STANDARD, lattice, 0, sureEvidence(PRINTED)))
    for (const broken of [
      null,
      {},
      { ...json, cells: json.cells.slice(1) },
      { ...json, lattice: { ...json.lattice, order: 7 } },
      { ...json, lattice: { ...json.lattice, points: [] } },
      { ...json, cells: json.cells.map((cell) => ({ ...cell, picture: 'AAAA' })) },
      { ...json, cells: json.cells.map((cell) => ({ ...cell, settled: 12 })) },
      { ...json, turns: 4 },
    ]) {
      expect(() => readingFromJson(broken)).toThrow(InputError)
    }
  })
})

describe('a grid whose box shape is not known', () => {
  const unsure = { ...sureEvidence(PRINTED), geometrySource: 'unsure' } as const

  it('is never certain, though nothing else is in doubt', () => {
    const reading = concludeReading(STANDARD, lattice, 0, unsure)
    expect([reading.status, reading.reasons, reading.doubtful]).toEqual(['check', ['box-shape'], []])
    for (const geometrySource of ['order', 'lines', 'caller'] as const) {
      expect(concludeReading(STANDARD, lattice, 0, { ...unsure, geometrySource }).reasons).toEqual([])
    }
  })

  it('is settled by a person who says the geometry, and saved with it', () => {
    const reading = settleCells(concludeReading(STANDARD, lattice, 0, unsure), [], { geometry: STANDARD })
    expect([reading.status, reading.evidence.geometrySource]).toEqual(['certain', 'caller'])
    expect(readingFromJson(readingToJson(reading))).toEqual(reading)
    // cells settled later do not take the word back
    expect(settleCells(reading, [{ cell: GIVEN, digit: PRINTED[GIVEN]! }]).status).toBe('certain')
    expect(() => settleCells(reading, [], { geometry: boxedGeometry(2, 3) })).toThrow(/order/)
  })

  it('is decided by the geometry: another one makes other houses', () => {
    const geometry = regionGeometry(
      'columns of boxes moved by one',
      Array.from({ length: 81 }, (_, cell) => 3 * Math.floor(cell / 27) + Math.floor(((cell + 1) % 9) / 3)),
    )
    const reading = settleCells(concludeReading(STANDARD, lattice, 0, unsure), [], { geometry })
    expect(reading.puzzle.geometry).toBe(geometry)
    expect(reading.verdict).toEqual(checkUniqueness(makePuzzle(PRINTED, geometry)))
    expect(reading.reasons).toContain('not-sound')
  })
})
