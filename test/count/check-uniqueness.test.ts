import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  boxedGeometry,
  checkUniqueness,
  countUpToTwo,
  makePuzzle,
  STANDARD,
  StoppedError,
  solutionsOf,
} from '../../src/index.js'
import { solutionsByCover } from './exact-cover.js'
import { MANY_GEOMETRIES } from './geometries.js'
import { fromLine, seededRandom, somePuzzle } from './puzzles.js'

const SEED = 31_415
const EXAMPLE = fromLine('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..')
const somePuzzles = fc
  .tuple(fc.constantFrom(...MANY_GEOMETRIES.slice(0, 7)), fc.integer(), fc.integer({ min: 0, max: 2 }))
  .map(([geometry, seed, wrong]) => {
    const random = seededRandom(seed)
    return makePuzzle(somePuzzle(random, 0.35 + 0.4 * random(), wrong, geometry), geometry)
  })

describe('checkUniqueness', () => {
  it('agrees with the number of solutions, and its examples and open cells are right', () => {
    fc.assert(
      fc.property(somePuzzles, (puzzle) => {
        const { solutions, complete } = solutionsOf(puzzle, { limit: 2000 })
        const verdict = checkUniqueness(puzzle)
        expect(verdict.kind).toBe(['none', 'unique'][solutions.length] ?? 'many')
        if (verdict.kind === 'unique') expect(verdict.solution).toEqual(solutions[0])
        if (verdict.kind !== 'many') return
        const [a, b] = verdict.examples
        expect(a).not.toEqual(b)
        expect(verdict.openCellsComplete).toBe(true)
        if (!complete) return
        expect(solutions).toContainEqual(a)
        expect(solutions).toContainEqual(b)
        const open = [...a.keys()].filter((cell) => solutions.some((solution) => solution[cell] !== a[cell]))
        expect(verdict.openCells).toEqual(open)
      }),
      { seed: SEED, numRuns: 150 },
    )
  })

  it('takes blank grids of any order', () => {
    for (const geometry of MANY_GEOMETRIES) {
      const verdict = checkUniqueness(makePuzzle(new Array(geometry.cellCount).fill(0), geometry))
      expect(verdict.kind).toBe('many')
      if (verdict.kind === 'many' && verdict.openCellsComplete) {
        expect(verdict.openCells).toHaveLength(geometry.cellCount)
      }
    }
  })

  it('never claims more than its budget let it see', () => {
    // a 17-given puzzle whose uniqueness takes several nodes
    const hard = makePuzzle(
      fromLine('..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1........4...9'),
    )
    const full = checkUniqueness(hard)
    expect(full.kind).toBe('unique')
    const kinds = new Set<string>()
    for (let nodeBudget = 0; nodeBudget < 400; nodeBudget += 7) {
      const verdict = checkUniqueness(hard, { nodeBudget })
      kinds.add(verdict.kind)
      if (verdict.kind !== 'undecided') expect(verdict).toEqual(full)
      else {
        expect(verdict.stopped).toBe('budget-spent')
        if (verdict.found && full.kind === 'unique') expect(verdict.found).toEqual(full.solution)
      }
    }
    expect([...kinds].sort()).toEqual(['undecided', 'unique'])
  })

  it('obeys the budget on grids that would need more, and says so', () => {
    const geometry = boxedGeometry(4, 4)
    const blank = makePuzzle(new Array(256).fill(0), geometry)
    expect(checkUniqueness(blank, { nodeBudget: 20 })).toEqual({ kind: 'undecided', stopped: 'budget-spent' })
    // Few givens, one of them impossible in a way that only search shows: hopeless to finish, quick to give up.
    const random = seededRandom(16)
    for (let i = 0; i < 5; i++) {
      const verdict = checkUniqueness(makePuzzle(somePuzzle(random, 0.25, 1, geometry), geometry), {
        nodeBudget: 300,
      })
      if (verdict.kind === 'undecided') expect(verdict.stopped).toBe('budget-spent')
      if (verdict.kind === 'none') expect(verdict.conflict.givens.length).toBeGreaterThan(1)
    }
  })

  it('says when its time was over', () => {
    const empty = makePuzzle(new Array(256).fill(0), boxedGeometry(4, 4))
    const nodeBudget = Number.POSITIVE_INFINITY
    const verdict = checkUniqueness(empty, { timeLimit: 0, nodeBudget })
    expect(verdict).toEqual({ kind: 'undecided', stopped: 'time-limit' })
  })
})

describe('countUpToTwo', () => {
  it('agrees with the exact-cover library dancing-links', () => {
    fc.assert(
      fc.property(somePuzzles, (puzzle) => {
        expect(countUpToTwo(Uint8Array.from(puzzle.givens), puzzle.geometry)).toBe(
          solutionsByCover(puzzle, 2).length,
        )
      }),
      { seed: SEED, numRuns: 150 },
    )
  })

  it('refuses what is no grid', () => {
    expect(() => countUpToTwo(EXAMPLE.slice(1))).toThrow(expect.objectContaining({ code: 'argument' }))
    for (const wrong of [-1, 10, 1.5, Number.NaN]) {
      expect(() => countUpToTwo(EXAMPLE.map((digit, cell) => (cell === 40 ? wrong : digit)))).toThrow(
        expect.objectContaining({ code: 'argument' }),
      )
    }
  })

  it('throws rather than guess when its nodes are spent', () => {
    expect(() => countUpToTwo(new Array(81).fill(0), STANDARD, 1)).toThrow(StoppedError)
  })
})
