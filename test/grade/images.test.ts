import { describe, expect, it } from 'vitest'
import type { Grade } from '../../src/grade/grade.js'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { randomTransform, transformPuzzle } from '../../src/grid/symmetry.js'
import { techniquesUpTo } from '../../src/logic/catalogue.js'
import { slantedGeometry } from '../support/any-geometry.js'
import { PUZZLES } from '../support/puzzles.js'
import { randomPuzzle } from '../support/random-boards.js'

function puzzlesOf(geometry: Geometry, count: number): Puzzle[] {
  return Array.from({ length: count }, (_, i) => randomPuzzle(500 + i, geometry))
}

const standard = [...Object.values(PUZZLES), ...puzzlesOf(STANDARD, 24)]

describe('a grade', () => {
  it('is the same for every image of a puzzle', () => {
    const levels = new Set<Grade['level']>()
    const others = [boxedGeometry(2, 2), boxedGeometry(2, 3), slantedGeometry(5)]
    for (const puzzle of [...standard, ...others.flatMap((geometry) => puzzlesOf(geometry, 6))]) {
      const grade = gradePuzzle(puzzle)
      levels.add(grade.level)
      for (let seed = 1; seed <= 4; seed++) {
        const image = transformPuzzle(puzzle, randomTransform(puzzle.geometry, seed))
        expect(gradePuzzle(image)).toEqual(grade)
      }
    }
    // chains among them, where a finder shows one of several that conclude nearly the same
    expect(levels).toEqual(new Set(['scan', 'mark', 'pattern', 'chain']))
  })

  it('does not depend on the order in which techniques are named', () => {
    const techniques = techniquesUpTo('chain').map(({ name }) => name)
    for (const puzzle of standard)
      expect(gradePuzzle(puzzle, { techniques: [...techniques].reverse() })).toEqual(
        gradePuzzle(puzzle, { techniques }),
      )
  })

  it('has the same key technique for every image', () => {
    for (const puzzle of [PUZZLES.nakedPair, PUZZLES.xWing, PUZZLES.xyWing]) {
      const { key } = gradePuzzle(puzzle, { route: true })
      for (let seed = 1; seed <= 2; seed++) {
        const image = transformPuzzle(puzzle, randomTransform(puzzle.geometry, seed))
        expect(gradePuzzle(image, { route: true }).key).toEqual(key)
      }
    }
  })

  it('grows with the size of the grid', () => {
    const median = (geometry: Geometry): number => {
      const efforts = puzzlesOf(geometry, 9).map((puzzle) => gradePuzzle(puzzle, { preset: 'mark' }).effort)
      return efforts.sort((a, b) => a - b)[4]!
    }
    const small = median(boxedGeometry(2, 2))
    const middle = median(boxedGeometry(2, 3))
    expect(small).toBeLessThan(middle)
    expect(middle).toBeLessThan(median(STANDARD))
  })
})
