import fc from 'fast-check'
import { expect, it } from 'vitest'
import { CheapestFirst } from '../../../src/photo/decide/heap.js'

it('gives back the cheapest of what is in it, whatever came in between', () => {
  fc.assert(
    // a number goes in, undefined takes one out
    fc.property(fc.array(fc.option(fc.nat(20), { nil: undefined }), { maxLength: 60 }), (moves) => {
      const heap = new CheapestFirst<{ cost: number }>()
      const held: number[] = []
      for (const move of moves) {
        if (move === undefined) {
          held.sort((a, b) => a - b)
          expect(heap.pop()?.cost).toBe(held.shift())
        } else {
          heap.push({ cost: move })
          held.push(move)
        }
      }
      const rest = held.sort((a, b) => a - b)
      expect(rest.map(() => heap.pop()?.cost)).toEqual(rest)
      expect(heap.pop()).toBeUndefined()
    }),
    { seed: 8_231, numRuns: 300 },
  )
})
