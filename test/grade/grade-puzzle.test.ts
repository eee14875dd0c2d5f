import { describe, expect, it } from 'vitest'
import { InputError } from '../../src/errors.js'
import { coverage, indispensableTechniques } from '../../src/grade/coverage.js'
import { looksFor } from '../../src/grade/ease.js'
import { compareGrades, type Grade, parseGrade } from '../../src/grade/grade.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { roundsTask } from '../../src/grade/rounds.js'
import { openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import { STANDARD } from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { runNow } from '../../src/limits.js'
import { LEVELS } from '../../src/logic/level.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { findRoute } from '../../src/route/find-route.js'
import { keyStep } from '../../src/route/key-step.js'
import { gradeSchema } from '../../src/schemas.js'
import { PUZZLES } from '../support/puzzles.js'

const { houses } = layoutOf(STANDARD)
const puzzles = Object.values(PUZZLES)
const grades = puzzles.map((puzzle) => gradePuzzle(puzzle))

describe('gradePuzzle', () => {
  it('adds up rounds', () => {
    puzzles.forEach((puzzle, i) => {
      const grade = grades[i]!
      const { rounds, board } = runNow({}, (watch) => roundsTask(puzzle, {}, true, watch))
      expect(openCount(board)).toBe(0)
      expect(grade).toMatchObject({ verdict: 'unique', status: 'solved', rounds: rounds.length })
      const placed = rounds.reduce((sum, { level, steps }) => sum + (level === 'scan' ? steps : 0), 0)
      expect(placed).toBeLessThanOrEqual(81 - grade.givens)
      const effort = rounds.reduce((sum, { seen, steps }) => sum + steps * looksFor(seen), 0)
      expect(grade.effort).toBeCloseTo(effort, 0)
      expect(grade.level).toBe(LEVELS[Math.max(...rounds.map(({ level }) => LEVELS.indexOf(level)))])
      const hardest = rounds[grade.bottleneck!.round - 1]!
      expect(hardest.techniques[0]).toBe(grade.bottleneck!.technique)
      expect(hardest.level).toBe(grade.level)
      for (const { level, seen } of rounds)
        if (level === grade.level) expect(looksFor(seen)).toBeLessThan(grade.bottleneck!.effort + 0.1)
      for (const [technique, count] of Object.entries(grade.techniques))
        expect(
          rounds.filter(({ techniques }) => techniques.includes(technique as TechniqueName)),
        ).toHaveLength(count)
    })
  })

  it('places in a round what is easiest to see, and nothing else', () => {
    const [first, second] = runNow({}, (watch) => roundsTask(PUZZLES.singles, {}, true, watch)).rounds
    const board = newBoard(PUZZLES.singles)
    const singles = findSteps(board, { techniques: ['full-house', 'hidden-single'] })
    const inBoxes = singles.filter(
      ({ pattern }) => pattern.shape === 'single' && houses[pattern.house!]!.kind === 'box',
    )
    const placements = new Map(inBoxes.flatMap((step) => step.placements).map((one) => [one.cell, one]))
    expect(first).toMatchObject({ level: 'scan', steps: placements.size, seen: { inBoxes: placements.size } })
    const after = applyTo(board, { placements: [...placements.values()], removals: [] })
    expect(second!.seen).toMatchObject({ openCells: openCount(after) })
  })

  it('names the key step of the route, and none where singles are enough', () => {
    for (const name of ['singles', 'nakedPair', 'xyWing'] as const) {
      const puzzle = PUZZLES[name]
      const grade = gradePuzzle(puzzle, { route: true })
      expect(gradePuzzle(puzzle)).not.toHaveProperty('key')
      const route = findRoute(puzzle)
      if (route.status !== 'solved') throw new Error(name)
      const key = keyStep(route.steps)
      if (name === 'singles') expect([key, grade.key]).toEqual([undefined, null])
      else
        expect(grade.key).toEqual({
          technique: route.steps[key!]!.technique,
          level: route.steps[key!]!.level,
        })
      if (route.keys.length === 1) expect(route.keys).toEqual([key])
    }
  })

  it('asks for no level below the one at which the puzzle falls', () => {
    puzzles.forEach((puzzle, i) => {
      const at = LEVELS.indexOf(grades[i]!.level!)
      expect(solve(puzzle, { preset: LEVELS[at]! }).status).toBe('solved')
      if (at > 0) expect(solve(puzzle, { preset: LEVELS[at - 1]! }).status).toBe('stuck')
    })
  })

  it('says when the techniques allowed are not enough', () => {
    expect(gradePuzzle(PUZZLES.xyWing, { preset: 'mark' })).toMatchObject({
      status: 'stuck',
      verdict: 'unique',
    })
  })

  it('does not try an unsound puzzle', () => {
    const blank = gradePuzzle(makePuzzle(new Array(81).fill(0)))
    expect(blank).toEqual({
      verdict: 'many',
      status: 'not-tried',
      givens: 0,
      rounds: 0,
      level: null,
      effort: 0,
      bottleneck: null,
      techniques: {},
    })
    expect(gradePuzzle(makePuzzle([1, 1, ...new Array(79).fill(0)])).verdict).toBe('none')
    expect(gradePuzzle(PUZZLES.singles, { nodeBudget: 1 }).verdict).toBe('undecided')
  })

  it('stops when asked to', () => {
    expect(() => gradePuzzle(PUZZLES.singles, { signal: AbortSignal.abort() })).toThrow(
      expect.objectContaining({ code: 'aborted' }),
    )
  })
})

describe('a saved grade', () => {
  it('reads back the same', () => {
    for (const grade of grades) expect(parseGrade(JSON.stringify(grade))).toEqual(grade)
  })

  it('is refused with its trouble named', () => {
    expect(() => parseGrade('{')).toThrow(InputError)
    expect(() => parseGrade({ ...grades[0], level: 'brutal' })).toThrow(/level/)
    expect(() => parseGrade({ ...grades[0], rounds: -1 })).toThrow(
      expect.objectContaining({ code: 'json-shape' }),
    )
    expect(gradeSchema.safeParse({ ...grades[0], extra: 1 }).success).toBe(false)
  })
})

describe('compareGrades', () => {
  it('puts the less demanding first', () => {
    const base = grades[0]!
    const harder: Grade[] = [
      base,
      { ...base, effort: base.effort + 1 },
      { ...base, bottleneck: { ...base.bottleneck!, effort: base.bottleneck!.effort + 1 } },
      { ...base, level: 'mark' },
      { ...base, level: 'branch' },
      { ...base, status: 'stuck' },
      { ...base, status: 'not-tried', level: null, bottleneck: null },
    ]
    expect([...harder].reverse().sort(compareGrades)).toEqual(harder)
  })
})

describe('coverage', () => {
  it('counts puzzles, levels and techniques', () => {
    const unsound = gradePuzzle(makePuzzle(new Array(81).fill(0)))
    const stuck = gradePuzzle(PUZZLES.xyWing, { preset: 'mark' })
    const { techniques, levels, ...sums } = coverage([...grades, unsound, stuck])
    expect(sums).toEqual({
      puzzles: 8,
      solved: 6,
      stuck: 1,
      notTried: 1,
      rounds: [...grades, stuck].reduce((sum, { rounds }) => sum + rounds, 0),
    })
    expect(Object.values(levels).reduce((sum, count) => sum + count, 0)).toBe(6)
    expect(techniques.reduce((sum, row) => sum + row.rounds, 0)).toBeGreaterThanOrEqual(sums.rounds)
    expect(techniques.reduce((sum, row) => sum + row.bottleneckIn, 0)).toBe(7)
    expect(techniques[0]!.technique).toBe('full-house')
  })
})

describe('indispensableTechniques', () => {
  it('names those without which the puzzle does not fall', () => {
    const techniques = ['full-house', 'hidden-single', 'naked-single', 'pointing', 'naked-pair'] as const
    const options = { techniques }
    for (const puzzle of puzzles) {
      const named = indispensableTechniques(puzzle, options)
      if (solve(puzzle, options).status !== 'solved') expect(named).toEqual([])
      for (const name of named)
        expect(solve(puzzle, { techniques: techniques.filter((other) => other !== name) }).status).toBe(
          'stuck',
        )
    }
    // What a full house finds is also a hidden single: it can always be spared.
    expect(indispensableTechniques(PUZZLES.singles, options)).toContain('hidden-single')
    expect(indispensableTechniques(PUZZLES.singles, options)).not.toContain('full-house')
  })
})
