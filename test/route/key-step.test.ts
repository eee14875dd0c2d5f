import { describe, expect, it } from 'vitest'
import { solve } from '../../src/logic/solving/solve.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { keyStep } from '../../src/route/key-step.js'
import { PUZZLES } from '../support/puzzles.js'

describe('keyStep', () => {
  it('is the last step of the hardest technique', () => {
    for (const puzzle of [PUZZLES.nakedPair, PUZZLES.xWing, PUZZLES.xyWing, PUZZLES.chain]) {
      const { steps } = solve(puzzle)
      const key = keyStep(steps)!
      const rank = (index: number) => TECHNIQUE_NAMES.indexOf(steps[index]!.technique)
      steps.forEach((_, index) => {
        expect(rank(index)).toBeLessThanOrEqual(rank(key))
        if (index > key) expect(rank(index)).toBeLessThan(rank(key))
      })
    }
  })

  it('is none where singles are enough', () => {
    expect(keyStep(solve(PUZZLES.singles).steps)).toBeUndefined()
    expect(keyStep([])).toBeUndefined()
  })
})
