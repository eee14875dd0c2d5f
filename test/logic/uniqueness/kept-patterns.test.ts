import { describe, expect, it } from 'vitest'
import { applyTo } from '../../../src/grid/board/edit.js'
import type { Board, Conclusion } from '../../../src/grid/board.js'
import { digitSet } from '../../../src/grid/digits.js'
import { Context } from '../../../src/logic/facts/context.js'
import { type Facts, factsOf, moveFacts } from '../../../src/logic/facts/facts.js'
import type { Step } from '../../../src/logic/steps/step.js'
import { addPattern, type KeptPattern, reportKept } from '../../../src/logic/uniqueness/kept-patterns.js'
import { boardWithMarks } from '../../support/boards.js'
import { freshFacts } from '../../support/facts.js'
import { said } from '../../support/said.js'
import { at } from '../../support/steps.js'

const CORNERS = ['r1c1', 'r1c4', 'r2c1', 'r2c4'].map((name) => at(name))
const LOW = digitSet([1, 2])

function keptOn(board: Board, cells: readonly number[] = CORNERS): KeptPattern[] {
  const patterns: KeptPattern[] = []
  addPattern(board, cells, LOW, patterns)
  return patterns
}

function reported(
  facts: Facts,
  patterns: readonly KeptPattern[],
  most = 100,
): { steps: Step[]; ended: boolean } {
  const steps: Step[] = []
  const ended = reportKept(facts, 'hidden-rectangle', patterns, (step) => {
    steps.push(step)
    return steps.length === most
  })
  return { steps, ended }
}

describe('a pattern to keep', () => {
  it('has its extras, and the houses of its cells, each once', () => {
    const [kept, ...more] = keptOn(boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '123' }))
    expect(more).toEqual([])
    expect(kept!.pattern).toEqual({
      cells: CORNERS,
      allowed: [LOW, LOW, LOW, LOW],
      extras: [{ cell: at('r2c4'), digit: 3 }],
    })
    // rows 1 and 2, columns 1 and 4, boxes 1 and 2
    expect([...kept!.around].sort((a, b) => a - b)).toEqual([0, 1, 9, 12, 18, 19])
  })

  it('is none without extras', () => {
    expect(keptOn(boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '12' }))).toEqual([])
  })
})

describe('what is reported of kept patterns', () => {
  const board = applyTo(boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '123', r2c4: '124', r2c8: '34' }), {
    placements: [],
    removals: [2, 3, 5, 6, 7, 8, 9].map((column) => ({ cell: at(`r2c${column}`), digit: 1 })),
  })

  it('is all that follows, or up to where it is enough', () => {
    const patterns = keptOn(board)
    const facts = freshFacts(board)
    const all = reported(facts, patterns)
    expect(all.ended).toBe(false)
    expect(all.steps.map((step) => said(step))).toContain('r2c1-2 r2c4-2')
    expect(all.steps.length).toBeGreaterThan(1)
    expect(all.steps.every(({ technique }) => technique === 'hidden-rectangle')).toBe(true)
    const one = reported(facts, patterns, 1)
    expect(one).toEqual({ steps: all.steps.slice(0, 1), ended: true })
    expect(reported(facts, [])).toEqual({ steps: [], ended: false })
  })

  it('is worked out anew only when something has changed in its houses', () => {
    const patterns = keptOn(board)
    const context = new Context()
    const on = (board: Board) => factsOf(context, board)
    const before = reported(on(board), patterns).steps
    expect(reported(on(board), patterns).steps[0]).toBe(before[0])
    const go = (from: Board, conclusion: Conclusion) => {
      const to = applyTo(from, conclusion)
      moveFacts(context, from, to, conclusion)
      return to
    }
    const elsewhere = go(board, { placements: [], removals: [{ cell: at('r5c5'), digit: 9 }] })
    expect(reported(on(elsewhere), patterns).steps[0]).toBe(before[0])
    const near = go(elsewhere, before.find((step) => said(step) !== 'r2c1-2 r2c4-2')!)
    const after = reported(on(near), patterns).steps
    expect(after.map((step) => said(step))).toEqual(['r2c1-2 r2c4-2'])
  })
})
