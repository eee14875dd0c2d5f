import { describe, expect, it } from 'vitest'
import { KeptLattices } from '../../../src/photo/find/kept-lattices.js'
import type { Lattice } from '../../../src/photo/lattice.js'

const CELL = 20

function lattice(left: number, support: number): Lattice {
  const points = Array.from({ length: 100 }, (_, k) => ({
    x: left + CELL * (k % 10),
    y: 10 + CELL * Math.floor(k / 10),
  }))
  return { order: 9, points, cut: false, support }
}

const kept = (...offers: readonly (readonly [Lattice, boolean])[]) => {
  const all = new KeptLattices({ width: 600, height: 220, data: new Uint8Array(600 * 220) })
  for (const [one, known] of offers) all.offer(one, known)
  return all.inReadingOrder()
}

describe('KeptLattices', () => {
  it('keeps the better seen of two at one place, and both of two that stand apart', () => {
    const [worse, better, beside] = [lattice(10, 0.8), lattice(14, 0.9), lattice(300, 0.7)]
    expect(kept([worse, false], [better, false], [beside, false])).toEqual([better, beside])
    expect(kept([better, false], [worse, false])).toEqual([better])
  })

  it('lets one that strays from where the network surely sees a grid give way, unless it is beyond doubt', () => {
    const known = lattice(10, 0.6)
    const near = lattice(10 + 0.2 * CELL, 0.9)
    const astray = lattice(10 + 0.5 * CELL, 0.9)
    const clear = lattice(10 + 0.5 * CELL, 0.97)
    expect(kept([astray, false], [known, true])).toEqual([known])
    expect(kept([near, false], [known, true])).toEqual([near])
    expect(kept([clear, false], [known, true])).toEqual([clear])
  })

  it('keeps the better seen of two that are known', () => {
    const [known, astray] = [lattice(10, 0.9), lattice(10 + 0.5 * CELL, 0.8)]
    expect(kept([known, true], [astray, true])).toEqual([known])
    expect(kept([astray, true], [known, true])).toEqual([known])
  })
})
