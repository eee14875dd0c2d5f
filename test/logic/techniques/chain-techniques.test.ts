import { describe, expect, it } from 'vitest'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import type { Technique } from '../../../src/logic/technique.js'
import * as alignedExclusion from '../../../src/logic/techniques/aligned-exclusion.js'
import * as chains from '../../../src/logic/techniques/chains.js'
import * as colouring from '../../../src/logic/techniques/colouring.js'
import * as deathBlossom from '../../../src/logic/techniques/death-blossom.js'
import * as multiSector from '../../../src/logic/techniques/multi-sector.js'
import * as remotePairs from '../../../src/logic/techniques/remote-pairs.js'
import * as sets from '../../../src/logic/techniques/sets.js'
import * as sueDeCoq from '../../../src/logic/techniques/sue-de-coq.js'
import * as wings from '../../../src/logic/techniques/wings.js'
import { factsFor } from '../../support/facts.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'
import { boardFormula } from '../../support/sat.js'

/** Every technique these files export, without naming them: a new one is tested by being there. */
const techniques = [
  ...[wings, remotePairs, colouring, chains, sets, sueDeCoq],
  ...[alignedExclusion, deathBlossom, multiSector],
]
  .flatMap((file) => Object.values(file))
  .filter((value): value is Technique => typeof value === 'object')

const SEED = 5000
const boards = stuckBoards(40, techniquesUpTo('mark'), { seed: SEED }).map(({ board }) => ({
  board,
  formula: boardFormula(board),
}))

describe.each(techniques.map((technique) => [technique.name, technique] as const))('%s', (_, technique) => {
  const found = boards.map(({ board, formula }) => ({ board, formula, steps: allSteps(board, technique) }))

  it('is proven by premises none of which can be spared', () => {
    for (const { board, steps } of found) {
      for (const step of steps) {
        expect(verifyStep(board, step), JSON.stringify(step)).toEqual({ proven: true })
        for (const premise of step.premises) {
          const fewer = { ...step, premises: step.premises.filter((other) => other !== premise) }
          expect(verifyStep(board, fewer).proven, JSON.stringify(step)).toBe(false)
        }
      }
    }
  })

  it('concludes nothing that a SAT solver does not confirm', () => {
    for (const { formula, steps } of found) {
      for (const step of steps) expect(formula.implies(step), JSON.stringify(step)).toBe(true)
    }
  })

  it('turns up on these boards, each instance once', () => {
    expect(found.some(({ steps }) => steps.length > 0)).toBe(true)
    for (const { steps } of found) {
      const keys = steps.map(({ premises, removals, placements }) =>
        JSON.stringify([premises.map((p) => JSON.stringify(p)).sort(), removals, placements]),
      )
      expect(new Set(keys).size).toBe(keys.length)
    }
  })

  it('stops at the first report when asked to', () => {
    for (const { board, steps } of found) {
      let reports = 0
      technique.find(factsFor(board), () => ++reports > 0, {})
      expect(reports).toBe(Math.min(1, steps.length))
    }
  })
})
