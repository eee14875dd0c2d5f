import { describe, expect, it } from 'vitest'
import { contradictionOf } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { digitsOf } from '../../src/grid/digits.js'
import { layoutOf } from '../../src/grid/layout.js'
import { CATALOGUE, techniqueNamed, techniquesUpTo } from '../../src/logic/catalogue.js'
import { findSteps } from '../../src/logic/find.js'
import type { Step } from '../../src/logic/step.js'
import { allSteps, stuckBoards } from '../support/random-boards.js'

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
        const told = findSteps(board, { techniques: [name] })
        const found = allSteps(board, techniqueNamed(name))
        expect(told.filter((step) => told.some((other) => isPartOf(step, other)))).toEqual([])
        expect(new Set(told.flatMap(claims))).toEqual(new Set(found.flatMap(claims)))
        left += new Set(found.map((step) => `${claims(step).sort()} ${premises(step)}`)).size - told.length
      }
    }
    expect(left).toBeGreaterThan(0)
  })
})
