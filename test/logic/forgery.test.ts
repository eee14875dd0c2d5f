import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../src/grid/random.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import type { FoundStep, Premise, Step } from '../../src/logic/steps/step.js'
import { type Sample, samplesOf } from '../support/confirm.js'
import { randomPuzzle } from '../support/random-boards.js'

const random = seededRandom(7)
const below = (n: number): number => Math.floor(random() * n)
const pick = <Item>(items: readonly Item[]): Item => items[below(items.length)]!

const samples = Array.from({ length: 12 }, (_, i) =>
  samplesOf(randomPuzzle(43_210 + i), `seed ${i}`, 3),
).flat()
const techniques = CATALOGUE.filter(({ name }) => !/multi-sector|mutant|franken|forcing|set-stem/.test(name))

const openCells = ({ board }: Sample): number[] =>
  [...board.candidates.keys()].filter((cell) => board.candidates[cell])

/** A step that says a digit of the solution goes. */
function lying(sample: Sample, step: Step): Step {
  const cell = pick(openCells(sample))
  return { ...step, placements: [], removals: [{ cell, digit: sample.solution[cell]! }] }
}

/** A premise that leaves out one of its alternatives. */
function shortened(premise: Premise): Premise {
  return premise.kind === 'cell'
    ? { ...premise, digits: premise.digits.slice(1) }
    : { ...premise, cells: premise.cells.slice(1) }
}

const FORGERIES: readonly (readonly [string, (sample: Sample, step: FoundStep) => Step | undefined])[] = [
  [
    'a premise fewer',
    (_, step) => ({ ...step, premises: step.premises.toSpliced(below(step.premises.length), 1) }),
  ],
  [
    'an alternative fewer in a premise',
    (_, step) => {
      const at = below(step.premises.length)
      return { ...step, premises: step.premises.with(at, shortened(step.premises[at]!)) }
    },
  ],
  [
    'a false removal beside the true ones',
    (sample, step) => ({ ...step, removals: [...step.removals, ...lying(sample, step).removals] }),
  ],
  ['a lie for a conclusion', lying],
  [
    'a lie, and a pattern with another cell',
    (sample, step) => {
      if (step.pattern.shape !== 'exchange') return undefined
      const { cells } = step.pattern
      const moved = cells.with(below(cells.length), pick(openCells(sample)))
      return lying(sample, { ...step, pattern: { ...step.pattern, cells: moved } })
    },
  ],
  [
    'a lie, and one solution assumed with any four cells',
    (sample, step) => {
      const cells = [1, 2, 3, 4].map(() => pick(openCells(sample)))
      const pattern = { shape: 'exchange', cells, digits: [1, 2], extras: [], links: [] } as const
      return lying(sample, { ...step, assumes: 'one-solution', pattern })
    },
  ],
]

describe('a forged step', () => {
  it.each(FORGERIES)('is not proven: %s', (_, forge) => {
    let tried = 0
    for (const sample of samples) {
      for (const { name } of techniques) {
        for (const step of findSteps(sample.board, { techniques: [name] }).slice(0, 4)) {
          const forged = forge(sample, step)
          if (!forged) continue
          tried++
          const verdict = verifyStep(sample.board, forged)
          expect(verdict.proven, `${name}, ${sample.name}: ${JSON.stringify(forged.premises)}`).toBe(false)
          if (!verdict.proven) expect(verdict.because.kind).toBeTruthy()
        }
      }
    }
    expect(tried).toBeGreaterThan(8)
  })
})
