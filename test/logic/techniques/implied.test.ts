import { expect, it } from 'vitest'
import { techniquesUpTo } from '../../../src/logic/catalogue.js'
import {
  alternatingInferenceChain,
  continuousLoop,
  groupedChain,
  xChain,
  xyChain,
} from '../../../src/logic/techniques/chains.js'
import { multiColouring, simpleColouring } from '../../../src/logic/techniques/colouring.js'
import { remotePairs } from '../../../src/logic/techniques/remote-pairs.js'
import { alsXz } from '../../../src/logic/techniques/sets.js'
import { wWing, wxyzWing, xyWing, xyzWing } from '../../../src/logic/techniques/wings.js'
import { allSteps, ruledOut, stuckBoards } from '../../support/random-boards.js'
import { boardFormula } from '../../support/sat.js'

const techniques = [
  ...[xyWing, xyzWing, wxyzWing, wWing, remotePairs, simpleColouring, multiColouring],
  ...[xChain, xyChain, alternatingInferenceChain, groupedChain, continuousLoop, alsXz],
]

// The techniques not named here search longer; `chain-techniques.test.ts` has the same check for all on fewer boards.
it('every conclusion of every wing, colouring and plain chain on 500 boards is implied, says a SAT library', () => {
  let conclusions = 0
  for (const { board, seed } of stuckBoards(500, techniquesUpTo('mark'), { seed: 200_000 })) {
    const gone = ruledOut(
      board,
      techniques.flatMap((technique) => allSteps(board, technique)),
    )
    const removals = [...gone].map((name) => {
      const [cell, digit] = name.split('.').map(Number)
      return { cell: cell!, digit: digit! }
    })
    conclusions += removals.length
    if (removals.length === 0) continue
    const formula = boardFormula(board)
    for (const removal of removals) {
      const implied = formula.implies({ placements: [], removals: [removal] })
      expect(implied, `seed ${seed}: r${Math.floor(removal.cell / 9) + 1}c${(removal.cell % 9) + 1}`).toBe(
        true,
      )
    }
  }
  expect(conclusions).toBeGreaterThan(5_000)
}, 600_000)
