import { describe, expect, it } from 'vitest'
import { InputError } from '../../src/errors.js'
import { contradictionOf, openCount, puzzleOf } from '../../src/grid/board/ask.js'
import { applyTo, eraseDigit } from '../../src/grid/board/edit.js'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import { digitBit } from '../../src/grid/digits.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { checkClaim } from '../../src/logic/claims/check-claim.js'
import { checkProgress } from '../../src/logic/claims/check-progress.js'
import { cellPremise } from '../../src/logic/proof/premise-holds.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { rankSteps } from '../../src/logic/solving/rank.js'
import { solve } from '../../src/logic/solving/solve.js'
import { boardOf, boardWithMarks, cellAt } from '../support/boards.js'
import { randomPuzzle } from '../support/random-boards.js'

// The puzzle and solution of the first picture of Wikipedia's article "Sudoku".
const line = '530070000600195000098000060800060003400803001700020006060000280000419005000080079'
const solution = [...'534678912672195348198342567859761423426853791713924856961537284287419635345286179'].map(
  Number,
)
const puzzle = makePuzzle([...line].map(Number))
const start = newBoard(puzzle)
const at = (name: string, digit: number) => ({ cell: cellAt(name), digit })

describe('checkClaim', () => {
  const pairs = boardWithMarks({ r1c1: '12', r1c2: '12' })

  it('proves a claim by the technique that was named', () => {
    const verdict = checkClaim(pairs, { removed: [at('r1c5', 1)], technique: 'naked-pair' })
    expect(verdict).toMatchObject({ kind: 'proven', step: { technique: 'naked-pair' } })
  })

  it('proves a claim by the premises that were named', () => {
    const because = [cellPremise(pairs, 0), cellPremise(pairs, 1)]
    expect(checkClaim(pairs, { removed: [at('r1c5', 1)], because })).toEqual({ kind: 'proven' })
  })

  it('names the missing link of a claim that is true otherwise', () => {
    const because = [cellPremise(pairs, 0)]
    expect(checkClaim(pairs, { removed: [at('r1c5', 1)], because })).toMatchObject({
      kind: 'true-otherwise',
      missing: { kind: 'missing-link' },
      step: { technique: 'naked-pair' },
    })
    expect(checkClaim(pairs, { removed: [at('r1c5', 1)], technique: 'x-wing' })).toMatchObject({
      kind: 'true-otherwise',
      missing: { kind: 'no-instance', technique: 'x-wing' },
    })
  })

  it('shows a way to finish the board in which a false claim fails', () => {
    const verdict = checkClaim(pairs, { removed: [at('r5c5', 1)] })
    expect(verdict.kind).toBe('false')
    if (verdict.kind !== 'false') return
    expect(verdict.counterExample[cellAt('r5c5')]).toBe(1)
    expect(checkClaim(start, { placed: [at('r1c3', 1)] })).toMatchObject({
      kind: 'false',
      counterExample: solution,
    })
  })

  it('tells a true claim without a reason, and claims about nothing', () => {
    expect(checkClaim(start, { placed: [at('r5c5', 5)] })).toMatchObject({ kind: 'true' })
    expect(checkClaim(start, {})).toEqual({ kind: 'nothing' })
    expect(() => checkClaim(start, { placed: [at('r5c5', 5)], technique: 'hunch' as never })).toThrow(/hunch/)
  })

  it('does not judge on a board that cannot be finished', () => {
    const broken = applyTo(start, { placements: [at('r1c3', 1)], removals: [] })
    expect(checkClaim(broken, { removed: [at('r1c4', 2)] })).toEqual({ kind: 'board-unsound' })
    // row 1 is full, with a digit twice and one missing: no open cell and no house shows it
    const twice = boardOf(`12345678${1}${'.'.repeat(72)}`)
    expect(checkClaim(twice, { removed: [at('r5c6', 5)] })).toEqual({ kind: 'board-unsound' })
  })

  it('calls a digit false that the cell cannot take any more, and a removal of the digit that stands there', () => {
    const wrong = { kind: 'false', counterExample: solution }
    expect(checkClaim(start, { placed: [at('r1c3', 5)] })).toMatchObject(wrong)
    expect(checkClaim(start, { placed: [at('r1c1', 4)] })).toMatchObject(wrong)
    expect(checkClaim(start, { removed: [at('r1c1', 5)] })).toMatchObject(wrong)
    expect(checkClaim(start, { placed: [at('r1c1', 5)] })).toMatchObject({ kind: 'nothing' })
    expect(checkClaim(start, { removed: [at('r1c3', 5)] })).toMatchObject({ kind: 'nothing' })
  })

  it('holds a claim against both the technique and the premises that were named', () => {
    const because = [cellPremise(pairs, 0), cellPremise(pairs, 1)]
    const removed = [at('r1c5', 1)]
    expect(checkClaim(pairs, { removed, because, technique: 'naked-pair' })).toMatchObject({
      kind: 'proven',
      step: { technique: 'naked-pair' },
    })
    expect(checkClaim(pairs, { removed, because, technique: 'x-wing' })).toMatchObject({
      kind: 'true-otherwise',
      missing: { kind: 'no-instance', technique: 'x-wing' },
    })
    expect(checkClaim(pairs, { removed, because: because.slice(1), technique: 'naked-pair' })).toMatchObject({
      kind: 'true-otherwise',
      missing: { kind: 'missing-link' },
    })
  })

  it('takes what is said twice as said once', () => {
    const because = [cellPremise(pairs, 0), cellPremise(pairs, 1)]
    const removed = [at('r1c5', 1), at('r1c5', 1)]
    expect(checkClaim(pairs, { removed, because })).toEqual({ kind: 'proven' })
    expect(checkClaim(pairs, { removed, because: [...because, ...because] })).toEqual({ kind: 'proven' })
  })

  it('takes several instances together where none concludes all', () => {
    const two = boardWithMarks({ r1c1: '12', r1c2: '12', r9c8: '34', r9c9: '34' })
    const verdict = checkClaim(two, { removed: [at('r1c5', 1), at('r9c1', 4)], technique: 'naked-pair' })
    expect(verdict).toMatchObject({ kind: 'proven', steps: [{}, {}] })
  })

  it('knows what a digit that a technique places eliminates', () => {
    const single = boardWithMarks({ r5c5: '7' })
    expect(
      checkClaim(single, { removed: [at('r5c1', 7), at('r6c6', 7)], technique: 'naked-single' }),
    ).toMatchObject({ kind: 'proven', step: { technique: 'naked-single' } })
  })

  it('finds a chain of the family named where a shorter one of another hides it', () => {
    // a naked pair and, through a third cell, a longer chain of cells: both clear 1 from row 1
    const board = boardWithMarks({ r1c1: '12', r1c2: '12', r2c3: '23', r2c4: '13', r5c1: '23', r5c4: '13' })
    const removed = [at('r1c4', 1)]
    expect(checkClaim(board, { removed, technique: 'naked-pair' })).toMatchObject({ kind: 'proven' })
    expect(checkClaim(board, { removed, technique: 'xy-chain' })).toMatchObject({
      kind: 'proven',
      step: { technique: 'xy-chain' },
    })
  })

  it('refuses cells and digits that there are not', () => {
    for (const candidate of [
      { cell: 81, digit: 1 },
      { cell: -1, digit: 1 },
      { cell: 0.5, digit: 1 },
    ])
      expect(() => checkClaim(start, { removed: [candidate] })).toThrow(InputError)
    for (const digit of [0, 10, 33, Number.NaN])
      expect(() => checkClaim(start, { placed: [{ cell: 2, digit }] })).toThrow(/digit/)
  })

  describe.each([71, 73, 76])('on boards of a random puzzle (seed %i)', (seed) => {
    const { steps: path } = solve(randomPuzzle(seed), { preset: 'chain' })
    const boards = path.filter(({ level }) => level !== 'scan').map(({ before }) => before)
    const board = boards[boards.length >> 1]!
    const finished = path.reduce((at, step) => applyTo(at, step), path[0]!.before).digits

    it('bears out every step by its technique, by its premises and by both', () => {
      const steps = findSteps(board, { preset: 'chain' }).filter(
        ({ technique }) => !/multi-sector/.test(technique),
      )
      for (const { technique, placements: placed, removals: removed, premises: because, assumes } of steps) {
        expect(checkClaim(board, { technique, placed, removed })).toMatchObject({
          kind: 'proven',
          step: { technique },
        })
        expect(checkClaim(board, { technique, because, placed, removed })).toMatchObject({ kind: 'proven' })
        expect(checkClaim(board, { because, placed, removed }).kind).toBe(
          assumes ? 'true-otherwise' : 'proven',
        )
        for (const dropped of because)
          expect(
            checkClaim(board, { because: because.filter((one) => one !== dropped), placed, removed }),
          ).toMatchObject({ kind: 'true-otherwise' })
      }
    })

    it('shows for every wrong claim a full board that keeps the marks', () => {
      for (const [cell, digit] of finished.entries()) {
        if (board.digits[cell]) continue
        expect(checkClaim(board, { removed: [{ cell, digit }] })).toMatchObject({
          kind: 'false',
          counterExample: finished,
        })
      }
    })
  })
})

