import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../../src/count/count-solutions.js'
import { puzzleOf } from '../../../src/grid/board/ask.js'
import type { Board, Candidate } from '../../../src/grid/board.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { CATALOGUE } from '../../../src/logic/catalogue.js'
import { type Claim, claimsOf } from '../../../src/logic/claims/claim.js'
import { alternativesOf } from '../../../src/logic/proof/premise-search.js'
import { verifyStep } from '../../../src/logic/proof/proof.js'
import { findSteps } from '../../../src/logic/solving/find.js'
import { solve } from '../../../src/logic/solving/solve.js'
import type { CaseTree, Premise, Step } from '../../../src/logic/steps/step.js'
import { boardOf } from '../../support/boards.js'

const inkala2012 = '800000000003600000070090200050007000000045700000100030001000068008500010090000400'

/**
 * Walks a case tree as a person would, knowing nothing of how it was made: each thing that follows must be the last
 * alternative of its premise, each end must be what it says. Returns what is wrong, or undefined.
 */
function faultOf(board: Board, step: Step): string | undefined {
  if (step.pattern.shape !== 'cases') return 'no tree'
  const [claim] = claimsOf(step)
  const listed = new Set(step.premises.map((premise) => JSON.stringify(premise)))
  const clash = (a: Candidate, b: Candidate) =>
    a.cell === b.cell
      ? a.digit !== b.digit
      : a.digit === b.digit && layoutOf(board.geometry).arePeers(a.cell, b.cell)
  const same = (a: Candidate, b: Candidate) => a.cell === b.cell && a.digit === b.digit
  const isOut = (known: readonly Candidate[], c: Candidate) => known.some((one) => clash(one, c))
  const reached = (known: readonly Candidate[], { kind, candidate }: Claim) =>
    kind === 'removal' ? isOut(known, candidate) : known.some((one) => same(one, candidate))

  const walk = (tree: CaseTree, known: readonly Candidate[]): string | undefined => {
    const { split } = tree
    if (split.kind !== 'suppose' && !listed.has(JSON.stringify(split))) return 'a split that is no premise'
    if (split.kind === 'suppose' && !(claim!.kind === 'removal' && same(split, claim!.candidate)))
      return 'a supposition that the claim does not deny'
    const must: Candidate[] =
      split.kind === 'suppose' ? [split] : alternativesOf(split).filter((c) => !isOut(known, c))
    if (!must.every((c) => tree.branches.some(({ assume }) => same(assume, c)))) return 'a case left out'
    for (const { assume, follows, end } of tree.branches) {
      const here = [...known, assume]
      for (const { candidate, premise } of follows) {
        if (!listed.has(JSON.stringify(premise))) return 'a single from no premise'
        const left = alternativesOf(premise as Premise).filter((c) => !isOut(here, c))
        if (left.length !== 1 || !same(left[0]!, candidate)) return 'a single that does not follow'
        here.push(candidate)
      }
      if (end.kind === 'claim' && !reached(here, claim!)) return 'a claim not reached'
      if (end.kind === 'contradiction' && !alternativesOf(end.premise).every((c) => isOut(here, c)))
        return 'a contradiction that is none'
      if (end.kind === 'split') {
        const fault = walk(end.tree, here)
        if (fault) return fault
      }
    }
    return undefined
  }
  return walk(step.pattern.tree, [])
}

describe('case analysis', () => {
  it('finishes the hardest published puzzles, every tree sound and every step proven', () => {
    const board = boardOf(inkala2012)
    // left to chains, it is solved before a case is tried
    const techniques = CATALOGUE.filter(({ level }) => level !== 'chain').map(({ name }) => name)
    const path = solve(board, { techniques })
    expect(path.status).toBe('solved')
    expect([...path.board.digits]).toEqual(solutionsOf(puzzleOf(board), { limit: 1 }).solutions[0])
    const cases = path.steps.filter((step) => step.level === 'branch')
    expect(cases.length).toBeGreaterThan(0)
    for (const step of path.steps) expect(verifyStep(step.before, step)).toEqual({ proven: true })
    for (const step of cases) expect(faultOf(step.before, step), step.technique).toBeUndefined()
  }, 120_000)

  it.each(['cell-forcing-chain', 'house-forcing-chain', 'nishio', 'forcing-net'] as const)(
    '%s: sound trees',
    (name) => {
      const { board } = solve(boardOf(inkala2012), { preset: 'pattern' })
      const [solution] = solutionsOf(puzzleOf(board), { limit: 1 }).solutions
      const steps = findSteps(board, { techniques: [name], limit: 4 })
      for (const step of steps) {
        expect(faultOf(board, step), name).toBeUndefined()
        expect(verifyStep(board, step)).toEqual({ proven: true })
        for (const { cell, digit } of step.removals) expect(solution![cell]).not.toBe(digit)
        for (const { cell, digit } of step.placements) expect(solution![cell]).toBe(digit)
      }
      if (name === 'forcing-net') expect(steps.length).toBeGreaterThan(0)
    },
  )

  it('refutes nothing on an empty grid', () => {
    const board = boardOf('.'.repeat(81))
    for (const name of ['cell-forcing-chain', 'house-forcing-chain', 'nishio'] as const)
      expect(findSteps(board, { techniques: [name], limit: 1 })).toEqual([])
  })
})
