import { describe, expect, it } from 'vitest'
import { explainStep } from '../../src/explain/explain-step.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { openCount } from '../../src/grid/board/ask.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import { faultsHeard, hear, strays } from '../support/heard.js'
import { randomPuzzle } from '../support/random-boards.js'
import { untruths } from '../support/untruths.js'

/**
 * Nothing that is said about a step may be false: every fact and every reason of many steps is held against the
 * solution. The puzzles come from these seeds.
 */
const CHAINS = /chain|continuous|^als-|^w-wing|kite|skyscraper|turbot|remote/

const SEEDS = Array.from({ length: 24 }, (_, i) => 2000 + i)

/** What can be heard: a reason for every removal, nothing that is not in the step, and no fault of grammar. */
function listen(step: FoundStep): void {
  for (const wording of [ENGLISH, GERMAN]) {
    const heard = hear(step, wording)
    expect(heard.withoutReason).toBe(0)
    expect(heard.fallbacks).toBe(0)
    expect(strays(step, heard)).toEqual({ strange: [], unnamed: [] })
    expect(faultsHeard(step, wording, heard)).toEqual([])
  }
}

function checkStep(step: FoundStep, solution: ArrayLike<number>): void {
  listen(step)
  const { reasons, sentences } = explainStep(step)
  try {
    expect(untruths(step, solution)).toEqual([])
    expect(reasons).toHaveLength(step.placements.length + step.removals.length)
    for (const sentence of [...sentences, ...reasons.map((why) => why.sentence)]) {
      expect(sentence).toMatch(/^[A-Zr0-9].*\.$/)
      expect(sentence).not.toMatch(/undefined|NaN|\[object|\. \.|,,|: \./)
    }
  } catch (error) {
    throw new Error(`${step.technique}: ${sentences.join(' ')}\n${String(error)}`)
  }
}

describe('what is said about steps is true', () => {
  it.each(SEEDS)('on every step of the path of puzzle %i', (seed) => {
    const puzzle = randomPuzzle(seed)
    const path = solve(puzzle)
    expect(path.status).toBe('solved')
    for (const step of path.steps) checkStep(step, path.board.digits)
  })

  // Rarer patterns, each after the easy steps of a puzzle that has it.
  it.each([
    ['junior-exocet', 343],
    ['multi-sector-locked-set', 14],
    ['aligned-triple-exclusion', 1],
    ['death-blossom-with-set-stem', 1],
  ] as const)('on every %s of puzzle %i', (technique, seed) => {
    const puzzle = randomPuzzle(seed)
    const { board } = solve(puzzle, { preset: 'mark' })
    const steps = findSteps(board, { techniques: [technique] })
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) checkStep(step, solve(puzzle).board.digits)
  })

  it('on every step that can be found half way', () => {
    const kinds = new Set<string>()
    for (const seed of SEEDS.slice(0, 12)) {
      const puzzle = randomPuzzle(seed)
      const { board } = solve(puzzle, { preset: 'mark' })
      if (openCount(board) === 0) continue
      const solution = solve(puzzle).board.digits
      for (const step of findSteps(board, { preset: 'chain' })) {
        kinds.add(step.technique)
        checkStep(step, solution)
        // what is explained as a chain gives its reason as a chain, not as any premises would
        if (!CHAINS.test(step.technique) || step.pattern.shape === 'premises') continue
        const said = explainStep(step).reasons.map(({ reason }) => reason.kind)
        expect(said.filter((kind) => kind === 'premises-fail' || kind === 'leads-nowhere')).toEqual([])
      }
    }
    expect(kinds.size).toBeGreaterThan(12)
  })
})
