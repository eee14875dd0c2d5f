import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { StoppedError } from '../../../src/errors.js'
import { findLattices, type GrayImage, type Point } from '../../../src/photo.js'
import { drawGrid, turned, withNoise, worstCrossing } from '../drawn-grid.js'
import { latticesNow } from './lattices-now.js'

const SEED = 20260801

describe('findLattices', () => {
  it('puts every crossing of a clean grid within a hundredth of a cell', () => {
    const { toGrid, toPicture } = turned(45, 0, { x: 100.3, y: 40.6 })
    const [lattice, ...others] = latticesNow(drawGrid({ width: 640, height: 520, order: 9, toGrid }))
    expect(others).toEqual([])
    expect(lattice?.order).toBe(9)
    expect(lattice?.cut).toBe(false)
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(0.45)
  })

  it(`finds a noisy grid turned by any angle (seed ${SEED})`, () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 22, max: 34 }), (degrees, cell) => {
        const middle = turned(cell, degrees, { x: 0, y: 0 }).toPicture({ x: 4.5, y: 4.5 })
        const { toGrid, toPicture } = turned(cell, degrees, { x: 260 - middle.x, y: 250 - middle.y })
        const image = withNoise(drawGrid({ width: 520, height: 500, order: 9, toGrid }), 6, degrees)
        const [lattice] = latticesNow(image)
        expect(lattice?.order).toBe(9)
        expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(0.04 * cell)
      }),
      { seed: SEED, numRuns: 12 },
    )
  })

  it('follows a page that bends and is seen at a slant', () => {
    // rows sag like a curled page, and the right side is farther away
    const toPicture = ({ x: u, y: v }: Point) => {
      const depth = 1 + 0.06 * u
      return {
        x: 60 + (u * 66) / depth,
        y: 70 + (v * 52) / depth + 14 * Math.sin((u / 9) * Math.PI) + 10 * u * 0.3,
      }
    }
    const image = drawGrid({ width: 520, height: 560, order: 9, toGrid: (place) => invert(toPicture, place) })
    const [lattice] = latticesNow(image)
    expect(lattice?.order).toBe(9)
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(1)
  })

  it('finds faint rules in noise', () => {
    const { toGrid, toPicture } = turned(40, 7, { x: 90, y: 40 })
    const image = withNoise(drawGrid({ width: 520, height: 480, order: 9, toGrid, ink: 212 }), 5, 3)
    const [lattice] = latticesNow(image)
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(2.5)
  })

  it('finds a printed frame with its boxes where fine rules sink in noise, but no empty one without any', () => {
    const framed = (rule: number, noise: number) => {
      const { toGrid, toPicture } = turned(40, 3, { x: 90, y: 50 })
      const figure = (column: number, row: number) => rule > 0 && (5 * column + 3 * row) % 7 < 2
      const image = drawGrid({ width: 520, height: 480, order: 9, toGrid, rule, boxRule: 0.06, figure })
      return { found: latticesNow(withNoise(image, noise, 11)), toPicture }
    }
    const { found, toPicture } = framed(0.0015, 10)
    expect(found.length).toBe(1)
    expect(worstCrossing(found[0]!.points, 9, toPicture)).toBeLessThan(6)
    expect(framed(0, 10).found).toEqual([])
  })

  it('takes no part of squared paper for a grid, however it is framed', () => {
    for (const order of [11, 20]) {
      const { toGrid } = turned(440 / order, 2, { x: 30, y: 20 })
      const image = drawGrid({ width: 520, height: 500, order, toGrid, boxRows: order, boxColumns: order })
      expect(latticesNow(withNoise(image, 6, order))).toEqual([])
    }
  })

  it('finds light rules on dark ground', () => {
    const { toGrid, toPicture } = turned(40, -4, { x: 60, y: 70 })
    const ground = () => 35
    const [lattice] = latticesNow(drawGrid({ width: 520, height: 520, order: 9, toGrid, ink: 220, ground }))
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(2.5)
  })

  it('takes no grid of light rules for a crossword where shadow makes some of its cells black', () => {
    const { toGrid, toPicture } = turned(40, -4, { x: 60, y: 70 })
    const ground = (column: number) => 110 - 10 * column
    const [lattice] = latticesNow(drawGrid({ width: 520, height: 520, order: 9, toGrid, ink: 240, ground }))
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(2.5)
  })

  it('finds a chequered grid of which only the boxes are ruled, and no chessboard', () => {
    const chequered = (order: number, rules: boolean) => {
      const { toGrid } = turned(44, 3, { x: 70, y: 50 })
      const ground = (column: number, row: number) => ((column + row) % 2 === 0 ? 225 : 150)
      return latticesNow(
        drawGrid({
          width: 520,
          height: 500,
          order,
          toGrid,
          rules,
          rule: 0,
          boxRule: 0.06,
          ground,
          paper: 190,
        }),
      )
    }
    expect(chequered(9, true).map(({ order }) => order)).toEqual([9])
    expect(chequered(8, false)).toEqual([])
    expect(chequered(9, false)).toEqual([])
    expect(chequered(10, false)).toEqual([])
  })

  it('tells the order from boxes, and a table of ten by ten from a grid', () => {
    const of = (order: number, boxRows: number, boxColumns: number, boxRule: number) => {
      const { toGrid } = turned(400 / order, 2, { x: 50, y: 40 })
      const image = drawGrid({ width: 520, height: 500, order, toGrid, boxRows, boxColumns, boxRule })
      return latticesNow(image).map((lattice) => lattice.order)
    }
    expect(of(4, 2, 2, 0.06)).toEqual([4])
    expect(of(6, 2, 3, 0.08)).toEqual([6])
    expect(of(12, 3, 4, 0.12)).toEqual([12])
    expect(of(16, 4, 4, 0.16)).toEqual([16])
    expect(of(10, 1, 1, 0.03)).toEqual([])
    expect(of(7, 1, 1, 0.03)).toEqual([])
  })

  it('says that a grid is cut by the edge', () => {
    const { toGrid, toPicture } = turned(50, 0, { x: 30, y: -12 })
    const [lattice] = latticesNow(drawGrid({ width: 520, height: 480, order: 9, toGrid }))
    expect(lattice?.order).toBe(9)
    expect(lattice?.cut).toBe(true)
    expect(worstCrossing(lattice!.points, 9, toPicture)).toBeLessThan(5)
  })

  it('lists two grids of a page in reading order', () => {
    const left = turned(26, 2, { x: 40, y: 60 })
    const right = turned(26, 2, { x: 330, y: 52 })
    const side = (place: Point) => (place.x < 300 ? left : right).toGrid(place)
    const lattices = latticesNow(drawGrid({ width: 620, height: 380, order: 9, toGrid: side }))
    expect(lattices.length).toBe(2)
    expect(worstCrossing(lattices[0]!.points, 9, left.toPicture)).toBeLessThan(1)
    expect(worstCrossing(lattices[1]!.points, 9, right.toPicture)).toBeLessThan(1)
  })

  it('sees no grid on a blank wall, in noise, or in a crossword', () => {
    const blank: GrayImage = { width: 400, height: 300, data: new Uint8Array(120_000).fill(200) }
    expect(latticesNow(blank)).toEqual([])
    expect(latticesNow(withNoise(blank, 20, 5))).toEqual([])
    const { toGrid } = turned(40, 0, { x: 40, y: 40 })
    const black = (column: number, row: number) => ((column * 7 + row * 5) % 4 === 0 ? 40 : 230)
    const crossword = drawGrid({ width: 460, height: 460, order: 9, toGrid, ground: black, boxRule: 0.03 })
    expect(latticesNow(crossword)).toEqual([])
  })

  it('survives pictures too small to hold anything', () => {
    for (const [width, height] of [
      [1, 1],
      [3, 2],
      [20, 1],
      [16, 16],
    ] as const) {
      expect(latticesNow({ width, height, data: new Uint8Array(width * height).fill(128) })).toEqual([])
    }
  })

  it('stops when asked to', async () => {
    const { toGrid } = turned(40, 0, { x: 40, y: 40 })
    const image = drawGrid({ width: 460, height: 460, order: 9, toGrid })
    await expect(findLattices(image, { signal: AbortSignal.abort() })).rejects.toThrow(StoppedError)
    await expect(findLattices(image, { timeLimit: 0 })).rejects.toMatchObject({ code: 'time-limit' })
    expect(await findLattices(image)).toEqual(latticesNow(image))
  })
})

/** Newton's method for the place that a smooth map takes to another. */
function invert(map: (place: Point) => Point, target: Point): Point {
  let u = 4.5
  let v = 4.5
  for (let k = 0; k < 12; k++) {
    const here = map({ x: u, y: v })
    const e = 1e-4
    const du = map({ x: u + e, y: v })
    const dv = map({ x: u, y: v + e })
    const [a, b, c, d] = [(du.x - here.x) / e, (dv.x - here.x) / e, (du.y - here.y) / e, (dv.y - here.y) / e]
    const det = a * d - b * c
    const [rx, ry] = [target.x - here.x, target.y - here.y]
    u = Math.min(30, Math.max(-10, u + (rx * d - ry * b) / det))
    v = Math.min(30, Math.max(-10, v + (ry * a - rx * c) / det))
  }
  return { x: u, y: v }
}
