import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { effortOf, stepEffort } from '../../src/grade/effort.js'
import { solve } from '../../src/logic/solve.js'
import type { FoundStep, Premise } from '../../src/logic/step.js'
import { boardOf, boardWithMarks } from '../support/boards.js'
import { PUZZLES } from '../support/puzzles.js'
import { cell, stepOn, xyWingStep } from '../support/steps.js'

const withPremises = (step: FoundStep, premises: readonly Premise[]): FoundStep => ({ ...step, premises })
const single = (premise: Premise, line: string) =>
  withPremises(stepOn(boardOf(line), { shape: 'single', cell: 0, digit: 1 }), [premise])

describe('stepEffort', () => {
  it('is what its formula says, worked out by hand', () => {
    const last = '.23456789'.padEnd(81, '.')
    const inRow: Premise = { kind: 'house', house: 0, digit: 1, cells: [0] }
    expect(stepEffort(single(inRow, last))).toBe(1) // one open cell
    expect(stepEffort(single(inRow, '...456789'.padEnd(81, '.')))).toBe(3) // three open cells
    expect(stepEffort(single(cell('r1c1', '1'), '.'.repeat(81)))).toBe(9) // nine digits
    expect(stepEffort(xyWingStep())).toBe((9 + 9 + 9) * (1 + 3))
    const pair = [cell('r1c1', '12'), cell('r1c2', '12')]
    expect(stepEffort(withPremises(xyWingStep(), pair))).toBe((9 + 9) * (1 + 2))
  })

  it('asks one look for a digit that stands', () => {
    expect(stepEffort(single(cell('r1c2', '2'), '.2'.padEnd(81, '.')))).toBe(1)
  })

  it('grows with every premise and with every alternative', () => {
    const board = boardWithMarks({})
    const premise = fc.oneof(
      fc.record({
        kind: fc.constant('cell' as const),
        cell: fc.integer({ min: 0, max: 80 }),
        digits: fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 8 }),
      }),
      fc.record({
        kind: fc.constant('house' as const),
        house: fc.integer({ min: 0, max: 26 }),
        digit: fc.integer({ min: 1, max: 9 }),
        cells: fc.uniqueArray(fc.integer({ min: 0, max: 80 }), { minLength: 1, maxLength: 8 }),
      }),
    )
    fc.assert(
      fc.property(
        fc.array(premise, { minLength: 1, maxLength: 8 }),
        premise,
        fc.nat(),
        (premises, more, pick) => {
          const step = stepOn(board, { shape: 'premises' }, { premises })
          expect(effortOf(withPremises(step, [...premises, more]))).toBeGreaterThan(effortOf(step))
          const at = pick % premises.length
          const wider = premises.map((old, i): Premise => {
            if (i !== at) return old
            return old.kind === 'cell'
              ? { ...old, digits: [...old.digits, 0] }
              : { ...old, cells: [...old.cells, 81] }
          })
          expect(effortOf(withPremises(step, wider))).toBeGreaterThan(effortOf(step))
        },
      ),
      { seed: 12 },
    )
  })

  it('does not ask for the name of the technique', () => {
    for (const step of solve(PUZZLES.chain).steps)
      expect(stepEffort({ ...step, technique: 'full-house', level: 'scan' })).toBe(stepEffort(step))
  })
})
