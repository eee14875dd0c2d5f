import { describe, expect, it } from 'vitest'
import { openCount } from '../../../src/grid/board/ask.js'
import { newBoard } from '../../../src/grid/board/make.js'
import type { Board } from '../../../src/grid/board.js'
import { runNow } from '../../../src/limits.js'
import { techniqueNamed, techniquesUpTo } from '../../../src/logic/catalogue.js'
import { Context } from '../../../src/logic/facts/context.js'
import { findTask } from '../../../src/logic/solving/find.js'
import { conclusionsOf } from '../../../src/logic/steps/identity.js'
import type { TechniqueName } from '../../../src/logic/technique-names.js'
import { randomPuzzle, runToRest } from '../../support/random-boards.js'

const SIMPLE = [
  'hidden-single',
  'naked-single',
  'pointing',
  'claiming',
  'naked-pair',
  'x-wing',
  'xy-wing',
].map(techniqueNamed)
const boards = Array.from({ length: 12 }, (_, i) => runToRest(newBoard(randomPuzzle(51_300 + i)), SIMPLE))
  .filter((board) => openCount(board) > 0)
  .slice(0, 4)
const NAMES = techniquesUpTo('chain')
  .filter(({ level, name }) => level === 'chain' && !/fish|wing$|jelly|multi-sector|exocet|triple/.test(name))
  .map(({ name }) => name)

/** What these techniques conclude on a board. */
function concluded(context: Context, board: Board, names: readonly TechniqueName[]): Set<string> {
  const steps = runNow({}, (watch) => findTask(board, { techniques: names }, watch, context))
  return new Set(steps.flatMap((step) => conclusionsOf(step)))
}

describe('techniques that share a context', () => {
  // of the other board only what one technique needs has been worked out anew
  it.each(['x-chain', 'alternating-inference-chain', 'als-xz'] as const)(
    'conclude the same when %s has been looked for on another board in between',
    (between) => {
      const context = new Context()
      let conclusions = 0
      for (const [i, board] of boards.entries()) {
        const other = boards[(i + 1) % boards.length]!
        for (const name of NAMES) {
          concluded(context, other, NAMES)
          const alone = concluded(context, board, [name])
          concluded(context, board, ['alternating-inference-chain-with-sets', 'aligned-pair-exclusion'])
          concluded(context, other, [between])
          expect(concluded(context, board, [name]), name).toEqual(alone)
          conclusions += alone.size
        }
      }
      expect(conclusions).toBeGreaterThan(100)
    },
    120_000,
  )
})
