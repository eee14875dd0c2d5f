import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  backbone,
  boxedGeometry,
  checkUniqueness,
  countSolutions,
  countUpToTwo,
  distinguishingCells,
  findClashes,
  layoutOf,
  makePuzzle,
  type Puzzle,
  randomSolution,
  redundantGivens,
  STANDARD,
  StoppedError,
  solutionsOf,
} from '../../src/index.js'
import { JIGSAW_9, MANY_GEOMETRIES } from './geometries.js'
import { fromLine, seededRandom, somePuzzle } from './puzzles.js'

const SEED = 16_180
const somePuzzles = (least: number, most: number) =>
  fc.tuple(fc.constantFrom(...MANY_GEOMETRIES.slice(0, 7)), fc.integer()).map(([geometry, seed]) => {
    const random = seededRandom(seed)
    return makePuzzle(somePuzzle(random, least + (most - least) * random(), 0, geometry), geometry)
  })
const LIMIT = 200
const withFewSolutions = somePuzzles(0.3, 0.6).filter((puzzle) => {
  const { count, complete } = countSolutions(puzzle, { limit: LIMIT })
  return complete && count > 1
})

describe('backbone', () => {
  it('is what all solutions share', () => {
    fc.assert(
      fc.property(somePuzzles(0.3, 0.7), (puzzle) => {
        const { solutions, complete } = solutionsOf(puzzle, { limit: 1000 })
        if (!complete) return
        const result = backbone(puzzle)!
        const shared = [...puzzle.givens.keys()].filter((cell) =>
          solutions.every((solution) => solution[cell] === solutions[0]![cell]),
        )
        expect(result.complete).toBe(true)
        expect(result.fixed).toEqual(shared.map((cell) => ({ cell, digit: solutions[0]![cell] })))
        expect(result.fixed.length + result.open.length).toBe(puzzle.geometry.cellCount)
      }),
      { seed: SEED, numRuns: 100 },
    )
  })

  it('proves no more than the budget lets it', () => {
    const puzzle = makePuzzle(
      fromLine('53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79'),
    )
    const result = backbone(puzzle, { nodeBudget: 10 })!
    expect(result).toMatchObject({ complete: false, stopped: 'budget-spent' })
    expect(result.fixed.length).toBeLessThan(81)
    expect(backbone(puzzle, { nodeBudget: 0 })!.fixed).toHaveLength(30)
  })
})

describe('redundantGivens', () => {
  const without = (puzzle: Puzzle, cells: readonly number[]) =>
    makePuzzle(
      puzzle.givens.map((digit, cell) => (cells.includes(cell) ? 0 : digit)),
      puzzle.geometry,
    )

  it('lists exactly the givens that can go without a new solution, and a set that can go together', () => {
    fc.assert(
      fc.property(somePuzzles(0.4, 0.7), (puzzle) => {
        const { count, complete } = countSolutions(puzzle, { limit: 200 })
        if (!complete) return
        const same = (cells: readonly number[]) =>
          countSolutions(without(puzzle, cells), { limit: count + 1 }).count === count
        const { each, together } = redundantGivens(puzzle)
        const given = [...puzzle.givens.keys()].filter((cell) => puzzle.givens[cell] !== 0)
        expect(each.map(({ cell }) => cell)).toEqual(given.filter((cell) => same([cell])))
        const gone = together.map(({ cell }) => cell)
        expect(same(gone)).toBe(true)
        for (const cell of given) if (!gone.includes(cell)) expect(same([...gone, cell])).toBe(false)
      }),
      { seed: SEED, numRuns: 60 },
    )
  })

  it('finds none in a published puzzle of 17 givens (16 never suffice: McGuire, Tugemann and Civario, 2012)', () => {
    const royle = makePuzzle(
      fromLine('.......1.4.........2...........5.4.7..8...3....1.9....3..4..2...5.1........8.6...'),
    )
    expect(redundantGivens(royle)).toEqual({ each: [], together: [], complete: true })
  })
})

