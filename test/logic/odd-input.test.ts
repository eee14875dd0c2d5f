import { describe, expect, it } from 'vitest'
import { randomSolution } from '../../src/count/random-solution.js'
import { GridreasonError } from '../../src/errors.js'
import { renderSvg } from '../../src/explain/render-svg.js'
import { hasCandidate } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { boardFromMarks, newBoard } from '../../src/grid/board/make.js'
import { digitSet } from '../../src/grid/digits.js'
import { boxedGeometry, cellName, regionGeometry, STANDARD } from '../../src/grid/geometry.js'
import { findClashes, makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { randomTransform, transformCandidate } from '../../src/grid/symmetry.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { checkClaim } from '../../src/logic/claims/check-claim.js'
import { checkProgress } from '../../src/logic/claims/check-progress.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import { randomPuzzle } from '../support/random-boards.js'

const puzzle = randomPuzzle(1)
const board = newBoard(puzzle)
const open = puzzle.givens.indexOf(0)
const printed = puzzle.givens.findIndex((digit) => digit !== 0)
const [step] = findSteps(board, { limit: 1 })
const odd = (value: unknown) => value as never

/** The code of the error that this throws. */
function codeOf(run: () => unknown): string | undefined {
  try {
    run()
  } catch (error) {
    if (error instanceof GridreasonError) return error.code
    throw error
  }
  return undefined
}

/** cell -> its box. */
const BOXES = Array.from({ length: 81 }, (_, cell) => Math.floor(cell / 27) * 3 + Math.floor((cell % 9) / 3))

/** Two neighbours at a border of boxes change their regions, and two below them. */
function jigsaw() {
  const regions = [...BOXES]
  ;[regions[2], regions[3]] = [1, 0]
  ;[regions[11], regions[12]] = [1, 0]
  return regionGeometry('jigsaw', regions)
}

describe('a board that is not of the puzzle', () => {
  const progress = (other: Puzzle) => codeOf(() => checkProgress(puzzle, newBoard(other)))

  it('is refused, whatever it differs in', () => {
    expect(progress(randomPuzzle(2))).toBe('board-foreign')
    expect(progress(makePuzzle(new Array(16).fill(0), boxedGeometry(2, 2)))).toBe('board-foreign')
    expect(progress(makePuzzle(puzzle.givens.with(printed, 0)))).toBe('board-foreign')
    expect(progress(makePuzzle(puzzle.givens, jigsaw()))).toBe('board-foreign')
  })

  it('may say as printed what was written, and may have houses of its own making', () => {
    const { board: solved } = solve(puzzle)
    expect(progress(makePuzzle(solved.digits))).toBeUndefined()
    expect(progress(makePuzzle(puzzle.givens, regionGeometry('boxes', BOXES)))).toBeUndefined()
  })
})

describe('entries that are none', () => {
  const candidate = { cell: open, digit: 1 }
  it.each([
    ['an unknown kind', [{ kind: 'guess', candidate }]],
    ['no kind', [{ candidate }]],
    ['nothing', [null]],
    ['no candidate', [{ kind: 'removal' }]],
    ['a cell outside', [{ kind: 'removal', candidate: { cell: 81, digit: 1 } }]],
    ['a cell as text', [{ kind: 'removal', candidate: { cell: '3', digit: 1 } }]],
    ['a digit outside', [{ kind: 'placement', candidate: { cell: open, digit: 10 } }]],
    ['no list', { kind: 'removal', candidate }],
  ])('%s', (_, history) => {
    expect(codeOf(() => checkProgress(puzzle, board, { history: odd(history) }))).toBe('claim-shape')
  })

  it('are no claims either', () => {
    expect(codeOf(() => checkClaim(board, { placed: odd(candidate) }))).toBe('claim-shape')
    expect(codeOf(() => checkClaim(board, { removed: odd('r1c1') }))).toBe('claim-shape')
    expect(codeOf(() => checkClaim(board, { removed: [odd(null)] }))).toBe('argument')
  })
})

it.each([[[null]], [{}], ['r1c1'], [[{ kind: 'cell', cell: 1, digits: null }]], [[{ kind: 'box' }]]])(
  'what is no premise (%j) proves nothing, whatever the technique that is named',
  (because) => {
    const own = { placed: step!.placements, removed: step!.removals, because: odd(because) }
    const missing = { kind: 'malformed' }
    expect(checkClaim(board, own)).toMatchObject({ kind: 'true-otherwise', missing })
    expect(checkClaim(board, { ...own, technique: step!.technique })).toMatchObject({
      kind: 'true-otherwise',
      missing,
    })
  },
)

describe('mistakes of a program are reported at once', () => {
  const everywhere = new Array<number>(81).fill(511)
  const at = (cell: number, digit: number) => [{ cell, digit }]
  const place = (cell: number, digit: number) => applyTo(board, { placements: at(cell, digit), removals: [] })
  it.each<[string, () => unknown]>([
    ['too few digits', () => boardFromMarks(puzzle, [1, 2], everywhere)],
    ['too few sets', () => boardFromMarks(puzzle, puzzle.givens, [511])],
    [
      'a set of ten digits',
      () =>
        boardFromMarks(
          puzzle,
          puzzle.givens,
          everywhere.map(() => 1023),
        ),
    ],
    ['a digit that is none', () => boardFromMarks(puzzle, puzzle.givens.with(open, Number.NaN), everywhere)],
    [
      'another digit than the given',
      () =>
        boardFromMarks(puzzle, puzzle.givens.with(printed, (puzzle.givens[printed]! % 9) + 1), everywhere),
    ],
    ['a digit placed outside', () => place(81, 1)],
    ['a digit too large', () => place(open, 10)],
    ['a digit in place of a given', () => place(printed, (puzzle.givens[printed]! % 9) + 1)],
    ['a removal of no digit', () => applyTo(board, { placements: [], removals: at(open, 33) })],
    ['a chain of no number of links', () => findSteps(board, { maxLinks: Number.NaN })],
    ['a chain of fewer than one link', () => solve(puzzle, { maxLinks: 0 })],
    ['steps without number', () => findSteps(board, { limit: Number.NaN })],
    ['a budget without number', () => verifyStep(board, step!, { budget: Number.NaN })],
    ['an image of no cell', () => transformCandidate({ cell: 81, digit: 1 }, randomTransform(STANDARD, 1))],
    ['an image of no digit', () => transformCandidate({ cell: 0, digit: 10 }, randomTransform(STANDARD, 1))],
    ['a transform of no seed', () => randomTransform(STANDARD, Number.NaN)],
    ['a transform of a text as seed', () => randomTransform(STANDARD, odd('12'))],
    ['a solution of no seed', () => randomSolution(puzzle, { seed: Number.NaN })],
    ['a solution of half a seed', () => randomSolution(puzzle, { seed: 0.5 })],
    ['the name of no cell', () => cellName(STANDARD, 81)],
    ['a set of no digit', () => digitSet([0])],
    ['an empty cell written as a digit', () => formatPuzzle(puzzle, { empty: odd('5') })],
    ['values kept apart by a digit', () => formatPuzzle(puzzle, { style: 'separated', separator: odd('1') })],
    ['a picture of no width', () => renderSvg(board, { width: Number.NaN })],
  ])('%s', (_, run) => {
    expect(run).toThrow(expect.objectContaining({ code: 'argument' }))
  })

  it('clashes are looked for among as many digits as there are cells', () => {
    expect(codeOf(() => findClashes(STANDARD, [1, 1]))).toBe('text-shape')
    expect(codeOf(() => findClashes(STANDARD, odd('1'.repeat(81))))).toBe('argument')
  })

  it('a digit that there is not is no candidate', () => {
    expect([0, -31, 33].filter((digit) => hasCandidate(board, open, digit))).toEqual([])
  })
})
