import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../../src/grid/random.js'
import { ComponentLists, componentsOf } from '../../../src/logic/chains/components.js'

/** Which nodes each node leads to, itself among them: by following everything. */
function reachable(edges: readonly (readonly number[])[]): Set<number>[] {
  return edges.map((_, start) => {
    const met = new Set([start])
    for (const node of met) for (const next of edges[node]!) met.add(next)
    return met
  })
}

describe('components', () => {
  const random = seededRandom(8)
  const below = (n: number) => Math.floor(random() * n)

  it('join just the nodes that lead to each other, and lead to smaller numbers only', () => {
    const lists = new ComponentLists()
    let joined = 0
    for (let round = 0; round < 200; round++) {
      const size = 1 + below(12)
      const edges = Array.from({ length: size }, () => Array.from({ length: below(4) }, () => below(size)))
      const from = [0, ...edges.map((_, i) => edges.slice(0, i + 1).flat().length)]
      const found = componentsOf(size, from, edges.flat(), lists)
      const { count } = found
      // the lists serve again and again, so more may be left in them
      const of = found.of.slice(0, size)
      const nodes = found.nodes.slice(0, size)
      const reach = reachable(edges)
      for (let a = 0; a < size; a++)
        for (let b = 0; b < size; b++) {
          const together = reach[a]!.has(b) && reach[b]!.has(a)
          expect(of[a] === of[b]).toBe(together)
          if (reach[a]!.has(b)) expect(of[b]).toBeLessThanOrEqual(of[a]!)
          if (together && a !== b) joined++
        }
      expect(new Set(of).size).toBe(count)
      expect([...nodes].map((node) => of[node])).toEqual([...of].sort((a, b) => a - b))
      expect([...nodes].sort((a, b) => a - b)).toEqual([...edges.keys()])
    }
    expect(joined).toBeGreaterThan(100)
  })
})
