import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawPicture, type Kind } from '../../../fixtures/draw/scenes.js'
import { boxedGeometry, STANDARD } from '../../../src/grid/geometry.js'
import { boxedGeometries, shownBoxes, turnedBoxes } from '../../../src/photo/shape/box-shapes.js'
import { gridShape } from '../../../src/photo/shape/grid-shape.js'
import { shownRegions } from '../../../src/photo/shape/shown-regions.js'
import { type SideWeights, sideWeights } from '../../../src/photo/shape/side-weights.js'
import { decodePicture, findLattices, type Lattice } from '../../../src/photo.js'
import { drawGrid } from '../drawn-grid.js'

const PAPER = 230
const CELL = 40
const CORNER = 30

function straightLattice(order: number): Lattice {
  const points = Array.from({ length: (order + 1) ** 2 }, (_, k) => ({
    x: CORNER + CELL * (k % (order + 1)),
    y: CORNER + CELL * Math.floor(k / (order + 1)),
  }))
  return { order, points, cut: false, support: 1 }
}

function drawn(
  boxRows: number,
  boxColumns: number,
  look: { boxRule?: number; paper?: number; ink?: number } = {},
) {
  const order = boxRows * boxColumns
  const side = 2 * CORNER + order * CELL
  const toGrid = ({ x, y }: { x: number; y: number }) => ({ x: (x - CORNER) / CELL, y: (y - CORNER) / CELL })
  return drawGrid({ width: side, height: side, order, toGrid, boxRows, boxColumns, paper: PAPER, ...look })
}

/** Weights of lines that are alike, but for those listed: `line: weight`. */
function weightsOf(order: number, across: Record<number, number>, down: Record<number, number>): SideWeights {
  const lines = (heavy: Record<number, number>) =>
    Array.from({ length: order + 1 }, (_, line) => new Array<number>(order).fill(heavy[line] ?? 0.01))
  return { across: lines(across), down: lines(down) }
}

describe('how heavy the lines are', () => {
  it('is darkness times width, and below 0 for light lines', () => {
    const dark = sideWeights(drawn(2, 3), straightLattice(6))
    const share = (PAPER - 40) / PAPER
    // a quarter of a pixel more or less is how finely the picture is drawn
    expect(dark.across[1]![2]!).toBeCloseTo(0.03 * share, 2)
    expect(dark.across[2]![2]!).toBeCloseTo(0.07 * share, 2)
    expect(dark.down[3]![0]!).toBeGreaterThan(1.8 * dark.down[2]![0]!)
    const light = sideWeights(drawn(2, 3, { paper: 60, ink: 240 }), straightLattice(6))
    expect(light.across[2]![2]!).toBeLessThan(light.across[1]![2]!)
    expect(light.across[1]![2]!).toBeLessThan(0)
  })

  it('is unknown outside the picture', () => {
    const lattice = straightLattice(6)
    const moved = { ...lattice, points: lattice.points.map(({ x, y }) => ({ x: x - CELL, y })) }
    const { down } = sideWeights(drawn(2, 3), moved)
    expect(down[0]).toEqual(new Array(6).fill(Number.NaN))
    expect(down[1]!.every((weight) => weight > 0)).toBe(true)
  })
})

