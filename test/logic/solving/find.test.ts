import { describe, expect, it } from 'vitest'
import { contradictionOf } from '../../../src/grid/board/ask.js'
import { applyTo } from '../../../src/grid/board/edit.js'
import { digitsOf } from '../../../src/grid/digits.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { CATALOGUE, techniqueNamed, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { findSteps, stepsOf, stepsOfAsync } from '../../../src/logic/solving/find.js'
import type { Step } from '../../../src/logic/steps/step.js'
import { allSteps, stuckBoards } from '../../support/random-boards.js'

const claims = (step: Step): string[] => [
  ...step.placements.map(({ cell, digit }) => `${cell}=${digit}`),
  ...step.removals.map(({ cell, digit }) => `${cell}-${digit}`),
]
const premises = (step: Step): string =>
  step.premises
    .map((premise) => JSON.stringify(premise))
    .sort()
    .join()

/** Does the other step conclude all this and more, from the same premises? */
const isPartOf = (step: Step, other: Step): boolean => {
  const more = claims(other)
  const own = claims(step)
  return (
    premises(step) === premises(other) && own.length < more.length && own.every((one) => more.includes(one))
  )
}

const chains = CATALOGUE.map(({ name }) => name).filter((name) =>
  /chain$|loop$|wing$|turbot|kite|scraper/.test(name),
)

describe('findSteps', () => {
  const names = [
    'als-xz',
    'als-xy-wing',
    'aligned-triple-exclusion',
    'aligned-pair-exclusion',
    'death-blossom-with-set-stem',
  ] as const
  const boards = stuckBoards(30, techniquesUpTo('mark'))

  it('tells each instance once, however often its technique is named', () => {
    const { board } = boards[0]!
    const once = findSteps(board, { techniques: ['als-xz'] })
    expect(once.length).toBeGreaterThan(0)
    expect(findSteps(board, { techniques: ['als-xz', 'als-xz'] })).toEqual(once)
  })

  it('finds nothing on a board that shows a contradiction', () => {
    const { board } = boards[0]!
    const cell = board.digits.indexOf(0)
    const digits = digitsOf(board.candidates[cell]!)
    const emptied = applyTo(board, { placements: [], removals: digits.map((digit) => ({ cell, digit })) })
    const [peer] = layoutOf(board.geometry).peersOf[cell]!.filter((other) => board.digits[other])
    const twice = applyTo(board, { placements: [{ cell, digit: board.digits[peer!]! }], removals: [] })
    for (const broken of [emptied, twice]) {
      expect(contradictionOf(broken)).toBeDefined()
      expect(findSteps(broken)).toEqual([])
    }
    expect(findSteps(board, { limit: 1 })).toHaveLength(1)
  })

  it('leaves case analysis to those who ask for it, and what is to be avoided', () => {
    const { board } = boards[0]!
    const levels = (steps: readonly Step[]) => new Set(steps.map(({ level }) => level))
    const usual = findSteps(board)
    expect(usual).toEqual(findSteps(board, { preset: 'chain' }))
    expect(levels(usual)).not.toContain('branch')
    expect(levels(findSteps(board, { preset: 'branch' }))).toContain('branch')
    const [first] = usual
    const others = findSteps(board, { avoid: [first!.technique] })
    expect(others).toEqual(usual.filter(({ technique }) => technique !== first!.technique))
  })

  it('tells no longer chain with the conclusion of a shorter one unless asked to', () => {
    const lengths = new Map<string, Set<number>>()
    let longer = 0
    for (const [index, { board }] of boards.slice(0, 12).entries()) {
      for (const { technique, pattern, ...step } of findSteps(board, { techniques: chains })) {
        if (pattern.shape !== 'chain') continue
        const key = `${index} ${technique} ${claims({ ...step, technique, pattern }).sort()}`
        lengths.set(key, (lengths.get(key) ?? new Set()).add(pattern.links.length))
      }
      for (const allLengths of [false, true]) {
        const { length } = findSteps(board, {
          techniques: ['alternating-inference-chain'],
          allLengths,
          maxLinks: 5,
        })
        longer += allLengths ? length : -length
      }
    }
    expect(lengths.size).toBeGreaterThan(100)
    for (const [what, found] of lengths) expect(found.size, what).toBe(1)
    expect(longer).toBeGreaterThan(10)
  })

  it('leaves out what is a part of another instance, and nothing that any instance concludes', () => {
    let left = 0
    for (const { board } of boards) {
      for (const name of names) {
        const reported = findSteps(board, { techniques: [name] })
        const found = allSteps(board, techniqueNamed(name))
        expect(reported.filter((step) => reported.some((other) => isPartOf(step, other)))).toEqual([])
        expect(new Set(reported.flatMap(claims))).toEqual(new Set(found.flatMap(claims)))
        left +=
          new Set(found.map((step) => `${claims(step).sort()} ${premises(step)}`)).size - reported.length
      }
    }
    expect(left).toBeGreaterThan(0)
  })
})

describe('stepsOf', () => {
  const boards = stuckBoards(4, techniquesUpTo('mark'))

  it('hands out what findSteps finds, in its order, at once or in slices', async () => {
    for (const [i, { board }] of boards.entries()) {
      const options = i % 2 === 0 ? {} : { limit: 7, allLengths: true }
      const expected = findSteps(board, options)
      expect(expected.length).toBeGreaterThan(3)
      expect([...stepsOf(board, options)]).toEqual(expected)
      const inSlices: Step[] = []
      for await (const step of stepsOfAsync(board, options)) inSlices.push(step)
      expect(inSlices).toEqual(expected)
    }
  })

  it('goes on where it was, whatever was asked about other boards between', () => {
    const [one, other] = boards.map(({ board }) => board)
    const expected = findSteps(one!)
    const mixed: Step[] = []
    for (const step of stepsOf(one!)) {
      mixed.push(step)
      if (mixed.length % 9 === 0) findSteps(other!, { preset: 'pattern', limit: 2 })
    }
    expect(mixed).toEqual(expected)
  })

  it('stops at its limits and when nobody asks for more', async () => {
    const { board } = boards[0]!
    expect(() => stepsOf(board, { timeLimit: 0 }).next()).toThrow(
      expect.objectContaining({ code: 'time-limit' }),
    )
    const controller = new AbortController()
    const steps = stepsOf(board, { signal: controller.signal })
    expect(steps.next().done).toBe(false)
    controller.abort()
    expect(() => [...steps]).toThrow(expect.objectContaining({ code: 'aborted' }))
    const stream = stepsOfAsync(board, { signal: controller.signal })
    await expect(stream.next()).rejects.toThrow(expect.objectContaining({ code: 'aborted' }))
    const few = stepsOf(board)
    few.next()
    expect(few.return()).toEqual({ done: true, value: undefined })
    expect(few.next().done).toBe(true)
    expect(() => stepsOf(board, { limit: -1 })).toThrow(expect.objectContaining({ code: 'argument' }))
  })
})
