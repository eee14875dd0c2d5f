import { describe, expect, it } from 'vitest'
import type { Board, Candidate } from '../../src/grid/board.js'
import { randomTransform, transformBoard, transformCandidate } from '../../src/grid/symmetry.js'
import { CATALOGUE, techniquesUpTo } from '../../src/logic/catalogue.js'
import { findSteps } from '../../src/logic/solving/find.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { samplesOf } from '../support/confirm.js'
import { randomPuzzle, ruledOut, runToRest } from '../support/random-boards.js'

/** Puzzles whose boards have nearly every technique; see confirmed.test.ts. */
const SEEDS = [610_000, 610_001, 610_002, 610_008, 610_013, 610_014, 610_024, 610_032]
const RARE = [612_553, 610_029, 610_039, 610_105, 610_245]

/**
 * Techniques that share their conclusions. Of two chains of one length, or two houses that cover a fish as well, it is
 * a matter of order which is reported, and the one says more or goes by another name; what all of a family find may not
 * change.
 */
const FAMILIES = [
  /^als-/,
  /^(finned-chain|alternating-inference-chain-with-sets)$/,
  /(franken|mutant)-x-wing$/,
  /(franken|mutant)-swordfish$/,
  /(franken|mutant)-jellyfish$/,
  /forcing|nishio/,
]

function families(): TechniqueName[][] {
  const found: TechniqueName[][] = []
  for (const { name } of CATALOGUE) {
    const pattern = FAMILIES.find((one) => one.test(name))
    const known = pattern && found.find(([first]) => pattern.test(first!))
    if (known) known.push(name)
    else found.push([name])
  }
  return found
}

/**
 * Puzzles on whose boards candidates that a single link is against (locked ones) lie in the way of longer chains, or
 * digits are shown by one of several equally short chains: which of them is reported may not be a matter of order.
 */
const TANGLED = [910_004, 910_006, 910_025, 910_029, 910_030, 910_036, 917_014]

/**
 * Puzzles on whose boards some of the shortest loops through a link need less than the whole ring, and others do not.
 */
const LOOPED = [931_014, 931_422, 931_604, 931_815, 931_847]

const boards = [...SEEDS, ...RARE, ...TANGLED, ...LOOPED].flatMap((seed) =>
  samplesOf(randomPuzzle(seed), `seed ${seed}`, 2).map(({ board }, i) => ({ board, seed: seed + i })),
)
const atRest = boards.map(({ board, seed }) => ({ board: runToRest(board, techniquesUpTo('mark')), seed }))

/** All that steps eliminate, and all digits that they place. */
function conclusions(
  board: Board,
  steps: readonly FoundStep[],
  move = (one: Candidate): Candidate => one,
): string[] {
  const gone = [...ruledOut(board, steps)].map((name) => {
    const [cell, digit] = name.split('.').map(Number)
    return { sign: '-', candidate: { cell: cell!, digit: digit! } }
  })
  const placed = steps.flatMap(({ placements }) => placements.map((candidate) => ({ sign: '+', candidate })))
  return [
    ...new Set(
      [...gone, ...placed].map(({ sign, candidate }) => {
        const { cell, digit } = move(candidate)
        return `${sign}${cell}.${digit}`
      }),
    ),
  ].sort()
}

describe('a board and its image under relabelling, turns, mirrors, and swaps of bands, stacks and lines', () => {
  it.each(families().map((names) => ({ name: names.join(', '), names })))(
    '$name',
    ({ names }) => {
      const isEasy = names.every((name) =>
        ['scan', 'mark'].includes(CATALOGUE.find((technique) => technique.name === name)!.level),
      )
      for (const { board, seed } of isEasy ? boards : [...boards, ...atRest]) {
        const transform = randomTransform(board.geometry, seed)
        const image = transformBoard(board, transform)
        const moved = conclusions(board, findSteps(board, { techniques: names }), (candidate) =>
          transformCandidate(candidate, transform),
        )
        expect(conclusions(image, findSteps(image, { techniques: names })), `seed ${seed}`).toEqual(moved)
      }
    },
    120_000,
  )
})
