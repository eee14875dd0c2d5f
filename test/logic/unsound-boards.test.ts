import { describe, expect, it } from 'vitest'
import { createSearch } from '../../src/count/engine.js'
import { contradictionOf } from '../../src/grid/board/ask.js'
import type { Board } from '../../src/grid/board.js'
import { digitBit } from '../../src/grid/digits.js'
import { seededRandom } from '../../src/grid/random.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import type { Step } from '../../src/logic/steps/step.js'
import { someBoard } from '../fuzz/boards.js'
import { factsFor } from '../support/facts.js'

// `npm run fuzz -- --only steps` does the same on as many boards as there is time for, with every technique.
const slow = /mutant|franken|forcing|nishio|finned-chain|with-sets|blossom|als-chain|multi-sector|aligned/
const techniques = CATALOGUE.filter(({ name }) => !slow.test(name))

/** How many ways there are to fill the board: 0, 1, or 2 for several. */
function solutionsLeft({ geometry, digits, candidates }: Board): number {
  const search = createSearch(geometry)
  const standing = (cell: number): number => (digits[cell] ? digitBit(digits[cell]!) : candidates[cell]!)
  search.start(digits, [...digits.keys()].map(standing))
  for (let found = 0; found < 2; found++) if (search.next(1_000_000) !== 'solution') return found
  return 2
}

describe('every step found on any board', () => {
  it('is proven, with no solution, one and several', () => {
    const boards = [0, 0, 0]
    let steps = 0
    for (let seed = 1; Math.min(...boards) < 8; seed++) {
      const board = someBoard(seededRandom(seed))
      if (contradictionOf(board)) continue
      const kind = solutionsLeft(board)
      if (boards[kind]! >= 12) continue
      boards[kind]!++
      for (const technique of techniques) {
        let left = 60
        const check = (step: Step): boolean => {
          expect(verifyStep(board, step), `${step.technique}, seed ${seed}`).toEqual({ proven: true })
          steps++
          return --left === 0
        }
        technique.find(factsFor(board), check, { oneSolution: true })
      }
    }
    expect(steps).toBeGreaterThan(1000)
  }, 240_000)
})
