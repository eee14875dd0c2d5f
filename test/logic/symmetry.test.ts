import { describe, expect, it } from 'vitest'
import type { Board } from '../../src/grid/board.js'
import { randomTransform, transformBoard, transformCandidate } from '../../src/grid/symmetry.js'
import { CATALOGUE, techniquesUpTo } from '../../src/logic/catalogue.js'
import { findSteps } from '../../src/logic/find.js'
import { samplesOf } from '../support/confirm.js'
import { randomPuzzle, ruledOut, runToRest } from '../support/random-boards.js'

/** Puzzles whose boards have nearly every technique; see confirmed.test.ts. */
const SEEDS = [610_000, 610_001, 610_002, 610_008, 610_013, 610_014, 610_024, 610_032]
const RARE = [612_553, 610_029, 610_039, 610_105, 610_245]

/**
 * Techniques that share their conclusions. Of two chains of one length, or two houses that cover a fish as well, it is a matter
 * of order which is told, and the one tells more or goes by another name; what all of a family find may not change.
 */
const FAMILIES = [
  /^als-/,
  /^(finned-chain|alternating-inference-chain-with-sets)$/,
  /(franken|mutant)-x-wing$/,
  /(franken|mutant)-swordfish$/,
  /(franken|mutant)-jellyfish$/,
  /forcing|nishio/,
]

function families(): string[][] {
  const found: string[][] = []
  for (const { name } of CATALOGUE) {
    const pattern = FAMILIES.find((one) => one.test(name))
    const known = pattern && found.find(([first]) => pattern.test(first!))
    if (known) known.push(name)
    else found.push([name])
  }
  return found
}

const boards = [...SEEDS, ...RARE].flatMap((seed) =>
  samplesOf(randomPuzzle(seed), `seed ${seed}`, 2).map(({ board }, i) => ({ board, seed: seed + i })),
)
// A chain as short as a locked candidate is not told as one, but may be told along with another: with subsets and locked
// candidates out of the way there are none.
const atRest = boards.map(({ board, seed }) => ({ board: runToRest(board, techniquesUpTo('mark')), seed }))

describe('a board and its image under relabelling, turns, mirrors, and swaps of bands, stacks and lines', () => {
  it.each(families().map((names) => ({ name: names.join(', '), names })))(
    '$name',
    ({ names }) => {
      const isEasy = names.every((name) =>
        ['scan', 'mark'].includes(CATALOGUE.find((technique) => technique.name === name)!.level),
      )
      for (const { board, seed } of isEasy ? boards : atRest) {
        const transform = randomTransform(board.geometry, seed)
        const findAll = (on: Board) => ruledOut(on, findSteps(on, { techniques: names }))
        const moved = [...findAll(board)].map((name) => {
          const [cell, digit] = name.split('.').map(Number)
          const to = transformCandidate({ cell: cell!, digit: digit! }, transform)
          return `${to.cell}.${to.digit}`
        })
        expect([...findAll(transformBoard(board, transform))].sort(), `seed ${seed}`).toEqual(moved.sort())
      }
    },
    60_000,
  )
})