describe('checkProgress', () => {
  it('has nothing to say against a board on its way', () => {
    const path = solve(puzzle)
    for (const step of path.steps.slice(0, 20))
      expect(checkProgress(puzzle, step.before)).toMatchObject({
        status: 'on-track',
        wrongDigits: [],
        wrongRemovals: [],
      })
    expect(checkProgress(puzzle, path.board)).toMatchObject({ status: 'on-track', open: 0 })
  })

  it('names wrong digits, and only those strikes that they do not explain', () => {
    const wrong = applyTo(start, { placements: [at('r1c3', 1)], removals: [at('r5c5', 5)] })
    expect(checkProgress(puzzle, wrong)).toMatchObject({
      status: 'off-track',
      wrongDigits: [at('r1c3', 1)],
      wrongRemovals: [at('r5c5', 5)],
    })
  })

  it('says what a person would see: one clash for the same cells, then digits without a clash, then marks', () => {
    // a second 5 in r1c3 clashes in row and box, a 2 in r1c4 with nothing; there is no 1 in r9c2 of the solution
    const wrong = applyTo(start, {
      placements: [at('r1c3', 5), at('r1c4', 2)],
      removals: [at('r5c5', 5), at('r9c1', 3), at('r9c2', 1)],
    })
    expect(checkProgress(puzzle, wrong)).toMatchObject({
      mistakes: [
        {
          kind: 'clash',
          house: 0,
          digit: 5,
          cells: [cellAt('r1c1'), cellAt('r1c3')],
          wrong: [cellAt('r1c3')],
        },
        { kind: 'not-the-solution', ...at('r1c4', 2) },
        { kind: 'removed', ...at('r5c5', 5) },
        { kind: 'removed', ...at('r9c1', 3) },
      ],
    })
  })

  it('says each clash once: the largest of one digit, and several where none holds the others', () => {
    const mistakesAt = (digit: number, ...names: string[]) => {
      const placements = names.map((name) => at(name, digit))
      const progress = checkProgress(puzzle, applyTo(start, { placements, removals: [] }))
      return progress.status === 'unsound-puzzle' ? [] : progress.mistakes
    }
    const clash = (digit: number, house: number, ...names: string[]) =>
      expect.objectContaining({ kind: 'clash', digit, house, cells: names.map((name) => cellAt(name)) })
    // the last two are in one box
    expect(mistakesAt(2, 'r1c3', 'r1c4', 'r1c6')).toEqual([clash(2, 0, 'r1c3', 'r1c4', 'r1c6')])
    // with the printed 1 in r2c4: row 1, column 4 (and box 2, with the same cells), box 1
    expect(mistakesAt(1, 'r1c3', 'r1c4', 'r3c1')).toEqual([
      clash(1, 0, 'r1c3', 'r1c4'),
      clash(1, 12, 'r1c4', 'r2c4'),
      expect.objectContaining({ kind: 'clash', cells: [cellAt('r1c3'), cellAt('r3c1')] }),
    ])
  })

  it('never blames a person for marks that went with a digit that is corrected', () => {
    let corrected = 0
    for (const cell of start.digits.keys()) {
      if (start.digits[cell]) continue
      for (let digit = 1; digit <= 9; digit++) {
        if (digit === solution[cell]) continue
        const wrong = applyTo(start, { placements: [{ cell, digit }], removals: [] })
        expect(checkProgress(puzzle, wrong).status).toBe('off-track')
        const right = applyTo(wrong, { placements: [{ cell, digit: solution[cell]! }], removals: [] })
        for (const board of [right, eraseDigit(wrong, cell)])
          expect(checkProgress(puzzle, board)).toMatchObject({ status: 'on-track', mistakes: [] })
        expect(right).toEqual(
          applyTo(start, { placements: [{ cell, digit: solution[cell]! }], removals: [] }),
        )
        corrected++
      }
    }
    expect(corrected).toBe(8 * openCount(start))
  })

  it('finds no mistake in a person who has noted nothing so far, or only some cells', () => {
    const blank = new Array<number | undefined>(81).fill(undefined)
    const onTrack = { status: 'on-track', mistakes: [] }
    for (const marks of [blank, blank.with(2, digitBit(4) | digitBit(1))]) {
      const board = boardFromMarks(puzzle, puzzle.givens, marks)
      expect(contradictionOf(board)).toBeUndefined()
      expect(checkProgress(puzzle, board)).toMatchObject(onTrack)
      expect(solve(board).status).toBe('solved')
    }
    const struck = boardFromMarks(puzzle, puzzle.givens, blank.with(2, 0))
    expect(contradictionOf(struck)).toEqual({ kind: 'empty-cell', cell: 2 })
    expect(checkProgress(puzzle, struck)).toMatchObject({ mistakes: [{ kind: 'removed', ...at('r1c3', 4) }] })
  })

  it('finds the earliest entry that could not have been right', () => {
    const history = [
      { kind: 'placement' as const, candidate: at('r5c5', 5) },
      { kind: 'removal' as const, candidate: at('r1c3', 1) },
      { kind: 'removal' as const, candidate: at('r1c3', 4) },
      { kind: 'placement' as const, candidate: at('r1c3', 1) },
    ]
    expect(checkProgress(puzzle, start, { history })).toMatchObject({
      firstWrong: { index: 2, entry: { candidate: at('r1c3', 4) } },
    })
  })

  it('refuses a board of another size, and entries that lie outside', () => {
    const small = newBoard(makePuzzle(new Array(16).fill(0), boxedGeometry(2, 2)))
    expect(() => checkProgress(puzzle, small)).toThrow(/16 cells/)
    const history = [{ kind: 'placement' as const, candidate: { cell: 99, digit: 1 } }]
    expect(() => checkProgress(puzzle, start, { history })).toThrow(/a cell from 0 to 80/)
  })

  it('does not judge where the puzzle has no solution or several', () => {
    const empty = boardOf('.'.repeat(81))
    expect(checkProgress(puzzleOf(empty), empty)).toEqual({ status: 'unsound-puzzle', solutions: 'many' })
    const clash = boardOf(`11${'.'.repeat(79)}`)
    expect(checkProgress(puzzleOf(clash), clash)).toEqual({ status: 'unsound-puzzle', solutions: 'none' })
  })
})

