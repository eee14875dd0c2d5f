import { describe, expect, it } from 'vitest'
import { looksFor } from '../../src/grade/ease.js'
import { stepEffort } from '../../src/grade/effort.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { boardOf, boardWithMarks } from '../support/boards.js'
import { PUZZLES } from '../support/puzzles.js'
import { at, stepOn, xyWingStep } from '../support/steps.js'

const singles = {
  kind: 'singles',
  order: 9,
  openCells: 48,
  inBoxes: 0,
  inLines: 0,
  lastCandidates: 0,
} as const
const pair = { kind: 'steps', marks: 160, level: 'mark', pieces: 2, removable: 2 } as const

describe('looksFor', () => {
  it('is what its formula says, worked out by hand', () => {
    expect(looksFor({ ...singles, inBoxes: 1 })).toBe(48)
    expect(looksFor({ ...singles, inBoxes: 16 })).toBeCloseTo(6, 9) // 16^¾ = 8
    expect(looksFor({ ...singles, inLines: 1 })).toBeCloseTo(95.4, 1) // 0.4^¾ = 0.503
    expect(looksFor({ ...singles, lastCandidates: 1 })).toBeCloseTo(272.45, 2) // (8/81)^¾ = 0.176
    expect(looksFor({ ...singles, inBoxes: 14, inLines: 5 })).toBeCloseTo(6, 9) // 14 + 5 × 0.4 = 16
    expect(looksFor(pair)).toBe(480) // 160 × 3
    expect(looksFor({ ...pair, level: 'pattern' })).toBe(1440) // 160 × 9
    expect(looksFor({ ...pair, level: 'chain', pieces: 4 })).toBeCloseTo(5137.4, 1) // 160 × 27 × 2^¼
    expect(looksFor({ ...pair, pieces: 1, removable: 16 })).toBe(240) // (1/16)^¼ = ½
  })

  it('falls with every further step that is open, and rises with what has to be looked over', () => {
    for (const more of ['inBoxes', 'inLines', 'lastCandidates'] as const) {
      const some = { ...singles, inLines: 2 }
      expect(looksFor({ ...some, [more]: some[more] + 1 })).toBeLessThan(looksFor(some))
    }
    expect(looksFor({ ...singles, openCells: 49, inLines: 1 })).toBeGreaterThan(
      looksFor({ ...singles, inLines: 1 }),
    )
    expect(looksFor({ ...pair, marks: 161 })).toBeGreaterThan(looksFor(pair))
    expect(looksFor({ ...pair, pieces: 3 })).toBeGreaterThan(looksFor(pair))
    expect(looksFor({ ...pair, removable: 3 })).toBeLessThan(looksFor(pair))
  })
})

describe('stepEffort', () => {
  it('takes a single for the only one on its board', () => {
    const board = boardOf('.23456789'.padEnd(81, '.'))
    const by = (technique: 'full-house' | 'hidden-single' | 'naked-single') =>
      findSteps(board, { techniques: [technique] }).map((step) => stepEffort(step))
    expect(by('full-house')).toEqual([73])
    expect(by('naked-single')).toHaveLength(1)
    expect(by('naked-single')[0]).toBeCloseTo(73 / (8 / 81) ** 0.75, 9)
    const inRow = boardOf(`${'1.3456.89'}${'.'.repeat(36)}${'......2..'}${'.'.repeat(27)}`)
    const hidden = findSteps(inRow, { techniques: ['hidden-single'] }).find(
      ({ pattern }) => pattern.shape === 'single' && pattern.house === 0,
    )!
    expect(stepEffort(hidden)).toBeCloseTo(73 / 0.4 ** 0.75, 9)
  })

  it('looks over all marks for other steps', () => {
    const step = xyWingStep() // 78 cells with nine marks and three with two; three cells, one removal
    expect(stepEffort(step)).toBeCloseTo((78 * 9 + 3 * 2) * 9 * 3 ** 0.25, 9)
    const four = { ...step, removals: [1, 2, 4, 5].map((digit) => ({ cell: at('r5c5'), digit })) }
    expect(stepEffort(four)).toBeCloseTo((78 * 9 + 3 * 2) * 9 * (3 / 4) ** 0.25, 9)
  })

  it('counts the strong links of a chain', () => {
    const chains = solve(PUZZLES.chain).steps.filter(({ technique }) => technique === 'xy-chain')
    for (const step of findSteps(solve(PUZZLES.chain, { preset: 'pattern' }).board, {
      techniques: ['xy-chain', 'alternating-inference-chain'],
    }).concat(chains)) {
      if (step.pattern.shape !== 'chain') continue
      const strong = step.pattern.links.filter(({ kind }) => kind === 'strong').length
      const marks = step.before.candidates.reduce(
        (sum, set) => sum + set.toString(2).replaceAll('0', '').length,
        0,
      )
      const concluded = step.placements.length + step.removals.length
      expect(stepEffort(step)).toBeCloseTo(marks * 27 * (strong / concluded) ** 0.25, 9)
    }
  })

  it('is finite for a step that concludes nothing', () => {
    expect(stepEffort(stepOn(boardWithMarks({}), { shape: 'premises' }))).toBeLessThan(1e6)
  })

  it('costs less for a naked pair than for an X-wing, an XY-chain, and chains of almost locked sets', () => {
    const names = ['naked-pair', 'x-wing', 'xy-chain', 'als-chain'] as const
    expect([...names].sort((a, b) => TECHNIQUE_NAMES.indexOf(a) - TECHNIQUE_NAMES.indexOf(b))).toEqual(names)
    const board = boardWithMarks({})
    const levels = ['mark', 'pattern', 'chain', 'chain'] as const
    const efforts = names.map((technique, i) =>
      stepEffort(
        stepOn(
          board,
          { shape: 'premises' },
          { technique, level: levels[i]!, removals: [{ cell: 0, digit: 1 }] },
        ),
      ),
    )
    expect(efforts).toEqual([...efforts].sort((a, b) => a - b))
    expect(new Set(efforts).size).toBe(4)
  })
})
