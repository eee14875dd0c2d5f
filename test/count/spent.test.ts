import { afterEach, describe, expect, it, vi } from 'vitest'
import { backbone, backboneOf } from '../../src/count/backbone.js'
import { NodeBudget } from '../../src/count/budget.js'
import { checkUniqueness } from '../../src/count/check-uniqueness.js'
import { conflictOf, smallestConflict } from '../../src/count/conflict.js'
import { type Distinction, distinguishingCells } from '../../src/count/distinguish.js'
import { GeneralSearch } from '../../src/count/general-search.js'
import { redundantGivens } from '../../src/count/redundant-givens.js'
import type { SearchEvent, SolutionSearch } from '../../src/count/search.js'
import { boxedGeometry } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { runNow } from '../../src/limits.js'

// What is said when a budget or the time ends on the way: no more than is known, and that it is not all.
const FOUR = boxedGeometry(2, 2)
const puzzleOf = (line: string) => makePuzzle([...line].map(Number), FOUR)
const OPEN = ['1000000000000004', '1234000000000000', '1234341220000000']
/** Without a solution, though no two givens clash, and with givens that have no part in it. */
const UNSOUND = ['0003324000000410', '0104001302400002', '0004003234000100', '0130300204030004']

it('the puzzles are of their kinds', () => {
  const kinds = (lines: readonly string[]) => [
    ...new Set(lines.map((line) => checkUniqueness(puzzleOf(line)).kind)),
  ]
  expect([kinds(OPEN), kinds(UNSOUND)]).toEqual([['many'], ['none']])
})

describe('with few nodes', () => {
  it('the backbone is at least the givens, and nothing is open that is not known to be', () => {
    for (const line of OPEN) {
      const puzzle = puzzleOf(line)
      const full = backbone(puzzle)!
      const given = full.fixed.filter(({ cell }) => puzzle.givens[cell] !== 0)
      expect(backbone(puzzle, { nodeBudget: 0 })).toEqual({
        fixed: given,
        open: [],
        complete: false,
        stopped: 'budget-spent',
      })
      for (let nodeBudget = 1; nodeBudget < 40; nodeBudget++) {
        const part = backbone(puzzle, { nodeBudget })!
        expect(full.fixed).toEqual(expect.arrayContaining([...part.fixed]))
        expect(full.open).toEqual(expect.arrayContaining([...part.open]))
        expect(part.fixed).toEqual(expect.arrayContaining(given))
        if (part.complete) expect(part).toEqual(full)
        else expect(part.stopped).toBe('budget-spent')
      }
    }
  })

  it('the redundant givens are some of them', () => {
    const puzzle = puzzleOf('1234341221434321')
    const full = redundantGivens(puzzle)
    expect(full.each).toHaveLength(16)
    for (let nodeBudget = 0; nodeBudget < 60; nodeBudget++) {
      const part = redundantGivens(puzzle, { nodeBudget })
      expect(full.each).toEqual(expect.arrayContaining([...part.each]))
      expect(part.each).toEqual(expect.arrayContaining([...part.together]))
      if (part.complete) expect(part).toEqual(full)
      else expect(part.stopped).toBe('budget-spent')
    }
  })

  it('a conflict is one, and is called smallest only if it is', () => {
    const kinds = new Set<string>()
    for (const line of UNSOUND) {
      const puzzle = puzzleOf(line)
      const { givens: full } = smallestConflict(puzzle)!
      for (let nodeBudget = 4; nodeBudget < 80; nodeBudget++) {
        const { givens, minimal, smallest, stopped } = smallestConflict(puzzle, { nodeBudget })!
        kinds.add(`${minimal} ${smallest}`)
        expect(stopped).toBe(smallest ? undefined : 'budget-spent')
        const part = new Array<number>(16).fill(0)
        for (const { cell, digit } of givens) part[cell] = digit
        expect(checkUniqueness(makePuzzle(part, FOUR)).kind).toBe('none')
        if (smallest) expect(givens).toHaveLength(full.length)
        expect(givens.length).toBeGreaterThanOrEqual(full.length)
        if (!minimal) continue
        for (const { cell } of givens)
          expect(checkUniqueness(makePuzzle(part.with(cell, 0), FOUR)).kind).not.toBe('none')
      }
    }
    expect([...kinds].sort()).toEqual(['false false', 'true false', 'true true'])
  })

  it('a conflict is minimal, if not the smallest, when there is no time to look for fewer', () => {
    const [line] = UNSOUND
    const conflict = runNow({}, (watch) => {
      const search = new GeneralSearch(layoutOf(FOUR))
      return conflictOf(puzzleOf(line!), search, new NodeBudget({}, watch), { nodes: 10_000, branches: 1 })
    })
    expect(conflict).toMatchObject({ minimal: true, smallest: false })
    expect('stopped' in conflict).toBe(false)
  })
})

