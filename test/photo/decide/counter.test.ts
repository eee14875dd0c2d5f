import { expect, it } from 'vitest'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { solutionCounter } from '../../../src/photo/decide/counter.js'
import { seededRandom, somePuzzle } from '../../count/puzzles.js'
import { PRINTED } from '../evidence.js'

it('counts up to two solutions', () => {
  const count = solutionCounter(STANDARD)
  expect(count(PRINTED)).toBe(1)
  expect(count(new Array(81).fill(0))).toBe(2)
  expect(count(new Array(81).fill(0).with(0, 1).with(1, 1))).toBe(0)
})

it('gives up on a grid that takes too long, and on nothing else', () => {
  const geometry = boxedGeometry(4, 4)
  const count = solutionCounter(geometry)
  // few givens, one of them wrong in a way that only a long search shows
  expect(count(somePuzzle(seededRandom(3), 0.25, 1, geometry))).toBeUndefined()
  expect(() => count([1, 2, 3])).toThrow(expect.objectContaining({ code: 'argument' }))
})
