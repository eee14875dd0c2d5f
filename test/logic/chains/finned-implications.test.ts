import { describe, expect, it } from 'vitest'
import { newBoard } from '../../../src/grid/board/make.js'
import { runNow } from '../../../src/limits.js'
import { techniqueNamed } from '../../../src/logic/catalogue.js'
import { ChainSearch } from '../../../src/logic/chains/chain-search.js'
import { FinnedLinks } from '../../../src/logic/chains/finned-links.js'
import { linkGraph } from '../../../src/logic/chains/graph.js'
import { refutedWithFins } from '../../../src/logic/chains/implications.js'
import { LARGEST_SET } from '../../../src/logic/sets/almost-locked.js'
import { factsFor } from '../../support/facts.js'
import { randomPuzzle, runToRest } from '../../support/random-boards.js'

const KINDS = { cells: true, houses: true, groups: true, setsOf: LARGEST_SET, withinCells: true }

const SIMPLE = ['hidden-single', 'naked-single', 'pointing', 'claiming', 'naked-pair', 'x-wing'].map(
  techniqueNamed,
)
const boards = Array.from({ length: 12 }, (_, i) => runToRest(newBoard(randomPuzzle(47_100 + i)), SIMPLE))

describe('candidates refuted with fins', () => {
  it('are those that a search finds a chain against, with fins or without, and no others', () => {
    let byFinsAlone = 0
    let others = 0
    for (const board of boards) {
      const graph = linkGraph(factsFor(board), KINDS)
      const links = () => runNow({}, (watch) => FinnedLinks.of(graph, watch))
      const refuted = new Set(refutedWithFins(graph, links()))
      const finned = new ChainSearch(graph, links())
      const plain = new ChainSearch(graph)
      const most = graph.nodes.size
      for (let node = 0; node < graph.nodes.candidates; node++) {
        const isPlain = plain.run(node, most) > 0
        const isChained = isPlain || finned.run(node, most) > 0
        expect(refuted.has(node)).toBe(isChained)
        if (!isChained) others++
        else if (!isPlain) byFinsAlone++
      }
    }
    expect(byFinsAlone).toBeGreaterThan(20)
    expect(others).toBeGreaterThan(100)
  })
})