it('with few nodes and more solutions than are looked at, no givens are named that might not do', () => {
  const puzzle = puzzleOf(OPEN[0]!)
  const kinds = new Set<boolean>()
  for (let nodeBudget = 0; nodeBudget < 40; nodeBudget++) {
    const { extraGivens, fewest, complete, stopped } = distinguishingCells(puzzle, { limit: 3, nodeBudget })!
    expect({ fewest, complete }).toEqual({ fewest: false, complete: false })
    kinds.add(extraGivens !== undefined)
    if (extraGivens) {
      const givens = puzzle.givens.slice()
      for (const { cell, digit } of extraGivens) givens[cell] = digit
      expect(checkUniqueness(makePuzzle(givens, FOUR)).kind).toBe('unique')
    } else expect(stopped).toBe('budget-spent')
  }
  expect(kinds.size).toBe(2)
})

describe('of the givens that may be left out, one that is hard to tell', () => {
  /** Ends at once, but for the question in which the first given is missing: that has no end. */
  class HardWithoutFirst implements SolutionSearch {
    nodes = 0
    readonly asked: number[] = []
    private isHard = false
    start(givens: ArrayLike<number>): void {
      this.nodes = 0
      this.isHard = givens[0] === 0
    }
    next(nodes: number): SearchEvent {
      this.asked.push(nodes)
      this.nodes += this.isHard ? nodes : Math.min(1, nodes)
      return this.isHard ? 'out-of-nodes' : 'exhausted'
    }
    readSolution(): void {}
  }

  it('takes no more than its share, and keeps none of the others from being asked', () => {
    const search = new HardWithoutFirst()
    const conflict = runNow({}, (watch) =>
      conflictOf(puzzleOf('1003000000200000'), search, new NodeBudget({ nodeBudget: 100 }, watch), {
        nodes: 90,
        branches: 1,
      }),
    )
    expect(conflict.givens).toEqual([{ cell: 0, digit: 1 }])
    expect(conflict).toMatchObject({ minimal: false, smallest: false })
    expect(search.asked).toEqual([30, 30, 30])
  })
})

describe('what two solutions show already', () => {
  it('is not asked about', () => {
    const puzzle = puzzleOf('1234000000000000')
    const [a, b] = ['1234341221434321', '1234432121433412'].map((line) => [...line].map(Number))
    const asked: number[] = []
    const search = new (class extends GeneralSearch {
      override start(givens: ArrayLike<number>, marks?: ArrayLike<number>): void {
        asked.push(Array.from(marks!).findIndex((digits) => digits !== 15))
        super.start(givens, marks)
      }
    })(layoutOf(FOUR))
    const result = runNow({}, (watch) => backboneOf(puzzle, [a!, b!], search, new NodeBudget({}, watch)))
    expect(result).toEqual(backbone(puzzle))
    expect(asked.length).toBeGreaterThan(0)
    expect(new Set(asked).size).toBe(asked.length)
    for (const cell of asked) {
      expect(puzzle.givens[cell]).toBe(0)
      expect(a![cell]).toBe(b![cell])
    }
  })
})

describe('when the time ends between two looks at the clock', () => {
  afterEach(() => {
    vi.restoreAllMocks()
  })

  /** The answer when the clock jumps past the limit at the n-th reading. */
  function answerAt(line: string, reading: number): Distinction | undefined {
    let readings = 0
    vi.spyOn(performance, 'now').mockImplementation(() => (readings++ < reading ? 0 : 1000))
    try {
      return distinguishingCells(puzzleOf(line), { timeLimit: 100 })
    } finally {
      vi.restoreAllMocks()
    }
  }

  it('solutions are told apart as far as is known', () => {
    const kinds = new Set<string>()
    for (const line of OPEN) {
      const full = distinguishingCells(puzzleOf(line))!
      for (let reading = 1; reading < 60; reading++) {
        const part = answerAt(line, reading)!
        if (part.stopped === undefined) {
          expect(part).toEqual(full)
          continue
        }
        expect(part.stopped).toBe('time-limit')
        expect(part.swaps).toEqual([])
        if (!part.complete) continue
        expect(part).toMatchObject({ solutions: full.solutions, cells: full.cells })
        kinds.add(`${part.fewest}`)
        const givens = puzzleOf(line).givens.slice()
        for (const { cell, digit } of part.extraGivens!) givens[cell] = digit
        expect(checkUniqueness(makePuzzle(givens, FOUR)).kind).toBe('unique')
        const cells = part.extraGivens!.map(({ cell }) => cell)
        expect(cells).toEqual([...cells].sort((x, y) => x - y))
        if (part.fewest) expect(part.extraGivens).toHaveLength(full.extraGivens!.length)
      }
    }
    expect([...kinds].sort()).toEqual(['false', 'true'])
  })
})

it('a search without anything to search is at its end', () => {
  const search = new GeneralSearch(layoutOf(FOUR))
  expect(search.next(5)).toBe('exhausted')
  search.start(new Array(16).fill(0), new Array(16).fill(15).with(3, 0))
  expect([search.next(5), search.nodes]).toEqual(['exhausted', 0])
})
