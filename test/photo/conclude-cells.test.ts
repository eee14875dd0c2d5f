import { describe, expect, it } from 'vitest'
import { countUpToTwo } from '../../src/count/count-up-to-two.js'
import { boxedGeometry, STANDARD } from '../../src/grid/geometry.js'
import { concludeReading, settleCells } from '../../src/photo/conclude.js'
import type { Evidence } from '../../src/photo/reading.js'
import { PRINTED, straightLattice, sureEvidence } from './evidence.js'

const read = (evidence: Evidence) => concludeReading(STANDARD, straightLattice(), 0, evidence)
const GIVEN = PRINTED.findIndex((digit) => digit !== 0)
const BLANK = PRINTED.indexOf(0)
/** A digit that may stand in the first blank cell: the puzzle is sound with it, too. */
const FITTING = [1, 2, 3, 4, 5, 6, 7, 8, 9].find((digit) => countUpToTwo(PRINTED.with(BLANK, digit)) === 1)!
/** A digit that stands in the same row already. */
const CLASHING = PRINTED.slice(0, 9).find((digit) => digit !== 0 && digit !== PRINTED[GIVEN])!

/** Chances of a cell's other digits against its own, where each leads by at least `lead` nats. */
const sureness = (others: readonly number[], lead: number) =>
  1 / (1 + others.reduce((sum, chance) => sum + Math.min(chance, Math.exp(-lead)), 0))
const UNSEEN = 1e-6

describe('how sure a cell is', () => {
  it('is what its pixels say, or the lead of the whole reading where that says more', () => {
    const { cells, margin } = read(sureEvidence(PRINTED, { [GIVEN]: { [CLASHING]: 0.3 } }))
    expect(margin).toBeGreaterThan(10)
    const others = [0.3, ...new Array(8).fill(UNSEEN)].map((chance) => chance / 0.7)
    expect(cells[GIVEN]!.confidence).toBeCloseTo(sureness(others, margin), 9)
  })

  it('is the lead of the whole reading where the next best one differs, whatever else it could be', () => {
    const { cells, margin } = read(sureEvidence(PRINTED, { [BLANK]: { [FITTING]: 0.2 } }))
    expect(margin).toBeCloseTo(Math.log(4), 9)
    expect(cells[BLANK]!.confidence).toBeCloseTo(sureness(new Array(9).fill(1), margin), 9)
  })

  it('is what its pixels say where the next best one has the same digit, and little leads', () => {
    const little = { [BLANK]: { [FITTING]: 0.2 } }
    const { cells } = read(sureEvidence(PRINTED, little))
    expect(cells[GIVEN]!.confidence).toBeCloseTo(1 / (1 + 9 * UNSEEN), 9)
    // r1c3 looks like an 8 first, which column 3 has already; it is the 3
    const decided = read(sureEvidence(PRINTED.with(2, 8), { ...little, 2: { 3: 0.35 } }))
    expect(decided.cells[2]).toMatchObject({ digit: 3, decidedBy: 'logic' })
    expect(decided.margin).toBeCloseTo(Math.log(4), 9)
    expect(decided.cells[2]!.confidence).toBeCloseTo(1 / (1 + 1 / 4 + 8 * (UNSEEN / 0.35)), 9)
  })

  it('is what its pixels say on a page that is not sound', () => {
    const { reasons, cells } = read(
      sureEvidence(PRINTED.with(GIVEN, CLASHING), { [BLANK]: { [FITTING]: 0.2 } }),
    )
    expect(reasons).toContain('not-sound')
    expect(cells[BLANK]!.confidence).toBeCloseTo(1 / (1 + 0.2 / 0.8 + 8 * (UNSEEN / 0.8)), 9)
  })

  it('is beyond doubt where a person has settled it', () => {
    const reading = settleCells(read(sureEvidence(PRINTED, { [BLANK]: { [FITTING]: 0.2 } })), [
      { cell: BLANK, digit: 0 },
    ])
    expect(reading.cells[BLANK]).toMatchObject({ digit: 0, confidence: 1, decidedBy: 'user' })
    expect(reading.status).toBe('certain')
  })
})

describe('what else a cell could be', () => {
  it('is up to three other digits with a chance of one in a thousand, likeliest first', () => {
    const doubts = { [GIVEN]: { 1: 0.001, 2: 0.0009, 4: 0.05, 5: 0.002, 6: 0.04 } }
    expect(PRINTED[GIVEN]).toBe(3)
    const cell = read(sureEvidence(PRINTED, doubts)).cells[GIVEN]!
    expect(cell.alternatives).toEqual([
      { digit: 4, probability: 0.05 },
      { digit: 6, probability: 0.04 },
      { digit: 5, probability: 0.002 },
    ])
    expect(cell.raw.digit).toBe(3)
    const fewer = read(sureEvidence(PRINTED, { [GIVEN]: { 1: 0.001, 2: 0.0009 } })).cells[GIVEN]!
    expect(fewer.alternatives).toEqual([{ digit: 1, probability: 0.001 }])
  })

  it('is first what the pixels showed, where logic decided against them', () => {
    const cell = read(sureEvidence(PRINTED.with(GIVEN, CLASHING), { [GIVEN]: { 3: 0.35 } })).cells[GIVEN]!
    expect(cell).toMatchObject({ digit: 3, decidedBy: 'logic', raw: { digit: CLASHING } })
    expect(cell.alternatives.map(({ digit }) => digit)).toEqual([CLASHING])
  })
})

