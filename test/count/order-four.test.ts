import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { backbone } from '../../src/count/backbone.js'
import { checkUniqueness, checkUniquenessAsync } from '../../src/count/check-uniqueness.js'
import { smallestConflict } from '../../src/count/conflict.js'
import { countSolutions, countSolutionsAsync, solutionsOf } from '../../src/count/count-solutions.js'
import { countUpToTwo, countUpToTwoAsync } from '../../src/count/count-up-to-two.js'
import { distinguishingCells } from '../../src/count/distinguish.js'
import { randomSolution } from '../../src/count/random-solution.js'
import { redundantGivens } from '../../src/count/redundant-givens.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { subsets } from './subsets.js'

// There are 288 grids of order 4: every answer can be read off the whole list.
const FOUR = boxedGeometry(2, 2)
const CELLS = Array.from({ length: 16 }, (_, cell) => cell)

function allGrids(): number[][] {
  let grids: number[][] = [[]]
  for (const cell of CELLS)
    grids = grids.flatMap((grid) =>
      [1, 2, 3, 4].flatMap((digit) =>
        layoutOf(FOUR).peersOf[cell]!.some((peer) => grid[peer] === digit) ? [] : [[...grid, digit]],
      ),
    )
  return grids
}
const GRIDS = allGrids()

const fits = (givens: readonly number[], grid: readonly number[]) =>
  givens.every((digit, cell) => digit === 0 || grid[cell] === digit)
const solutionsFor = (givens: readonly number[]) => GRIDS.filter((grid) => fits(givens, grid))
const filledCells = (givens: readonly number[]) => CELLS.filter((cell) => givens[cell] !== 0)
const text = (grids: readonly (readonly number[])[]) => grids.map((grid) => grid.join('')).sort()
const at = (cells: readonly number[], digits: readonly number[]) =>
  cells.map((cell) => ({ cell, digit: digits[cell]! }))

/** A part of some grid; with `wrong`, one of its cells may hold another digit. */
const puzzles = (wrong: boolean): fc.Arbitrary<Puzzle> =>
  fc
    .record({
      grid: fc.constantFrom(...GRIDS),
      kept: fc.uniqueArray(fc.nat(15), { minLength: 2, maxLength: 9 }),
      at: fc.nat(15),
      digit: fc.integer({ min: 1, max: 4 }),
    })
    .map(({ grid, kept, at: changed, digit }) => {
      const givens = grid.map((own, cell) => (kept.includes(cell) ? own : 0))
      return makePuzzle(wrong ? givens.with(changed, digit) : givens, FOUR)
    })
const property = (test: (puzzle: Puzzle, solutions: number[][]) => void, wrong = false) =>
  fc.assert(
    fc.property(puzzles(wrong), (puzzle) => {
      test(puzzle, solutionsFor(puzzle.givens))
    }),
    { seed: 40_404, numRuns: 60 },
  )

it('the list is whole', () => {
  expect(GRIDS).toHaveLength(288)
})

describe('counting', () => {
  it('finds every solution, and says where a limit ended it', () => {
    property((puzzle, solutions) => {
      const count = solutions.length
      expect(countSolutions(puzzle)).toEqual({ count, complete: true })
      expect(countSolutions(puzzle, { limit: count + 1 })).toEqual({ count, complete: true })
      expect(countSolutions(puzzle, { limit: count })).toEqual({ count, complete: false, stopped: 'limit' })
      const list = solutionsOf(puzzle, { limit: 288 })
      expect(list).toMatchObject({ count, complete: true })
      expect('stopped' in list).toBe(false)
      expect(text(list.solutions)).toEqual(text(solutions))
      expect(solutionsOf(puzzle, { limit: 1 })).toMatchObject(
        count > 0 ? { count: 1, stopped: 'limit' } : { count: 0, complete: true },
      )
      expect(countUpToTwo(puzzle.givens, FOUR)).toBe(Math.min(2, count))
      expect(countUpToTwo(puzzle.givens, FOUR, {})).toBe(Math.min(2, count))
    }, true)
  })

  it('counts the same in slices', async () => {
    for (const { givens } of fc.sample(puzzles(true), { seed: 41, numRuns: 10 })) {
      const puzzle = makePuzzle(givens, FOUR)
      expect(await countSolutionsAsync(puzzle)).toEqual(countSolutions(puzzle))
      expect(await checkUniquenessAsync(puzzle)).toEqual(checkUniqueness(puzzle))
      expect(await countUpToTwoAsync(givens, FOUR)).toBe(countUpToTwo(givens, FOUR))
    }
  })

  it('gives the verdict', () => {
    property((puzzle, solutions) => {
      const verdict = checkUniqueness(puzzle)
      if (solutions.length === 1) expect(verdict).toEqual({ kind: 'unique', solution: solutions[0] })
      if (solutions.length === 0) expect(verdict.kind).toBe('none')
      if (solutions.length < 2 || verdict.kind !== 'many') return expect(solutions.length).toBeLessThan(2)
      expect(new Set(text(verdict.examples)).size).toBe(2)
      for (const example of text(verdict.examples)) expect(text(solutions)).toContain(example)
      expect(verdict).toEqual({
        kind: 'many',
        examples: verdict.examples,
        openCells: CELLS.filter((cell) => new Set(solutions.map((solution) => solution[cell])).size > 1),
        openCellsComplete: true,
      })
    }, true)
  })

  it('gives the solution found when the budget ends before the next', () => {
    let met = 0
    property((puzzle, solutions) => {
      const full = checkUniqueness(puzzle)
      for (let nodeBudget = 0; nodeBudget < 6; nodeBudget++) {
        const verdict = checkUniqueness(puzzle, { nodeBudget })
        if (verdict.kind === 'many') {
          if (verdict.openCellsComplete) expect(verdict).toEqual(full)
          else expect(verdict.stopped).toBe('budget-spent')
        } else if (verdict.kind === 'undecided') {
          expect(verdict.stopped).toBe('budget-spent')
          if (!verdict.found) continue
          met++
          expect(text(solutions)).toContain(verdict.found.join(''))
        } else expect(verdict).toEqual(full)
      }
    })
    expect(met).toBeGreaterThan(20)
  })
})

