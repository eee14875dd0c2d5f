import { describe, expect, it } from 'vitest'
import { checkProgress, checkUniqueness, digitsOf, makePuzzle, STANDARD } from '../../../src/index.js'
import { concludeReading, settleCells } from '../../../src/photo/conclude.js'
import { CELL_KINDS, type CellKind } from '../../../src/photo/print-or-hand/cell-kinds.js'
import { readWriting, writingDoubts } from '../../../src/photo/print-or-hand/read-writing.js'
import type { CellEvidence, Evidence } from '../../../src/photo/reading.js'
import { boardOf, readingFromJson, readingToJson } from '../../../src/photo.js'
import { PRINTED, straightLattice, sureEvidence } from '../evidence.js'

const verdict = checkUniqueness(makePuzzle(PRINTED, STANDARD))
const RIGHT = verdict.kind === 'unique' ? verdict.solution : []

/** A cell of which the kind is sure to `sure`, the digit to `sureDigit`. */
function cell(
  kind: CellKind,
  of: { digit?: number; marks?: readonly number[]; sure?: number; sureDigit?: number } = {},
) {
  const { digit = 1, marks = [], sure = 0.999, sureDigit = 0.999 } = of
  return {
    kinds: CELL_KINDS.map((own) => (own === kind ? sure : (1 - sure) / (CELL_KINDS.length - 1))),
    digits: Array.from({ length: 9 }, (_, d) => (d + 1 === digit ? sureDigit : (1 - sureDigit) / 8)),
    marks: Array.from({ length: 9 }, (_, d) => (marks.includes(d + 1) ? 0.999 : 0.001)),
  } satisfies CellEvidence
}

const OPEN = PRINTED.flatMap((digit, at) => (digit === 0 ? [at] : []))
const [FIRST, SECOND, THIRD] = OPEN as [number, number, number]

function evidence(changes: Readonly<Record<number, CellEvidence>>): Evidence {
  const writing = PRINTED.map(
    (digit, at) => changes[at] ?? cell(digit ? 'print' : 'none', { digit: digit || 1 }),
  )
  return { ...sureEvidence(PRINTED), writing }
}

const read = (changes: Readonly<Record<number, CellEvidence>>) =>
  concludeReading(STANDARD, straightLattice(), 0, evidence(changes))

describe('what somebody has written in a cell', () => {
  it.each<[string, CellEvidence, number, readonly number[]]>([
    ['bare paper', cell('none'), 0, []],
    ['an entry', cell('entry', { digit: 7 }), 7, []],
    ['marks', cell('marks', { marks: [2, 5, 9] }), 0, [2, 5, 9]],
    ['something crossed out', cell('crossed-out', { digit: 4 }), 0, []],
    ['print that is no given', cell('print', { digit: 3 }), 3, []],
  ])('%s', (_, seen, digit, marks) => {
    const writing = readWriting(evidence({ [FIRST]: seen }), FIRST, false, 9)
    expect(writing.entry.digit).toBe(digit)
    expect(writing.marks.digits).toEqual(marks)
  })

  it('is nothing beside a given', () => {
    const writing = readWriting(evidence({ [FIRST]: cell('entry', { digit: 7 }) }), FIRST, true, 9)
    expect([writing.entry.digit, writing.marks.digits]).toEqual([0, []])
  })

  it('has other digits as alternatives, none that the grid does not have', () => {
    const seen = { ...cell('entry'), digits: [0, 0.6, 0, 0, 0, 0.1, 0, 0, 0.3] }
    const { entry } = readWriting(evidence({ [FIRST]: seen }), FIRST, false, 6)
    expect(entry.digit).toBe(2)
    expect(entry.alternatives.map(({ digit }) => digit)).toEqual([6])
  })
})

describe('doubts of what is written', () => {
  const at = (seen: CellEvidence) => readWriting(evidence({ [FIRST]: seen }), FIRST, false, 9)
  const bare = at(cell('none', { sure: 1 }))

  it.each<[string, CellEvidence, 'entries' | 'marks']>([
    ['a digit that may be another', cell('entry', { sureDigit: 0.85 }), 'entries'],
    ['an entry that may be none', cell('none', { sure: 0.5 }), 'entries'],
    ['something crossed out', cell('crossed-out'), 'entries'],
    ['marks that may be dirt', { ...cell('none', { sure: 1 }), kinds: [0.8, 0, 0, 0.2, 0] }, 'marks'],
    [
      'a mark that may be none',
      { ...cell('marks', { sure: 1 }), marks: [1, 0.6, 0, 0, 0, 0, 0, 0, 0] },
      'marks',
    ],
  ])('%s', (_, seen, kind) => {
    expect(writingDoubts([bare, at(seen), bare])[kind]).toEqual([1])
  })

  it('add up over the page', () => {
    const little = at(cell('entry', { sure: 1, sureDigit: 0.98 }))
    expect(writingDoubts(Array(10).fill(little)).entries).toEqual([])
    expect(writingDoubts(Array(20).fill(little)).entries).not.toEqual([])
  })
})

