import { describe, expect, it } from 'vitest'
import { Homography } from '../../../src/photo/find/homography.js'
import { looksTaken, RuleScan } from '../../../src/photo/find/rule-readings.js'

/** Forty pixels a cell, the first crossing at (20, 20). */
const PLANE = new Homography(Float64Array.of(40, 0, 20, 0, 40, 20, 0, 0, 1))
const SIZE = 200
const PLACES = [0.5, 1.5, 2.5]

/** Paper of 200 with what `ink` says at each height. */
function picture(ink: (y: number) => number) {
  const data = Uint8Array.from({ length: SIZE * SIZE }, (_, i) => ink(Math.floor(i / SIZE)))
  return { width: SIZE, height: SIZE, data }
}
/** Four pixels, whose middle is at 104: a tenth of a cell below rule 2. */
const isLine = (y: number) => y >= 102 && y < 106

function readings(scan: RuleScan, k: number) {
  return Array.from({ length: scan.starts[k + 1]! - scan.starts[k]! }, (_, i) => {
    const at = scan.starts[k]! + i
    return { place: scan.places[at]!, depth: scan.depths[at]!, width: scan.widths[at]! }
  })
}

describe('looking across a rule', () => {
  it('finds the middle, depth and width of a dark line at each place', () => {
    const scan = new RuleScan()
    const before = looksTaken()
    scan.look(
      picture((y) => (isLine(y) ? 50 : 200)),
      PLANE,
      'across',
      PLACES,
      [2, 2, 2],
      0.25,
    )
    expect(looksTaken() - before).toBe(PLACES.length)
    scan.read('dark')
    for (const k of PLACES.keys()) {
      const [line, ...others] = readings(scan, k)
      expect(others).toEqual([])
      expect(line!.place).toBeCloseTo(2.1, 2)
      expect(line!.depth).toBeCloseTo(0.75, 2)
      expect(line!.width).toBeCloseTo(0.1, 1)
    }
    scan.read('light')
    expect(scan.starts[PLACES.length]).toBe(0)
  })

  it('finds a light line as one, and an edge only where edges count', () => {
    const scan = new RuleScan()
    scan.look(
      picture((y) => (isLine(y) ? 200 : 50)),
      PLANE,
      'across',
      PLACES,
      [2, 2, 2],
      0.25,
    )
    scan.read('dark')
    expect(scan.starts[PLACES.length]).toBe(0)
    scan.read('light')
    expect(readings(scan, 0)[0]!.place).toBeCloseTo(2.1, 2)
    scan.look(
      picture((y) => (y < 104 ? 200 : 100)),
      PLANE,
      'across',
      PLACES,
      [2, 2, 2],
      0.25,
    )
    scan.read('dark')
    expect(scan.starts[PLACES.length]).toBe(0)
    scan.read('mixed')
    const [edge] = readings(scan, 1)
    expect(edge!.place).toBeCloseTo(2.1, 1)
    expect(edge!.depth).toBeCloseTo(0.5, 2)
  })

  it('says which places lie outside the picture', () => {
    const scan = new RuleScan()
    scan.look(
      picture(() => 200),
      PLANE,
      'across',
      [-3, 1.5, 9],
      [2, 2, 2],
      0.25,
    )
    expect([...scan.inside.subarray(0, 3)]).toEqual([0, 1, 0])
    scan.look(
      picture(() => 200),
      PLANE,
      'down',
      [1.5],
      [-2],
      0.25,
    )
    expect(scan.inside[0]).toBe(0)
  })
})
