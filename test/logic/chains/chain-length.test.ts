import { describe, expect, it } from 'vitest'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import { isWithinLength } from '../../../src/logic/chains/chain-length.js'
import { findSteps } from '../../../src/logic/solving/find.js'
import { solve } from '../../../src/logic/solving/solve.js'
import { identityOf } from '../../../src/logic/steps/identity.js'
import type { Step } from '../../../src/logic/steps/step.js'
import { boardWithMarks } from '../../support/boards.js'
import { stuckBoards } from '../../support/random-boards.js'

const boards = stuckBoards(12, techniquesUpTo('mark'), { seed: 91_000 }).map(({ board }) => board)
const techniques = techniquesUpTo('chain')
  .map(({ name }) => name)
  .filter((name) => !/mutant|franken|multi-sector/.test(name))

/** Strong links of what is explained as a chain, sets of what is explained as sets in a row. */
function strongLinks({ pattern, technique }: Step): number {
  if (pattern.shape === 'chain') return pattern.links.filter(({ kind }) => kind === 'strong').length
  return pattern.shape === 'sets' && technique.startsWith('als-') ? pattern.sets.length : 0
}

describe('the longest chain asked for', () => {
  it.each([1, 3, 5, 6, 9])('%i links: nothing longer is reported, by any technique', (maxLinks) => {
    let chains = 0
    for (const board of boards) {
      for (const step of findSteps(board, { techniques, maxLinks })) {
        if (strongLinks(step) > 0) chains++
        expect(2 * strongLinks(step) - 1, step.technique).toBeLessThanOrEqual(maxLinks)
      }
    }
    if (maxLinks > 1) expect(chains).toBeGreaterThan(0)
  })

  it('hides no pattern that is as long or shorter', () => {
    const quick = techniques.filter((name) => /wing|kite|skyscraper|turbot|empty|remote/.test(name))
    for (const board of boards) {
      const all = findSteps(board, { techniques: quick }).filter((step) => isWithinLength(step, 5))
      const limited = findSteps(board, { techniques: quick, maxLinks: 5 })
      const known = new Set(all.map(identityOf))
      // a chain that its premises explain by a longer one than was found is then explained by these premises alone
      const [same, more] = [true, false].map((is) =>
        limited.filter((step) => known.has(identityOf(step)) === is),
      )
      expect(same!.map(identityOf)).toEqual(all.map(identityOf))
      for (const { pattern } of more!) expect(pattern).toEqual({ shape: 'premises' })
    }
  })

  it('holds on a whole path', () => {
    for (const board of boards) {
      const { steps } = solve(board, { preset: 'chain', maxLinks: 5 })
      for (const step of steps) expect(strongLinks(step)).toBeLessThanOrEqual(3)
    }
  })
})

describe('remote pairs of all lengths', () => {
  // r1c1 - r1c5 - r5c5 - r5c9 is the shortest way; by r5c1's neighbour there is a longer one to the same end
  const pair = { r1c1: '12', r1c5: '12', r5c5: '12', r5c9: '12', r4c4: '12', r4c8: '12' }
  const board = boardWithMarks(pair)

  it('are reported by their shortest way, unless all are asked for', () => {
    const remote = (options: object) => findSteps(board, { techniques: ['remote-pairs'], ...options })
    const [short, all] = [remote({}), remote({ allLengths: true, maxLinks: 11 })]
    const identities = new Set(all.map(identityOf))
    expect(short.length).toBeGreaterThan(0)
    for (const step of short) expect(identities.has(identityOf(step))).toBe(true)
    expect(Math.max(...all.map(strongLinks))).toBeGreaterThan(Math.max(...short.map(strongLinks)))
  })
})
