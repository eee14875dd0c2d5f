import { describe, expect, it } from 'vitest'
import { newBoard } from '../../../src/grid/board/make.js'
import { techniqueNamed } from '../../../src/logic/catalogue.js'
import { ChainSearch } from '../../../src/logic/chains/chain-search.js'
import { type LinkKinds, linkGraph } from '../../../src/logic/chains/graph.js'
import { refutedIn } from '../../../src/logic/chains/implications.js'
import { factsFor } from '../../support/facts.js'
import { randomPuzzle, runToRest } from '../../support/random-boards.js'

const KINDS: readonly (readonly [string, LinkKinds])[] = [
  ['houses', { houses: true }],
  ['cells', { cells: true }],
  ['cells and houses', { cells: true, houses: true, withinCells: true }],
  ['groups', { cells: true, houses: true, groups: true, withinCells: true }],
  ['sets', { setsOf: 7 }],
  ['all', { cells: true, houses: true, groups: true, setsOf: 7, withinCells: true }],
]

/** Boards where something is left to do, from bare ones to those on which simple techniques find nothing more. */
const boards = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].flatMap((seed) => {
  const start = newBoard(randomPuzzle(41_000 + seed))
  return [
    start,
    ...[
      ['hidden-single', 'naked-single'],
      ['hidden-single', 'naked-single', 'pointing', 'claiming', 'naked-pair', 'x-wing', 'xy-wing'],
    ].map((names) => runToRest(start, names.map(techniqueNamed))),
  ]
})

describe('refuted candidates', () => {
  it.each(KINDS)('are those that a search finds a chain against, and no others: %s', (_, kinds) => {
    let refuted = 0
    let others = 0
    for (const board of boards) {
      const graph = linkGraph(factsFor(board), kinds)
      const search = new ChainSearch(graph)
      const candidates = [...graph.nodes.candidateNode].filter((node) => node >= 0)
      const chained = candidates.filter((node) => search.run(node, graph.nodes.size) > 0)
      expect(refutedIn(graph)).toEqual(chained)
      refuted += chained.length
      others += candidates.length - chained.length
    }
    expect(refuted).toBeGreaterThan(5)
    expect(others).toBeGreaterThan(100)
  })
})