describe('the cells to look at', () => {
  it('are those whose pixels put another digit within three nats, closest first', () => {
    const [one, two, three] = PRINTED.flatMap((digit, cell) => (digit ? [cell] : [])) as [
      number,
      number,
      number,
    ]
    const behind = (nats: number) => 1 / (1 + Math.exp(nats))
    // the rival is a digit of the same row, so the puzzle is unsound with it
    const doubts = [one, two, three].map((cell, i) => {
      const row = PRINTED.slice(cell - (cell % 9), cell - (cell % 9) + 9)
      const rival = row.find((digit) => digit !== 0 && digit !== PRINTED[cell])!
      return [cell, { [rival]: behind([2.9, 3.1, 1.5][i]!) }] as const
    })
    const reading = read(sureEvidence(PRINTED, Object.fromEntries(doubts)))
    expect(reading.puzzle.givens).toEqual(PRINTED)
    expect(reading.doubtful).toEqual([three, one])
  })

  it('are those in which the next best reading differs, where its lead is too small', () => {
    const close = read(sureEvidence(PRINTED, { [BLANK]: { [FITTING]: Math.exp(-4) } }))
    expect(close).toMatchObject({ reasons: ['close-rival'], doubtful: [BLANK] })
    const far = read(sureEvidence(PRINTED, { [BLANK]: { [FITTING]: Math.exp(-5) } }))
    expect(far).toMatchObject({ status: 'certain', doubtful: [] })
  })

  it('are those that clash', () => {
    const reading = read(sureEvidence(PRINTED.with(GIVEN, CLASHING)))
    const same = PRINTED.slice(0, 9).indexOf(CLASHING)
    expect(reading.verdict.kind).toBe('none')
    for (const cell of [GIVEN, same]) expect(reading.doubtful).toContain(cell)
    expect(reading.doubtful.length).toBeLessThan(5)
  })

  it('are those read as given that may be handwriting, unless a person has settled them', () => {
    const sure = sureEvidence(PRINTED)
    const written = (cell: number, share: number) =>
      read({ ...sure, handwritten: sure.handwritten.with(cell, share) })
    expect(written(GIVEN, 0.2).reasons).toEqual([])
    const doubted = written(GIVEN, 0.21)
    expect(doubted).toMatchObject({ reasons: ['handwriting'], doubtful: [GIVEN] })
    expect(doubted.cells[GIVEN]!.handwritten).toBe(0.21)
    expect(written(BLANK, 1).reasons).toEqual([])
    expect(settleCells(doubted, [{ cell: GIVEN, digit: PRINTED[GIVEN]! }]).reasons).toEqual([])
  })

  it('are those that the edge of the picture cuts, unless a person has settled them', () => {
    const cut = read({ ...sureEvidence(PRINTED), outside: [8, 17] })
    expect(cut).toMatchObject({ reasons: ['grid-cut'], doubtful: [8, 17] })
    const half = settleCells(cut, [{ cell: 8, digit: PRINTED[8]! }])
    expect(half).toMatchObject({ reasons: ['grid-cut'], doubtful: [17] })
    expect(settleCells(half, [{ cell: 17, digit: PRINTED[17]! }]).status).toBe('certain')
  })
})

it('a page is hard to read when its cells together are likely to hold more than one and a half misreads', () => {
  const blanks = PRINTED.flatMap((digit, cell) => (digit ? [] : [cell]))
  const doubted = (each: number) =>
    read(sureEvidence(PRINTED, Object.fromEntries(blanks.slice(0, 10).map((cell) => [cell, { 1: each }]))))
  expect(doubted(0.149).reasons).not.toContain('hard-to-read')
  const hard = doubted(0.151)
  expect(hard.reasons).toContain('hard-to-read')
  // what a person has settled is no longer in doubt
  expect(settleCells(hard, [{ cell: blanks[0]!, digit: 0 }]).reasons).not.toContain('hard-to-read')
})

it('a geometry has to be of the order of the grid', () => {
  const four = boxedGeometry(2, 2)
  expect(() => settleCells(read(sureEvidence(PRINTED)), [], { geometry: four })).toThrow(
    '`geometry` must be a geometry of order 9, as the grid read has',
  )
})

describe('settleCells', () => {
  const reading = read(sureEvidence(PRINTED))

  it('takes the first and last cell, no digit and the highest', () => {
    const settled = settleCells(reading, [
      { cell: 0, digit: 0 },
      { cell: 80, digit: 9 },
    ])
    expect(settled.evidence.settled).toEqual({ 0: 0, 80: 9 })
    expect(settled.puzzle.givens[80]).toBe(9)
    expect(settled.turns).toBe(reading.turns)
  })

  it.each([
    [-1, 1, /cell.* from 0 to 80, not -1/],
    [81, 1, /cell.* not 81/],
    [1.5, 1, /cell.* not 1\.5/],
    [0, -1, /digit.* from 0 to 9, not -1/],
    [0, 10, /digit.* not 10/],
    [0, 0.5, /digit.* not 0\.5/],
  ])('refuses cell %d with digit %d', (cell, digit, message) => {
    expect(() => settleCells(reading, [{ cell, digit }])).toThrow(message)
  })
})
