import { describe, expect, it } from 'vitest'
import { hasCandidate } from '../../../src/grid/board/ask.js'
import type { Board } from '../../../src/grid/board.js'
import { digitsOf } from '../../../src/grid/digits.js'
import { layoutOf } from '../../../src/grid/layout.js'
import { randomTransform, transformBoard, transformCandidate } from '../../../src/grid/symmetry.js'
import { techniqueNamed, techniquesUpTo } from '../../../src/logic/catalogue.js'
import type { Step } from '../../../src/logic/steps/step.js'
import type { Technique } from '../../../src/logic/technique.js'
import {
  alignedPairExclusion,
  alignedTripleExclusion,
} from '../../../src/logic/techniques/aligned-exclusion.js'
import {
  alternatingInferenceChain,
  chainWithSets,
  continuousLoop,
  finnedChain,
  groupedChain,
  xChain,
  xyChain,
} from '../../../src/logic/techniques/chains.js'
import { multiColouring, simpleColouring } from '../../../src/logic/techniques/colouring.js'
import { deathBlossom, setStemBlossom } from '../../../src/logic/techniques/death-blossom.js'
import { remotePairs } from '../../../src/logic/techniques/remote-pairs.js'
import { alsChain, alsXyWing, alsXz } from '../../../src/logic/techniques/sets.js'
import { sueDeCoq } from '../../../src/logic/techniques/sue-de-coq.js'
import { wWing, wxyzWing, xyWing, xyzWing } from '../../../src/logic/techniques/wings.js'
import { allSteps, ruledOut, runToRest, stuckBoards } from '../../support/random-boards.js'

// Common practice and theory: what one technique finds, a more general one must find too.

const SEED = 77_000
const boards = stuckBoards(120, techniquesUpTo('mark'), { seed: SEED }).map(({ board }) => board)

/** Steps whose conclusions are not all among those of a more general technique. */
function notFoundBy(general: readonly Technique[], special: readonly Technique[], keep = (_: Step) => true) {
  let looked = 0
  const missed: Step[] = []
  for (const board of boards) {
    const steps = special.flatMap((technique) => allSteps(board, technique)).filter(keep)
    if (steps.length === 0) continue
    looked += steps.length
    const found = ruledOut(
      board,
      general.flatMap((technique) => allSteps(board, technique)),
    )
    for (const step of steps) {
      if ([...ruledOut(board, [step])].some((candidate) => !found.has(candidate))) missed.push(step)
    }
  }
  return { looked, missed }
}

