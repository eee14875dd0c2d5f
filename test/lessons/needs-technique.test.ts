import { describe, expect, it } from 'vitest'
import { needsTechnique, needsTechniqueAsync } from '../../src/lessons/needs-technique.js'
import { solve } from '../../src/logic/solving/solve.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { WORKADAY_TECHNIQUES } from '../../src/route/workaday.js'
import { PUZZLES } from '../support/puzzles.js'
import { randomPuzzle } from '../support/random-boards.js'

const HARD = Array.from({ length: 24 }, (_, i) => randomPuzzle(i + 1))

describe('needsTechnique', () => {
  it('asks for a puzzle that is solved with the technique and not without', () => {
    const seen = new Set<boolean>()
    for (const puzzle of HARD)
      for (const technique of ['xy-chain', 'xy-wing'] as const) {
        const without = solve(puzzle, { techniques: WORKADAY_TECHNIQUES }).status === 'solved'
        const both = solve(puzzle, { techniques: [...WORKADAY_TECHNIQUES, technique] }).status === 'solved'
        const needs = needsTechnique(puzzle, technique)
        expect(needs).toBe(both && !without)
        seen.add(needs)
      }
    expect(seen.size).toBe(2)
  })

  it('takes a level for all its techniques, the new one apart', () => {
    const upToChain = TECHNIQUE_NAMES.slice(0, TECHNIQUE_NAMES.indexOf('cell-forcing-chain'))
    for (const puzzle of HARD.slice(0, 8)) {
      const known = upToChain.filter((name) => name !== 'xy-chain')
      expect(needsTechnique(puzzle, 'xy-chain', { known: 'chain' })).toBe(
        needsTechnique(puzzle, 'xy-chain', { known }),
      )
    }
  })

  it('knows the everyday techniques that are easier when nothing is said', () => {
    expect(needsTechnique(PUZZLES.nakedPair, 'naked-pair')).toBe(
      needsTechnique(PUZZLES.nakedPair, 'naked-pair', {
        known: ['full-house', 'hidden-single', 'naked-single', 'pointing', 'claiming'],
      }),
    )
    expect(needsTechnique(PUZZLES.singles, 'xy-chain')).toBe(false)
  })

  it('keeps its limits and gives the same as a promise', async () => {
    const [puzzle] = HARD
    expect(await needsTechniqueAsync(puzzle!, 'xy-chain')).toBe(needsTechnique(puzzle!, 'xy-chain'))
    expect(() => needsTechnique(puzzle!, 'xy-chain', { timeLimit: 0 })).toThrow(
      expect.objectContaining({ code: 'time-limit' }),
    )
    expect(() => needsTechnique(puzzle!, 'xychain' as never)).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
  })
})