describe('a reading of a page that somebody has written in', () => {
  const changes = {
    [FIRST]: cell('entry', { digit: Number(RIGHT[FIRST]) }),
    [SECOND]: cell('entry', { digit: (Number(RIGHT[SECOND]) % 9) + 1 }),
    [THIRD]: cell('marks', { marks: [1, 2] }),
  }

  it('keeps entries as they were written, right or wrong, and is a board', () => {
    const reading = read(changes)
    expect(reading.cells[SECOND]!.entry.digit).toBe((Number(RIGHT[SECOND]) % 9) + 1)
    const board = boardOf(reading)
    expect([board.digits[FIRST], board.digits[SECOND]]).toEqual([
      Number(RIGHT[FIRST]),
      (Number(RIGHT[SECOND]) % 9) + 1,
    ])
    expect(digitsOf(board.candidates[THIRD]!).every((digit) => digit <= 2)).toBe(true)
    expect(board.given[FIRST]).toBeFalsy()
    expect(checkProgress(reading.puzzle, board)).toMatchObject({
      status: 'off-track',
      wrongDigits: [{ cell: SECOND, digit: board.digits[SECOND] }],
    })
  })

  it('says why it asks to be looked at, and where', () => {
    const wrong = cell('entry', { digit: (Number(RIGHT[SECOND]) % 9) + 1, sureDigit: 0.99999 })
    const sure = { ...changes, [SECOND]: wrong }
    expect(read(sure).reasons).toEqual([])
    const doubted = read({ ...sure, [FIRST]: cell('entry', { digit: 7, sureDigit: 0.5 }) })
    expect(doubted.status).toBe('check')
    expect(doubted.reasons).toContain('entry-unclear')
    expect(doubted.doubtful).toContain(FIRST)
    const smudged = read({ ...sure, [THIRD]: { ...changes[THIRD]!, marks: Array(9).fill(0.5) } })
    expect(smudged.reasons).toContain('marks-unclear')
  })

  it('believes an entry more that agrees with the solution, and less one that does not', () => {
    const entry = (digit: number, sureDigit: number) => read({ [FIRST]: cell('entry', { digit, sureDigit }) })
    const [right, wrong] = [Number(RIGHT[FIRST]), (Number(RIGHT[FIRST]) % 9) + 1]
    expect(entry(right, 0.8).cells[FIRST]!.entry.confidence).toBeGreaterThan(0.99)
    expect(entry(right, 0.8).reasons).toEqual([])
    for (const sure of [0.6, 0.99]) {
      const reading = entry(wrong, sure)
      expect(reading.cells[FIRST]!.entry).toMatchObject({ digit: wrong, decidedBy: 'pixels' })
      expect(reading.reasons).toEqual(['entry-unclear'])
      expect(reading.doubtful).toEqual([FIRST])
    }
    expect(entry(wrong, 0.99999).reasons).toEqual([])
  })

  it('takes a person at their word, of each of the three', () => {
    const reading = read({ ...changes, [FIRST]: cell('entry', { digit: 7, sureDigit: 0.5 }) })
    const settled = settleCells(reading, [
      { cell: FIRST, entry: 2 },
      { cell: SECOND, marks: [9, 4] },
      { cell: THIRD, entry: 0, marks: [] },
    ])
    expect(settled.reasons).toEqual([])
    expect(settled.cells[FIRST]!.entry).toMatchObject({ digit: 2, confidence: 1, decidedBy: 'user' })
    expect(settled.cells[SECOND]!.entry.digit).toBe(0)
    expect(settled.cells[SECOND]!.marks).toMatchObject({ digits: [4, 9], decidedBy: 'user' })
    expect(settled.cells[THIRD]!.marks.digits).toEqual([])
    const given = settleCells(settled, [{ cell: FIRST, digit: Number(RIGHT[FIRST]) }])
    expect(given.cells[FIRST]!.entry.digit).toBe(0)
    expect(given.puzzle.givens[FIRST]).toBe(Number(RIGHT[FIRST]))
  })

  it.each([
    [{ cell: FIRST }, /digit, entry or marks/],
    [{ cell: FIRST, digit: 1, entry: 2 }, /either/],
    [{ cell: FIRST, entry: 10 }, /entry/],
    [{ cell: FIRST, marks: [0] }, /marks/],
  ])('refuses %o', (change, message) => {
    expect(() => settleCells(read(changes), [change])).toThrow(message)
  })

  it('comes back from saved data with all that was written and settled', () => {
    const settled = settleCells(read(changes), [{ cell: FIRST, entry: 2 }])
    const back = readingFromJson(JSON.parse(JSON.stringify(readingToJson(settled))))
    expect(back.cells.map(({ entry, marks }) => [entry.digit, marks.digits])).toEqual(
      settled.cells.map(({ entry, marks }) => [entry.digit, marks.digits]),
    )
    expect(back.reasons).toEqual(settled.reasons)
  })
})