describe('what all solutions share', () => {
  it('is the backbone', () => {
    property((puzzle, solutions) => {
      if (solutions.length === 0) return expect(backbone(puzzle)).toBeUndefined()
      const isOpen = (cell: number) => new Set(solutions.map((solution) => solution[cell])).size > 1
      expect(backbone(puzzle)).toEqual({
        fixed: at(
          CELLS.filter((cell) => !isOpen(cell)),
          solutions[0]!,
        ),
        open: CELLS.filter(isOpen),
        complete: true,
      })
    }, true)
  })

  it('and of it, with a small budget, only what is proven', () => {
    property((puzzle, solutions) => {
      for (let nodeBudget = 0; nodeBudget < 12; nodeBudget += 2) {
        const part = backbone(puzzle, { nodeBudget })!
        for (const { cell, digit } of part.fixed)
          expect(solutions.every((solution) => solution[cell] === digit)).toBe(true)
        for (const cell of part.open)
          expect(new Set(solutions.map((solution) => solution[cell])).size).toBeGreaterThan(1)
        expect(part.complete).toBe(part.fixed.length + part.open.length === 16)
        if (!part.complete) expect(part.stopped).toBe('budget-spent')
      }
    })
  })
})

describe('givens that are not needed', () => {
  it('are those without which the solutions stay the same', () => {
    property((puzzle, solutions) => {
      if (solutions.length === 0) return
      const spare = (cells: readonly number[]) =>
        solutionsFor(puzzle.givens.map((digit, cell) => (cells.includes(cell) ? 0 : digit))).length ===
        solutions.length
      const { each, together, complete, stopped } = redundantGivens(puzzle)
      expect({ complete, stopped }).toEqual({ complete: true, stopped: undefined })
      const given = filledCells(puzzle.givens)
      expect(each).toEqual(
        at(
          given.filter((cell) => spare([cell])),
          puzzle.givens,
        ),
      )
      const gone = together.map(({ cell }) => cell)
      expect(spare(gone)).toBe(true)
      for (const cell of given) if (!gone.includes(cell)) expect(spare([...gone, cell])).toBe(false)
    })
  })
})

describe('what tells solutions apart', () => {
  it('is said whole: the cells, the swaps, and the fewest givens to add', () => {
    property((puzzle, solutions) => {
      const result = distinguishingCells(puzzle)
      if (solutions.length < 2) return expect(result).toBeUndefined()
      if (solutions.length > 40) return
      expect(result).toMatchObject({ solutions: solutions.length, complete: true, fewest: true })
      const digitsIn = (cell: number) => [...new Set(solutions.map((solution) => solution[cell]!))].sort()
      expect(result!.cells).toEqual(
        CELLS.flatMap((cell) => (digitsIn(cell).length > 1 ? [{ cell, digits: digitsIn(cell) }] : [])),
      )

      const pairs = solutions.flatMap((a, i) => solutions.slice(i + 1).map((b) => [a, b] as const))
      const differing = pairs.map(([a, b]) => CELLS.filter((cell) => a[cell] !== b[cell]))
      const swaps = pairs.flatMap(([a, b], i) => {
        const cells = differing[i]!
        const inPart = (other: readonly number[]) =>
          other.length < cells.length && other.every((cell) => cells.includes(cell))
        if (differing.some(inPart)) return []
        const [low, high] = a[cells[0]!]! < b[cells[0]!]! ? [a, b] : [b, a]
        return [JSON.stringify(cells.map((cell) => ({ cell, from: low[cell]!, to: high[cell]! })))]
      })
      expect(result!.swaps.map(({ cells }) => JSON.stringify(cells)).sort()).toEqual(
        [...new Set(swaps)].sort(),
      )
      const sizes = result!.swaps.map(({ cells }) => cells.length)
      expect(sizes).toEqual([...sizes].sort((a, b) => a - b))

      const left = (extra: readonly { cell: number; digit: number }[]) =>
        solutions.filter((solution) => extra.every(({ cell, digit }) => solution[cell] === digit)).length
      const extra = result!.extraGivens!
      expect(left(extra)).toBe(1)
      expect(extra.map(({ cell }) => cell)).toEqual(extra.map(({ cell }) => cell).sort((a, b) => a - b))
      const choices = result!.cells.flatMap(({ cell, digits }) => digits.map((digit) => ({ cell, digit })))
      for (const fewer of subsets(choices, Math.min(2, extra.length - 1))) expect(left(fewer)).not.toBe(1)
    })
  })

  it('is mended, if not with the fewest, when there are more solutions than it looks at', () => {
    property((puzzle, solutions) => {
      if (solutions.length < 4) return
      const result = distinguishingCells(puzzle, { limit: 3 })!
      expect(result).toMatchObject({ solutions: 3, complete: false, fewest: false })
      const { extraGivens } = result
      const mended = puzzle.givens.map(
        (digit, cell) => extraGivens!.find((extra) => extra.cell === cell)?.digit ?? digit,
      )
      expect(solutionsFor(mended)).toHaveLength(1)
    })
  })
})

