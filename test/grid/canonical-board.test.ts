import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import type { Board } from '../../src/grid/board.js'
import { canonicalBoardKey, canonicalBoardKeyAsync } from '../../src/grid/canonical-board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { seededRandom } from '../../src/grid/random.js'
import {
  followedBy,
  type GridTransform,
  lineSwap,
  randomTransform,
  relabelling,
  transformBoard,
  transposition,
} from '../../src/grid/symmetry.js'
import { randomPuzzle } from '../support/random-boards.js'
import { GEOMETRIES } from './arbitraries.js'

/** A puzzle's board with some marks struck out. */
function anyBoard(geometry: Geometry, seed: number, removed = 6): Board {
  const random = seededRandom(seed)
  let board = newBoard(randomPuzzle(seed, geometry))
  for (let i = 0; i < removed; i++) {
    const open = board.candidates.flatMap((set, cell) => (digitsOf(set).length > 1 ? [cell] : []))
    const cell = open[Math.floor(random() * open.length)]
    if (cell === undefined) return board
    const digits = digitsOf(board.candidates[cell]!)
    const digit = digits[Math.floor(random() * digits.length)]!
    board = applyTo(board, { placements: [], removals: [{ cell, digit }] })
  }
  return board
}

/** All 128 ways to move the lines of a 4×4 grid, with all 24 ways to name its digits. */
function imagesOf(geometry: Geometry): GridTransform[] {
  const orders = permutations([0, 1, 2, 3])
  const lines = orders.filter(([a, b]) => Math.floor(a! / 2) === Math.floor(b! / 2))
  const names = orders.map((order) => relabelling(geometry, [0, ...order.map((digit) => digit + 1)]))
  const moves = lines.flatMap((rows) => lines.map((columns) => lineSwap(geometry, rows, columns)))
  const turned = moves.map((move) => followedBy(move, transposition(geometry)))
  return [...moves, ...turned].flatMap((move) => names.map((naming) => followedBy(move, naming)))
}

function permutations(items: readonly number[]): number[][] {
  if (items.length === 0) return [[]]
  return items.flatMap((first) =>
    permutations(items.filter((item) => item !== first)).map((rest) => [first, ...rest]),
  )
}

describe('canonicalBoardKey', () => {
  it('is the same for all images of a board', () => {
    for (const [i, geometry] of GEOMETRIES.entries()) {
      const board = anyBoard(geometry, 20 + i)
      const key = canonicalBoardKey(board)
      for (let seed = 1; seed <= 4; seed++)
        expect(canonicalBoardKey(transformBoard(board, randomTransform(geometry, seed)))).toBe(key)
    }
    const wide = anyBoard(boxedGeometry(2, 3), 3)
    expect(canonicalBoardKey(transformBoard(wide, transposition(wide.geometry)))).toBe(
      canonicalBoardKey(wide),
    )
  })

  it('differs where a single mark does', () => {
    const board = anyBoard(STANDARD, 5)
    const key = canonicalBoardKey(board)
    const others = new Set<string>()
    let marks = 0
    board.candidates.forEach((set, cell) => {
      for (const digit of digitsOf(set)) {
        others.add(canonicalBoardKey(applyTo(board, { placements: [], removals: [{ cell, digit }] })))
        marks++
      }
    })
    expect(others).not.toContain(key)
    // a puzzle without symmetry: no two marks are alike
    expect(others.size).toBe(marks)
  })

  it('tells small boards apart exactly as their images do', () => {
    const geometry = boxedGeometry(2, 2)
    const boards = Array.from({ length: 10 }, (_, seed) => anyBoard(geometry, (seed % 4) + 1, 1 + (seed % 3)))
    const shown = (board: Board) => `${board.digits.join('')} ${board.candidates.join()}`
    const images = boards.map(
      (board) => new Set(imagesOf(geometry).map((t) => shown(transformBoard(board, t)))),
    )
    for (const [i, board] of boards.entries())
      for (const [j, other] of boards.entries())
        expect(canonicalBoardKey(board) === canonicalBoardKey(other), `${i} and ${j}`).toBe(
          images[j]!.has(shown(board)),
        )
  })

  it('takes a digit for the only mark of its cell, and gives the same as a promise', async () => {
    const board = anyBoard(STANDARD, 7)
    const cell = board.candidates.findIndex((set) => digitsOf(set).length === 2)
    const [digit, other] = digitsOf(board.candidates[cell]!) as [number, number]
    const marked = applyTo(board, { placements: [], removals: [{ cell, digit: other }] })
    const seen = layoutOf(board.geometry).peersOf[cell]!.filter((peer) => hasCandidate(marked, peer, digit))
    const bare = applyTo(marked, { placements: [], removals: seen.map((peer) => ({ cell: peer, digit })) })
    const placed = applyTo(bare, { placements: [{ cell, digit }], removals: [] })
    expect(canonicalBoardKey(placed)).toBe(canonicalBoardKey(bare))
    expect(await canonicalBoardKeyAsync(board)).toBe(canonicalBoardKey(board))
  })

  it('keeps its limits', () => {
    const full = newBoard(makePuzzle(new Array(81).fill(0)))
    expect(() => canonicalBoardKey(full, { nodeBudget: 3 })).toThrow(
      expect.objectContaining({ code: 'budget-spent' }),
    )
    expect(() => canonicalBoardKey(full, { timeLimit: 0 })).toThrow(
      expect.objectContaining({ code: 'time-limit' }),
    )
  })
})