describe('randomSolution', () => {
  /** Pearson's statistic for equal chances. */
  const chiSquare = (counts: readonly number[]) => {
    const mean = counts.reduce((a, b) => a + b) / counts.length
    return counts.reduce((sum, count) => sum + (count - mean) ** 2 / mean, 0)
  }

  it('picks each of the 12 fillings of an order 4 grid with its first row fixed equally often', () => {
    const puzzle = makePuzzle([1, 2, 3, 4, ...new Array(12).fill(0)], boxedGeometry(2, 2))
    const counts = new Map<string, number>()
    for (let seed = 0; seed < 6000; seed++) {
      const key = randomSolution(puzzle, { seed })!.join('')
      counts.set(key, (counts.get(key) ?? 0) + 1)
    }
    expect(counts.size).toBe(12)
    // 31.26: exceeded with a chance of 0.001 for 11 degrees of freedom (tables of the distribution)
    expect(chiSquare([...counts.values()])).toBeLessThan(31.26)
  })

  it('picks each solution of a lopsided search tree equally often', () => {
    // Two cells of one pair on one side, many fillings on the other: picking branches at random would favour the
    // former.
    const puzzle = fc.sample(
      withFewSolutions.filter((candidate) => {
        const { count } = countSolutions(candidate, { limit: 30 })
        return count > 15 && count < 25 && candidate.geometry.order === 9
      }),
      { seed: SEED, numRuns: 1 },
    )[0]!
    const { count } = countSolutions(puzzle)
    const counts = new Map<string, number>()
    for (let seed = 0; seed < 200 * count; seed++) {
      const key = randomSolution(puzzle, { seed: seed * 7919 })!.join('')
      counts.set(key, (counts.get(key) ?? 0) + 1)
    }
    expect(counts.size).toBe(count)
    // 51.18: exceeded with a chance of 0.001 for 24 degrees of freedom, the most there can be here
    expect(chiSquare([...counts.values()])).toBeLessThan(51.18)
  })

  it('gives the same solution for the same seed, and none where there is none', () => {
    const puzzle = makePuzzle(new Array(16).fill(0), boxedGeometry(2, 2))
    expect(randomSolution(puzzle, { seed: 5 })).toEqual(randomSolution(puzzle, { seed: 5 }))
    const clash = makePuzzle([1, 1, ...new Array(14).fill(0)], boxedGeometry(2, 2))
    expect(randomSolution(clash, { seed: 5 })).toBeUndefined()
  })

  it.each([boxedGeometry(2, 3), STANDARD, boxedGeometry(3, 4), boxedGeometry(4, 4), JIGSAW_9])(
    'fills an empty grid in few nodes, by the seed: $name',
    (geometry) => {
      const blank = makePuzzle(new Array(layoutOf(geometry).cellCount).fill(0), geometry)
      const grids = [1, 2, 3].map((seed) => randomSolution(blank, { seed, nodeBudget: 20_000 })!)
      for (const grid of grids) {
        expect(findClashes(geometry, grid)).toEqual([])
        expect(grid).not.toContain(0)
      }
      expect(new Set(grids.map(String)).size).toBe(3)
      expect(randomSolution(blank, { seed: 2 })).toEqual(grids[1])
      const [given] = grids
      const keeps = makePuzzle(
        given!.map((digit, cell) => (cell < layoutOf(geometry).order ? digit : 0)),
        geometry,
      )
      expect(randomSolution(keeps, { seed: 9 })!.slice(0, 6)).toEqual(given!.slice(0, 6))
    },
  )

  it('refuses to be unfair where that is asked of it', () => {
    const blank = makePuzzle(new Array(81).fill(0))
    expect(() => randomSolution(blank, { seed: 1, fair: true, nodeBudget: 2000 })).toThrow(StoppedError)
    expect(() => randomSolution(blank, { seed: 0.5 })).toThrow(expect.objectContaining({ code: 'argument' }))
  })
})