describe('a special technique and a general one', () => {
  it.each([
    ['remote pairs and XY-chains', [xyChain], [remotePairs]],
    ['simple colouring and X-chains', [xChain], [simpleColouring]],
    ['multi-colouring and X-chains', [xChain], [multiColouring]],
    [
      'turbot patterns and X-chains',
      [xChain],
      ['skyscraper', 'two-string-kite', 'turbot-fish'].map(techniqueNamed),
    ],
    ['X-wings and X-chains', [xChain], [techniqueNamed('x-wing')]],
    ['X-chains and alternating chains', [alternatingInferenceChain], [xChain]],
    ['XY-chains and alternating chains', [alternatingInferenceChain], [xyChain]],
    ['XY-chains and chains of sets', [alsXz, alsXyWing, alsChain], [xyChain]],
    ['alternating chains and grouped ones', [groupedChain], [alternatingInferenceChain, wWing]],
    ['loops and grouped chains', [groupedChain], [continuousLoop]],
    ['ALS-XZ and chains with set links', [chainWithSets], [alsXz]],
    ['ALS-XY-wings, ALS chains and chains with set links', [chainWithSets], [alsXyWing, alsChain]],
    ['grouped chains and chains with set links', [chainWithSets], [groupedChain]],
    ['XYZ- and WXYZ-wings, ALS-XZ and chains with fins', [alsXz, finnedChain], [xyzWing, wxyzWing]],
  ] as const)('%s', (_, general, special) => {
    const { looked, missed } = notFoundBy(general, special)
    expect(looked).toBeGreaterThan(0)
    expect(missed).toEqual([])
  })

  it('finned X-wings with fins on one base are grouped chains', () => {
    const oneBase = ({ pattern }: Step) =>
      pattern.shape === 'fish' &&
      pattern.base.some((house) =>
        pattern.fins.every((fin) => layoutOf(boards[0]!.geometry).positionIn(house, fin) >= 0),
      )
    const finned = ['finned-x-wing', 'sashimi-x-wing'].map(techniqueNamed)
    const { looked, missed } = notFoundBy([groupedChain], finned, oneBase)
    expect(looked).toBeGreaterThan(0)
    expect(missed).toEqual([])
  })

  it('grouped chains of two parallel lines are finned X-wings', () => {
    const xWings = ['x-wing', 'finned-x-wing', 'sashimi-x-wing'].map(techniqueNamed)
    let looked = 0
    for (const board of boards) {
      const found = ruledOut(
        board,
        xWings.flatMap((technique) => allSteps(board, technique)),
      )
      for (const { pattern, removals } of allSteps(board, groupedChain, { allLengths: true, maxLinks: 3 })) {
        const [first, weak, second, ...more] = pattern.shape === 'chain' ? pattern.links : []
        if (!first || !weak || !second || more.length > 0) continue
        const houses = [first, weak, second].map(({ by }) =>
          by.kind === 'house' ? layoutOf(board.geometry).houses[by.house]! : undefined,
        )
        const kinds = houses.map((house) => house?.kind).join()
        if (kinds !== 'row,column,row' && kinds !== 'column,row,column') continue
        // two groups in one box meet in the box alone: that is no fish
        if (first.from.cells.length > 1 && second.to.cells.length > 1) continue
        looked++
        for (const { cell, digit } of removals) expect(found.has(`${cell}.${digit}`)).toBe(true)
      }
    }
    expect(looked).toBeGreaterThan(20)
  })

  it('a naked set of a house leaves a hidden set of the rest, and the other way round', () => {
    const named = (kind: string) =>
      ['pair', 'triple', 'quad'].map((size) => techniqueNamed(`${kind}-${size}`))
    const nakedOnes = [techniqueNamed('naked-single'), ...named('naked')]
    const hiddenOnes = [techniqueNamed('hidden-single'), ...named('hidden')]
    let looked = 0
    let counterparts = 0
    for (const board of stuckBoards(60, techniquesUpTo('scan'), { seed: SEED }).map((one) => one.board)) {
      for (const [own, others] of [
        [named('naked'), hiddenOnes],
        [named('hidden'), nakedOnes],
      ] as const) {
        for (const { pattern, removals } of own.flatMap((technique) => allSteps(board, technique))) {
          if (pattern.shape !== 'subset') throw new Error('a subset was expected')
          const { cells } = layoutOf(board.geometry).houses[pattern.house]!
          const open = cells.filter((cell) => board.candidates[cell])
          const rest = open.filter((cell) => !pattern.cells.includes(cell))
          const digitsIn = (some: readonly number[]) =>
            digitsOf(some.reduce((set, cell) => set | board.candidates[cell]!, 0))
          const restDigits = digitsIn(open).filter((digit) => !pattern.digits.includes(digit))
          expect(rest).toHaveLength(restDigits.length)
          looked++
          // naked: the other digits are in none of its cells; hidden: the other cells have none of its digits
          if (pattern.hidden)
            expect(digitsIn(rest).filter((digit) => pattern.digits.includes(digit))).toEqual([])
          else expect(digitsIn(pattern.cells).filter((digit) => restDigits.includes(digit))).toEqual([])
          if (rest.length > 4) continue
          counterparts++
          const after = runToRest(board, others)
          for (const { cell, digit } of removals)
            if (cells.includes(cell)) expect(hasCandidate(after, cell, digit)).toBe(false)
        }
      }
    }
    expect(looked).toBeGreaterThan(200)
    expect(counterparts).toBeGreaterThan(50)
  })

  it('every XY-wing is an XY-chain of the same three cells', () => {
    let wings = 0
    for (const board of boards) {
      const chains = allSteps(board, xyChain, { allLengths: true, maxLinks: 5 })
      for (const wing of allSteps(board, xyWing)) {
        wings++
        const cells = new Set(wing.premises.map((premise) => premise.kind === 'cell' && premise.cell))
        const same = chains.filter(
          ({ premises, removals }) =>
            premises.length === 3 &&
            premises.every((premise) => premise.kind === 'cell' && cells.has(premise.cell)) &&
            wing.removals.every((gone) =>
              removals.some((r) => r.cell === gone.cell && r.digit === gone.digit),
            ),
        )
        expect(same.length, JSON.stringify(wing)).toBeGreaterThan(0)
      }
    }
    expect(wings).toBeGreaterThan(10)
  })
})

