import type { Lattice } from '../../src/photo/lattice.js'
import type { Evidence } from '../../src/photo/reading.js'

/** The example printed in Project Euler, problem 96 (grid 01; from memory, one solution as counted in these tests). */
export const PRINTED = [
  ...'003020600900305001001806400008102900700000008006708200002609500800203009005010300',
].map(Number)

/** A straight lattice of 50-pixel cells. */
export function straightLattice(order = 9): Lattice {
  const points = Array.from({ length: (order + 1) ** 2 }, (_, i) => ({
    x: 10 + 50 * (i % (order + 1)),
    y: 20 + 50 * Math.floor(i / (order + 1)),
  }))
  return { order, points, cut: false, support: 0.95 }
}

/** Scores of a reader that is sure of each digit; `doubts` gives other digits of a cell their probability. */
export function sureEvidence(
  digits: readonly number[],
  doubts: Readonly<Record<number, Readonly<Record<number, number>>>> = {},
): Evidence {
  return {
    scores: digits.map((digit, cell) => {
      const rivals = doubts[cell] ?? {}
      const taken = Object.values(rivals).reduce((sum, p) => sum + p, 0)
      return Array.from({ length: 10 }, (_, d) => rivals[d] ?? (d === digit ? 1 - taken : 0))
    }),
    handwritten: digits.map(() => 0),
    outside: [],
    turnLead: 20,
    settled: {},
    geometrySource: 'order',
  }
}
