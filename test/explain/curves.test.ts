import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { routeCurve } from '../../src/explain/picture/curves.js'

const OPEN = { obstacles: [], left: 0, top: 0, side: 600 }
const spot = fc.record({ x: fc.integer({ min: 20, max: 580 }), y: fc.integer({ min: 20, max: 580 }) })

describe('routeCurve', () => {
  it('begins and ends at the rims of the marks', () => {
    fc.assert(
      fc.property(spot, spot, (a, b) => {
        fc.pre(Math.hypot(a.x - b.x, a.y - b.y) > 30)
        const { from, to } = routeCurve(a, b, 9, OPEN, [])
        expect(Math.hypot(from.x - a.x, from.y - a.y)).toBeCloseTo(9, -1)
        expect(Math.hypot(from.x - a.x, from.y - a.y)).toBeGreaterThanOrEqual(9)
        expect(Math.hypot(to.x - b.x, to.y - b.y)).toBeGreaterThanOrEqual(9)
      }),
      { seed: 7 },
    )
  })

  it('goes around a digit that stands in the way', () => {
    const digit = { x: 300, y: 300, radius: 22 }
    const { samples } = routeCurve(
      { x: 100, y: 300 },
      { x: 500, y: 300 },
      9,
      { ...OPEN, obstacles: [digit] },
      [],
    )
    for (const { x, y } of samples)
      expect(Math.hypot(x - digit.x, y - digit.y)).toBeGreaterThanOrEqual(digit.radius)
  })

  it('keeps off a curve drawn before between the same marks', () => {
    const a = { x: 100, y: 300 }
    const b = { x: 500, y: 300 }
    const first = routeCurve(a, b, 9, OPEN, [])
    const second = routeCurve(a, b, 9, OPEN, [first])
    expect(Math.abs(first.samples[16]!.y - second.samples[16]!.y)).toBeGreaterThan(4)
  })
})