describe('boxes that heavy lines show', () => {
  it.each([
    [2, 3],
    [3, 2],
    [2, 4],
    [4, 2],
    [3, 3],
  ])('are %i by %i', (rows, columns) => {
    const weights = sideWeights(drawn(rows, columns), straightLattice(rows * columns))
    expect(shownBoxes(weights, rows * columns)).toBe(boxedGeometry(rows, columns))
  })

  it('are none where lines are alike, or heavy one way only', () => {
    expect(shownBoxes(sideWeights(drawn(2, 3, { boxRule: 0.03 }), straightLattice(6)), 6)).toBeUndefined()
    const oneWay = weightsOf(6, { 2: 0.03, 4: 0.03 }, {})
    expect(shownBoxes(oneWay, 6)).toBeUndefined()
  })

  it('need every line between boxes to be heavier than every line within, by a quarter', () => {
    expect(shownBoxes(weightsOf(6, { 2: 0.013, 4: 0.03 }, { 3: 0.03 }), 6)).toBe(boxedGeometry(2, 3))
    expect(shownBoxes(weightsOf(6, { 2: 0.012, 4: 0.03 }, { 3: 0.03 }), 6)).toBeUndefined()
    expect(shownBoxes(weightsOf(6, { 2: 0.03, 3: 0.025, 4: 0.03 }, { 3: 0.03 }), 6)).toBeUndefined()
    // outermost lines say nothing
    expect(shownBoxes(weightsOf(6, { 0: 0.01, 2: 0.02, 4: 0.02, 6: 0.09 }, { 3: 0.02 }), 6)).toBe(
      boxedGeometry(2, 3),
    )
  })

  it('are none where two shapes fit', () => {
    const both = { 2: 0.02, 4: 0.05, 6: 0.02 }
    expect(shownBoxes(weightsOf(8, both, both), 8)).toBeUndefined()
    expect(shownBoxes(weightsOf(8, both, { 4: 0.05 }), 8)).toBe(boxedGeometry(2, 4))
  })

  it('may be seen though one line is out of the picture', () => {
    const weights = weightsOf(6, { 2: 0.03, 4: Number.NaN }, { 3: 0.03 })
    expect(shownBoxes(weights, 6)).toBe(boxedGeometry(2, 3))
    expect(shownBoxes(weightsOf(6, { 2: 0.03, 4: 0.03 }, { 3: Number.NaN }), 6)).toBeUndefined()
  })
})

describe('box shapes of an order', () => {
  it('are all its rectangles, the usual one first', () => {
    const shapes = (order: number) => boxedGeometries(order).map(({ name }) => name)
    expect([4, 6, 8, 9, 12].map(shapes)).toEqual([
      ['2x2'],
      ['2x3', '3x2'],
      ['2x4', '4x2'],
      ['3x3'],
      ['3x4', '2x6', '4x3', '6x2'],
    ])
    expect(shapes(7)).toEqual([])
  })

  it('lie the other way once the page is turned by a quarter', () => {
    expect(turnedBoxes(boxedGeometry(2, 3), 1)).toBe(boxedGeometry(3, 2))
    expect(turnedBoxes(boxedGeometry(2, 3), 3)).toBe(boxedGeometry(3, 2))
    expect(turnedBoxes(boxedGeometry(2, 3), 2)).toBe(boxedGeometry(2, 3))
  })
})

/** Weights of a grid whose cells are parted by heavy lines into these regions. */
function parted(picture: string, heavy = 0.03): { weights: SideWeights; order: number } {
  const rows = picture.trim().split(/\s+/)
  const order = rows.length
  const side = (a: string | undefined, b: string | undefined) => (a === b ? 0.01 : heavy)
  const lines = Array.from({ length: order + 1 }, (_, line) => line)
  const cells = lines.slice(0, order)
  return {
    order,
    weights: {
      across: lines.map((line) => cells.map((k) => side(rows[line - 1]?.[k], rows[line]?.[k]))),
      down: lines.map((line) => cells.map((k) => side(rows[k]![line - 1], rows[k]![line]))),
    },
  }
}

const AROUND = 'aaab accb dccb dddb'
const STAIRS = 'aaabbb aaccbb acccbd ecfddd eeffdd eeefff'
const AROUND_REGIONS = [0, 0, 0, 1, 0, 2, 2, 1, 3, 2, 2, 1, 3, 3, 3, 1]

