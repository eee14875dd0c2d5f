import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { routeCurve } from '../../src/explain/picture/curves.js'
import { Crowd, type CurveSpace, type Obstacle } from '../../src/explain/picture/obstacles.js'

const lines = Array.from({ length: 121 }, (_, i) => 5 * i)
const OPEN: CurveSpace = { obstacles: [], left: 0, top: 0, side: 600, net: { xs: lines, ys: lines } }
const spot = fc.record({ x: fc.integer({ min: 20, max: 580 }), y: fc.integer({ min: 20, max: 580 }) })
const far = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y)

describe('routeCurve', () => {
  it('begins and ends at the rims of the marks', () => {
    fc.assert(
      fc.property(spot, spot, (a, b) => {
        fc.pre(far(a, b) > 30)
        const { samples } = routeCurve(a, b, 9, OPEN, new Crowd())
        expect(far(samples[0]!, a)).toBeCloseTo(9, -1)
        expect(far(samples[0]!, a)).toBeGreaterThanOrEqual(9)
        expect(far(samples[samples.length - 1]!, b)).toBeGreaterThanOrEqual(9)
      }),
      { seed: 7 },
    )
  })

  it('goes around a digit that stands in the way', () => {
    const digit: Obstacle = { x: 300, y: 300, radius: 22 }
    const { samples } = routeCurve(
      { x: 100, y: 300 },
      { x: 500, y: 300 },
      9,
      { ...OPEN, obstacles: [digit] },
      new Crowd(),
    )
    for (const { x, y } of samples) expect(Math.hypot(x - digit.x, y - digit.y)).toBeGreaterThanOrEqual(22)
  })

  it('never runs into what is firm where there is a way around it', () => {
    const digits = fc.uniqueArray(fc.record({ i: fc.nat(11), j: fc.nat(11) }), {
      minLength: 20,
      maxLength: 90,
      selector: ({ i, j }) => 12 * j + i,
    })
    fc.assert(
      fc.property(digits, ([a, b, ...rest]) => {
        const at = ({ i, j }: { i: number; j: number }) => ({ x: 25 + 50 * i, y: 25 + 50 * j })
        const obstacles = rest.map((one) => ({ ...at(one), radius: 20, firm: true }))
        const { samples } = routeCurve(at(a!), at(b!), 9, { ...OPEN, obstacles }, new Crowd())
        for (const o of obstacles)
          for (const one of samples) expect(far(one, o)).toBeGreaterThanOrEqual(o.radius)
      }),
      { seed: 8, numRuns: 30 },
    )
  })

  it('keeps off a curve drawn before between the same marks', () => {
    const a = { x: 100, y: 300 }
    const b = { x: 500, y: 300 }
    const first = routeCurve(a, b, 9, OPEN, new Crowd())
    const crowd = new Crowd()
    crowd.add(first)
    const second = routeCurve(a, b, 9, OPEN, crowd)
    expect(
      Math.abs(first.samples[first.samples.length >> 1]!.y - second.samples[second.samples.length >> 1]!.y),
    ).toBeGreaterThan(4)
  })
})
