import { describe, expect, it } from 'vitest'
import { HINT_DEPTHS, type HintDepth, type HintOptions, hint, type StepHint } from '../../src/explain/hint.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { digitBit } from '../../src/grid/digits.js'
import type { Geometry } from '../../src/grid/geometry.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { solve } from '../../src/logic/solving/solve.js'
import { diagonalGeometry, slantedGeometry } from '../support/any-geometry.js'
import { PUZZLES } from '../support/puzzles.js'

const puzzle = PUZZLES.xyWing
const solution = solve(puzzle).board.digits
function stepHint<Depth extends HintDepth = 'look'>(
  source: Board | Puzzle,
  options: HintOptions<Depth>,
): StepHint<Depth> {
  const answer = hint(source, options)
  if (answer.kind !== 'step') throw new Error(`no step but ${answer.kind}`)
  return answer
}

describe('hint', () => {
  it('tells more with every depth, keeping what it said', () => {
    let before: readonly string[] = []
    for (const depth of HINT_DEPTHS) {
      const { says } = stepHint(puzzle, { depth })
      expect(says.slice(0, before.length)).toEqual(before)
      expect(says.length).toBeGreaterThan(before.length)
      before = says
    }
  })

  it('gives nothing deeper away as data', () => {
    const look = stepHint(puzzle, {})
    expect(Object.keys(look).sort()).toEqual(['depth', 'houses', 'kind', 'says'])
    expect(Object.keys(stepHint(puzzle, { depth: 'method' })).sort()).toEqual([
      'depth',
      'houses',
      'kind',
      'level',
      'says',
      'technique',
    ])
    const cells = stepHint(puzzle, { depth: 'cells' })
    expect(cells.digits).toEqual([]) // the digit of a single is the answer
    expect(cells).not.toHaveProperty('step')
    const argument = stepHint(puzzle, { depth: 'argument' })
    const { cell, digit } = argument.step.placements[0]!
    expect(solution[cell]).toBe(digit)
    expect(argument.explanation.sentences).toEqual(
      argument.says.slice(-argument.explanation.sentences.length),
    )
  })

  it('follows the techniques asked for', () => {
    const { board } = solve(puzzle, { preset: 'mark' })
    expect(hint(board, { preset: 'mark' })).toMatchObject({ kind: 'stuck' })
    expect(stepHint(board, { techniques: ['alternating-inference-chain'], depth: 'method' }).technique).toBe(
      'alternating-inference-chain',
    )
  })
})

describe('before a hint', () => {
  const open = puzzle.givens.indexOf(0)
  const right = solution[open]!
  const start = newBoard(puzzle)

  it('a wrong digit is put right', () => {
    const wrong = (right % 9) + 1
    const board = applyTo(start, { placements: [{ cell: open, digit: wrong }], removals: [] })
    expect(hint(board)).toMatchObject({ kind: 'mistake', wrongDigits: [open] })
  })

  it('a wrongly removed pencil mark is put right', () => {
    const board = applyTo(start, { placements: [], removals: [{ cell: open, digit: right }] })
    expect(board.candidates[open]! & digitBit(right)).toBe(0)
    expect(hint(board)).toMatchObject({ kind: 'mistake', wrongDigits: [], wrongMarks: [open] })
  })

  it('an unsound puzzle is named', () => {
    const blank = makePuzzle(new Array(81).fill(0))
    expect(hint(blank)).toMatchObject({ kind: 'unsound', because: 'many' })
    expect(hint(makePuzzle([1, 1, ...new Array(79).fill(0)]))).toMatchObject({
      kind: 'unsound',
      because: 'none',
    })
  })

  it('a finished board is praised', () => {
    expect(hint(makePuzzle(solution))).toMatchObject({ kind: 'solved' })
  })

  it('an unknown depth is a mistake of the program', () => {
    expect(() => hint(puzzle, { depth: 'deeper' as never })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
  })
})

describe('hints on houses that a number alone does not find', () => {
  it('say where a diagonal or a region is', () => {
    const names = (geometry: Geometry) => ({ geometry, digits: 'letters', cells: 'short' }) as const
    const diagonal = diagonalGeometry(3, 3)
    expect(ENGLISH.hint.look(names(diagonal), [27])).toBe(
      'Look at diagonal 1. Diagonal 1 runs from r1c1 to r9c9.',
    )
    expect(ENGLISH.hint.look(names(diagonal), [0, 18])).toBe('Look at row 1 and box 1.')
    expect(ENGLISH.hint.look(names(slantedGeometry(4)), [9])).toBe(
      'Look at region 2. Region 2 is the one with r1c2.',
    )
  })
})