describe('distinguishingCells', () => {
  it('tells the solutions apart: cells, swaps, and the fewest givens to add', () => {
    fc.assert(
      fc.property(withFewSolutions, (puzzle) => {
        const { solutions } = solutionsOf(puzzle, { limit: LIMIT })
        const result = distinguishingCells(puzzle)!
        expect(result).toMatchObject({ solutions: solutions.length, complete: true })
        const verdict = checkUniqueness(puzzle)
        expect(verdict.kind === 'many' && verdict.openCells).toEqual(result.cells.map(({ cell }) => cell))
        for (const { cell, digits } of result.cells) {
          expect(digits).toEqual(
            [...new Set(solutions.map((solution) => solution[cell]!))].sort((a, b) => a - b),
          )
        }
        // every swap turns some solution into another
        const all = new Set(solutions.map((solution) => solution.join(' ')))
        for (const { cells } of result.swaps) {
          const before = solutions.filter((solution) =>
            cells.every(({ cell, from }) => solution[cell] === from),
          )
          const swapped = before.filter((solution) => {
            const after = [...solution]
            for (const { cell, to } of cells) after[cell] = to
            return all.has(after.join(' '))
          })
          expect(swapped.length).toBeGreaterThan(0)
        }
        // no two solutions differ in only a part of a swap's cells, and any two differ in all cells of some swap
        const swapCells = result.swaps.map(({ cells }) => new Set(cells.map(({ cell }) => cell)))
        const sample = solutions.slice(0, 20)
        let partial = 0
        let unexplained = 0
        for (const [i, one] of sample.entries()) {
          for (const other of sample.slice(i + 1)) {
            const differ = [...one.keys()].filter((cell) => one[cell] !== other[cell])
            const inDiffer = new Set(differ)
            const within = (cells: Set<number>) => [...cells].every((cell) => inDiffer.has(cell))
            if (
              swapCells.some((cells) => differ.length < cells.size && differ.every((cell) => cells.has(cell)))
            )
              partial++
            if (!swapCells.some(within)) unexplained++
          }
        }
        expect({ partial, unexplained }).toEqual({ partial: 0, unexplained: 0 })
        // adding the givens makes it sound
        const extra = result.extraGivens!
        const givens = [...puzzle.givens]
        for (const { cell, digit } of extra) givens[cell] = digit
        expect(countUpToTwo(givens, puzzle.geometry)).toBe(1)
        // and fewer do not: with one given, and with two where three are said to be needed
        expect(result.fewest).toBe(true)
        const choices = result.cells.flatMap(({ cell, digits }) => digits.map((digit) => ({ cell, digit })))
        const left = (...chosen: { cell: number; digit: number }[]) =>
          solutions.filter((solution) => chosen.every(({ cell, digit }) => solution[cell] === digit)).length
        if (extra.length > 1) for (const a of choices) expect(left(a)).not.toBe(1)
        if (extra.length > 2) for (const a of choices) for (const b of choices) expect(left(a, b)).not.toBe(1)
      }),
      { seed: SEED, numRuns: 40 },
    )
  })

  it('mends a puzzle with more solutions than it looks at', () => {
    const puzzle = makePuzzle(somePuzzle(seededRandom(8), 0.25))
    expect(countSolutions(puzzle, { limit: 200 }).complete).toBe(false)
    const result = distinguishingCells(puzzle, { limit: 50 })!
    expect(result).toMatchObject({ solutions: 50, complete: false, fewest: false })
    const givens = [...puzzle.givens]
    for (const { cell, digit } of result.extraGivens!) givens[cell] = digit
    expect(countUpToTwo(givens)).toBe(1)
  })

  it('has nothing to say about a sound puzzle or one without solution', () => {
    const full = somePuzzle(seededRandom(8), 1)
    expect(distinguishingCells(makePuzzle(full))).toBeUndefined()
    full[0] = (full[0]! % 9) + 1
    expect(distinguishingCells(makePuzzle(full))).toBeUndefined()
  })
})
