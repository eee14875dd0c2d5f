import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../src/count/count-solutions.js'
import { explainStep } from '../../src/explain/explain-step.js'
import { hasCandidate, openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { newBoard } from '../../src/grid/board/make.js'
import { layoutOf } from '../../src/grid/layout.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import type { Claim } from '../../src/logic/claims/claim.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { oneStory } from '../../src/route/one-story.js'
import { openers, openersAsync, proofsOf } from '../../src/route/wishes.js'
import { WORKADAY_TECHNIQUES } from '../../src/route/workaday.js'
import { randomPuzzle } from '../support/random-boards.js'

const puzzle = randomPuzzle(5)
const { board } = solve(puzzle, { techniques: WORKADAY_TECHNIQUES })
const [solution] = solutionsOf(puzzle, { limit: 1 }).solutions

describe('openers', () => {
  it('names false candidates whose removal lets everyday techniques go on, those that open most first', () => {
    expect(openCount(board)).toBeGreaterThan(0)
    const found = openers(board, { limit: 30 })
    expect(found.length).toBeGreaterThan(0)
    let last = Number.POSITIVE_INFINITY
    for (const { candidate, finishes, placed, removed } of found) {
      expect(hasCandidate(board, candidate.cell, candidate.digit)).toBe(true)
      expect(solution![candidate.cell]).not.toBe(candidate.digit)
      const after = solve(applyTo(board, { placements: [], removals: [candidate] }), {
        techniques: WORKADAY_TECHNIQUES,
      })
      expect(finishes).toBe(after.status === 'solved')
      expect(placed).toBe(openCount(board) - openCount(after.board))
      const score = Number(finishes) * 1e6 + placed * 1e3 + removed
      expect(score).toBeLessThanOrEqual(last)
      last = score
    }
  })

  it('gives each its easiest proof, or none where no technique proves it in one step', () => {
    for (const { candidate, proof } of openers(board, { limit: 12 })) {
      const all = proofsOf(board, { kind: 'removal', candidate })
      expect(proof?.technique).toBe(all[0]?.technique)
      if (proof) expect(verifyStep(board, proof)).toEqual({ proven: true })
    }
  })

  it('says nothing about a board with several solutions, and gives the same as a promise', async () => {
    expect(openers(newBoard(makePuzzle(puzzle.givens.map(() => 0))))).toEqual([])
    expect(await openersAsync(board, { limit: 3 })).toEqual(openers(board, { limit: 3 }))
  })
})

describe('proofsOf', () => {
  it('gives the shortest instance of every technique that concludes the wish, easiest technique first', () => {
    const { candidate } = openers(board, { limit: 1 })[0]!
    const proofs = proofsOf(board, { kind: 'removal', candidate })
    expect(proofs.length).toBeGreaterThan(0)
    const places = proofs.map(({ technique }) => TECHNIQUE_NAMES.indexOf(technique))
    expect(places).toEqual([...new Set(places)].sort((a, b) => a - b))
    for (const proof of proofs) {
      expect(verifyStep(board, proof)).toEqual({ proven: true })
      const rivals = findSteps(board, { techniques: [proof.technique] }).filter(({ removals }) =>
        removals.some(({ cell, digit }) => cell === candidate.cell && digit === candidate.digit),
      )
      for (const rival of rivals) expect(proof.premises.length).toBeLessThanOrEqual(rival.premises.length)
    }
  })

  it('takes a placement for what it is, and for what it removes', () => {
    const start = newBoard(puzzle)
    const [single] = findSteps(start, { preset: 'scan' })
    const { cell, digit } = single!.placements[0]!
    const placed = proofsOf(start, { kind: 'placement', candidate: { cell, digit } }, { preset: 'scan' })
    expect(placed[0]!.placements).toEqual([{ cell, digit }])
    const peer = layoutOf(start.geometry).peersOf[cell]!.find((other) => hasCandidate(start, other, digit))!
    const removed = proofsOf(start, { kind: 'removal', candidate: { cell: peer, digit } }, { preset: 'scan' })
    expect(removed.length).toBeGreaterThan(0)
    expect(proofsOf(start, { kind: 'removal', candidate: { cell, digit } }, { preset: 'scan' })).toEqual([])
  })

  it('tells chains with a common part and two ends as one story', () => {
    const { board: rests } = solve(randomPuzzle(11), { techniques: WORKADAY_TECHNIQUES })
    const chains = findSteps(rests, { techniques: ['xy-chain'] })
    const stories = oneStory(chains)
    expect(stories.length).toBeGreaterThan(0)
    for (const story of stories) {
      expect(verifyStep(rests, story)).toEqual({ proven: true })
      expect(explainStep(story).reasons.map(({ reason }) => reason.kind)).not.toContain('premises-fail')
      const claims = story.removals.map((candidate): Claim => ({ kind: 'removal', candidate }))
      const isConcluded = (step: FoundStep, { candidate }: Claim) =>
        step.removals.some(({ cell, digit }) => cell === candidate.cell && digit === candidate.digit)
      // each of the removals by some chain alone, all of them by none of these
      for (const claim of claims) expect(chains.some((step) => isConcluded(step, claim))).toBe(true)
      const inOne = chains.filter((step) => claims.every((claim) => isConcluded(step, claim)))
      const [proof] = proofsOf(rests, claims, { techniques: ['xy-chain'] })
      expect(proof?.premises.length).toBeLessThanOrEqual(story.premises.length)
      if (inOne.length === 0)
        expect(proof?.pattern.shape === 'chain' && proof.pattern.links.length).toBeGreaterThan(5)
      expect(claims.every((claim) => isConcluded(proof!, claim))).toBe(true)
    }
    expect(
      stories.some((story) => !chains.some((step) => step.removals.length >= story.removals.length)),
    ).toBe(true)
  })

  it('refuses an empty list of wishes', () => {
    expect(() => proofsOf(board, [])).toThrow(expect.objectContaining({ code: 'claim-shape' }))
  })

  it('ends with an error when the time is over', () => {
    expect(() =>
      proofsOf(board, { kind: 'removal', candidate: { cell: 0, digit: 1 } }, { timeLimit: 0 }),
    ).toThrow(expect.objectContaining({ code: 'time-limit' }))
  })
})