describe('rankSteps', () => {
  it('puts first what makes the puzzle fall, then what opens most', () => {
    for (let seed = 60; seed < 64; seed++) {
      const { board, status } = solve(randomPuzzle(seed), { preset: 'mark' })
      if (status === 'solved') continue
      const steps = findSteps(board, { preset: 'pattern' })
      const ranked = rankSteps(steps)
      expect(ranked).toHaveLength(steps.length)
      const keys = ranked.map(
        ({ finishes, placed, removed }) => Number(finishes) * 1e6 + placed * 1e3 + removed,
      )
      expect(keys).toEqual([...keys].sort((a, b) => b - a))
      for (const { step, finishes, placed, removed } of ranked) {
        const after = solve(applyTo(board, step), { preset: 'mark' })
        expect(finishes).toBe(after.status === 'solved')
        expect(placed).toBe(openCount(board) - openCount(after.board))
        const gone = [...board.candidates.keys()]
          .filter((cell) => !after.board.digits[cell])
          .map((cell) => {
            const left = board.candidates[cell]! & ~after.board.candidates[cell]!
            return [1, 2, 3, 4, 5, 6, 7, 8, 9].filter((digit) => left & digitBit(digit)).length
          })
        expect(removed).toBe(gone.reduce((a, b) => a + b, 0))
      }
    }
  })
})