describe('regions that heavy lines show', () => {
  it('are those they bound, be they darker or lighter than other lines', () => {
    for (const heavy of [0.03, -0.03]) {
      const { weights, order } = parted(AROUND, heavy)
      expect(shownRegions(weights, order)?.regions).toEqual(AROUND_REGIONS)
    }
  })

  it('are none where they are boxes, where lines are alike, or where a piece is too large', () => {
    const none = ['aabb aabb ccdd ccdd', 'aaaa aaaa aaaa aaaa', 'aabb aaab ccdb ccdd', 'aabb aabb ccdd ccce']
    for (const picture of none) {
      const { weights, order } = parted(picture)
      expect(shownRegions(weights, order)).toBeUndefined()
    }
  })

  it('are found though a side is out of the picture, or looks otherwise than it is, with less of a lead', () => {
    const { weights, order } = parted(STAIRS)
    const whole = shownRegions(weights, order)!
    for (const weight of [Number.NaN, 0.01]) {
      const across = weights.across.map((sides, line) => (line === 2 ? sides.with(1, weight) : sides))
      const shown = shownRegions({ ...weights, across }, order)
      expect(shown?.regions).toEqual(whole.regions)
      expect(shown!.lead).toBeLessThanOrEqual(whole.lead)
    }
  })

  it('are each in one piece and of as many cells as there are rows, whatever the lines say', () => {
    const random = fc.record({
      order: fc.integer({ min: 5, max: 9 }),
      numbers: fc.array(fc.double({ min: 0.005, max: 0.05, noNaN: true }), {
        minLength: 180,
        maxLength: 180,
      }),
    })
    fc.assert(
      fc.property(random, ({ order, numbers }) => {
        const rows = (from: number) =>
          Array.from({ length: order + 1 }, (_, line) =>
            Array.from({ length: order }, (_, k) => numbers[(from + line * order + k) % numbers.length]!),
          )
        const shown = shownRegions({ across: rows(0), down: rows(90) }, order)
        if (!shown) return
        const counts = new Map<number, number>()
        for (const region of shown.regions) counts.set(region, (counts.get(region) ?? 0) + 1)
        expect([...counts.values()]).toEqual(new Array(order).fill(order))
      }),
      { numRuns: 60 },
    )
  })
})

describe('the shape of a grid', () => {
  const lattice = straightLattice(6)
  const twoHigh = drawn(2, 3)
  const alike = drawn(2, 3, { boxRule: 0.03 })

  it('is what its lines show, turned as the page is', () => {
    const shape = gridShape(twoHigh, lattice, undefined)
    expect(shape.at(0)).toEqual({ source: 'lines', geometries: [boxedGeometry(2, 3)] })
    expect(shape.at(1)).toEqual({ source: 'lines', geometries: [boxedGeometry(3, 2)] })
  })

  it('is open where they show none, and a matter of the order where there is one shape', () => {
    expect(gridShape(alike, lattice, undefined).at(0)).toEqual({
      source: 'unsure',
      geometries: [boxedGeometry(2, 3), boxedGeometry(3, 2)],
    })
    const nine = gridShape(drawn(3, 3, { boxRule: 0.03 }), straightLattice(9), undefined)
    expect(nine.at(1)).toEqual({ source: 'order', geometries: [STANDARD] })
  })

  it('is what the caller says, unless the lines say another', () => {
    const given = boxedGeometry(3, 2)
    expect(gridShape(alike, lattice, given).at(0)).toEqual({ source: 'caller', geometries: [given] })
    expect(gridShape(twoHigh, lattice, given).at(0)).toEqual({ source: 'unsure', geometries: [given] })
    expect(gridShape(twoHigh, lattice, given).at(1)).toEqual({ source: 'caller', geometries: [given] })
    // a geometry of another order is not meant for this grid
    expect(gridShape(twoHigh, lattice, STANDARD).at(0).source).toBe('lines')
  })
})

describe('drawn pages', () => {
  async function found(kind: Kind, seed: number) {
    const { data } = await drawPicture({ kind, seed, fonts: 'kept-aside', name: 'page' })
    const { gray } = await decodePicture(data)
    const [lattice] = await findLattices(gray)
    return { gray, lattice: lattice! }
  }

  it('show boxes three high and two wide', async () => {
    const { gray, lattice } = await found('orders', 3830311655)
    const { source, geometries } = gridShape(gray, lattice, undefined).at(0)
    expect(source).toBe('lines')
    expect([2, 3]).toContain(geometries[0]!.box!.rows)
  })

  it('show irregular regions', async () => {
    const { gray, lattice } = await found('irregular', 3930311924)
    const { source, geometries } = gridShape(gray, lattice, undefined).at(0)
    expect(source).toBe('lines')
    expect(geometries[0]!.regions).toHaveLength(lattice.order ** 2)
  })
})
