import { describe, expect, it } from 'vitest'
import { InputError } from '../../src/errors.js'
import { coverage, indispensableTechniques } from '../../src/grade/coverage.js'
import { stepEffort } from '../../src/grade/effort.js'
import { compareGrades, type Grade, gradeSchema, parseGrade } from '../../src/grade/grade.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { LEVELS } from '../../src/logic/level.js'
import { solve } from '../../src/logic/solve.js'
import { PUZZLES } from '../support/puzzles.js'

const puzzles = Object.values(PUZZLES)
const grades = puzzles.map((puzzle) => gradePuzzle(puzzle))

describe('gradePuzzle', () => {
  it('adds up the path', () => {
    puzzles.forEach((puzzle, i) => {
      const { steps } = solve(puzzle)
      const grade = grades[i]!
      expect(grade).toMatchObject({ verdict: 'unique', status: 'solved', steps: steps.length })
      expect(grade.effort).toBe(steps.reduce((sum, step) => sum + stepEffort(step), 0))
      expect(Object.values(grade.techniques).reduce((sum, count) => sum + count, 0)).toBe(steps.length)
      expect(grade.level).toBe(LEVELS[Math.max(...steps.map((step) => LEVELS.indexOf(step.level)))])
      const bottleneck = steps[grade.bottleneck!.step - 1]!
      expect(bottleneck).toMatchObject({ technique: grade.bottleneck!.technique, level: grade.level })
      for (const step of steps)
        if (step.level === grade.level) expect(stepEffort(step)).toBeLessThanOrEqual(grade.bottleneck!.effort)
    })
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
      steps: 0,
      level: null,
      effort: 0,
      bottleneck: null,
      techniques: {},
    })
    expect(gradePuzzle(makePuzzle([1, 1, ...new Array(79).fill(0)])).verdict).toBe('none')
    expect(gradePuzzle(PUZZLES.singles, { nodeBudget: 1 }).verdict).toBe('undecided')
  })

  it('stops when told to', () => {
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
    expect(() => parseGrade({ ...grades[0], steps: -1 })).toThrow(
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
      steps: [...grades, stuck].reduce((sum, { steps }) => sum + steps, 0),
    })
    expect(Object.values(levels).reduce((sum, count) => sum + count, 0)).toBe(6)
    expect(techniques.reduce((sum, row) => sum + row.steps, 0)).toBe(sums.steps)
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