describe('lengths', () => {
  it('with a limit, keeps chains to it and finds the short ones still', () => {
    const shapes: string[] = []
    for (const board of boards.slice(0, 30)) {
      const all = allSteps(board, alternatingInferenceChain)
      const short = allSteps(board, alternatingInferenceChain, { maxLinks: 7 })
      for (const { pattern } of short) {
        // a chain that would be explained by a longer one than was found is explained by its premises
        shapes.push(pattern.shape)
        if (pattern.shape === 'chain') expect(pattern.links.length).toBeLessThanOrEqual(8)
        else expect(pattern).toEqual({ shape: 'premises' })
      }
      const limited = all.filter(({ pattern }) => pattern.shape === 'chain' && pattern.links.length <= 7)
      const found = ruledOut(board, short)
      for (const candidate of ruledOut(board, limited)) expect(found.has(candidate)).toBe(true)
    }
    expect(shapes.filter((shape) => shape === 'chain').length).toBeGreaterThan(0.9 * shapes.length)
  })

  it('reports longer chains with the same conclusion when asked for all', () => {
    const lengths = (options: object) =>
      boards.slice(0, 10).flatMap((board) => allSteps(board, xyChain, { maxLinks: 9, ...options })).length
    expect(lengths({ allLengths: true })).toBeGreaterThan(lengths({}))
  })
})

/**
 * Techniques by what shares its conclusions: which of two chains of one length is reported is a matter of order, and a
 * loop tells more than its neighbour; all that is found together may not change.
 */
const families: Record<string, readonly Technique[]> = {
  ...Object.fromEntries(
    [
      ...[xyWing, xyzWing, wxyzWing, wWing, remotePairs, simpleColouring, multiColouring, xChain, xyChain],
      ...[
        alternatingInferenceChain,
        groupedChain,
        continuousLoop,
        chainWithSets,
        alsXz,
        sueDeCoq,
        deathBlossom,
        setStemBlossom,
        alignedPairExclusion,
        alignedTripleExclusion,
      ],
    ].map((technique) => [technique.name, [technique]]),
  ),
  'set chains of any length': [alsXz, alsXyWing, alsChain],
  'chains with and without fins': [chainWithSets, finnedChain],
}

describe('a board and its image', () => {
  it.each(Object.entries(families))('%s', (_, techniques) => {
    const findAll = (on: Board) =>
      ruledOut(
        on,
        techniques.flatMap((technique) => allSteps(on, technique)),
      )
    for (const [i, board] of boards.slice(0, 25).entries()) {
      const transform = randomTransform(board.geometry, SEED + i)
      const image = transformBoard(board, transform)
      const moved = [...findAll(board)].map((name) => {
        const [cell, digit] = name.split('.').map(Number)
        const to = transformCandidate({ cell: cell!, digit: digit! }, transform)
        return `${to.cell}.${to.digit}`
      })
      expect([...findAll(image)].sort()).toEqual(moved.sort())
    }
  })
})