describe('a random solution', () => {
  it('is one of them, and each comes up', () => {
    property((puzzle, solutions) => {
      if (solutions.length > 4) return
      const met = new Set<string>()
      for (let seed = 0; seed < 60; seed++) {
        const solution = randomSolution(puzzle, { seed })
        if (solution) met.add(solution.join(''))
      }
      expect([...met].sort()).toEqual(text(solutions))
    }, true)
  })
})

describe('a smallest conflict', () => {
  it('is as small as trying all sets of givens finds', () => {
    let met = 0
    property((puzzle, solutions) => {
      const conflict = smallestConflict(puzzle)
      if (solutions.length > 0) return expect(conflict).toBeUndefined()
      met++
      const given = filledCells(puzzle.givens)
      const contradicts = (cells: readonly number[]) =>
        solutionsFor(puzzle.givens.map((digit, cell) => (cells.includes(cell) ? digit : 0))).length === 0
      let size = 1
      while (![...subsets(given, size)].some(contradicts)) size++
      const cells = conflict!.givens.map(({ cell }) => cell)
      expect(conflict).toMatchObject({ minimal: true, smallest: true })
      expect('stopped' in conflict!).toBe(false)
      expect(cells).toHaveLength(size)
      expect(contradicts(cells)).toBe(true)
      expect(conflict!.givens).toEqual(
        at(
          [...cells].sort((a, b) => a - b),
          puzzle.givens,
        ),
      )
    }, true)
    expect(met).toBeGreaterThan(30)
  })
})

describe('questions that make no sense', () => {
  const puzzle = makePuzzle(new Array(16).fill(0), FOUR)
  it.each<[string, () => unknown, RegExp]>([
    ['a negative budget', () => countSolutions(puzzle, { nodeBudget: -1 }), /nodeBudget.*-1/],
    ['a negative limit', () => countSolutions(puzzle, { limit: -1 }), /limit.*-1/],
    ['a limit of one to tell apart', () => distinguishingCells(puzzle, { limit: 1 }), /limit.*from 2.*1/],
    ['too few givens', () => countUpToTwo([0], FOUR), /2x2.*16 cells, not 1/],
    ['half a digit', () => countUpToTwo(puzzle.givens.with(3, 0.5), FOUR), /cell 3 holds 0.5; 0 to 4/],
    ['a digit below', () => countUpToTwo(puzzle.givens.with(3, -1), FOUR), /cell 3 holds -1/],
    ['a digit above', () => countUpToTwo(puzzle.givens.with(15, 5), FOUR), /cell 15 holds 5/],
  ])('%s', (_, ask, message) => {
    expect(ask).toThrow(expect.objectContaining({ code: 'argument' }))
    expect(ask).toThrow(message)
  })

  it('are told apart from those whose budget is spent, which say what is not known', () => {
    expect(() => countUpToTwo(puzzle.givens, FOUR, 0)).toThrow(/how many solutions/)
    expect(() => countUpToTwo(puzzle.givens, FOUR, 1)).toThrow(/how many solutions/)
    expect(() => countUpToTwo(puzzle.givens, FOUR, { nodeBudget: 1 })).toThrow(/how many solutions/)
    expect(() => smallestConflict(puzzle, { nodeBudget: 0 })).toThrow(/whether the puzzle has a solution/)
    expect(() => randomSolution(puzzle, { seed: 1, nodeBudget: 5 })).toThrow(/which of its solutions/)
    expect(distinguishingCells(puzzle, { nodeBudget: 0 })).toEqual({
      solutions: 0,
      complete: false,
      stopped: 'budget-spent',
      cells: [],
      swaps: [],
      extraGivens: undefined,
      fewest: false,
    })
  })
})
