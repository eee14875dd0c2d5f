import { describe, expect, it } from 'vitest'
import { CELL_SIZE } from '../../../src/photo/digits/digit-reader.js'
import { type CellPicture, cutCells, type Lattice, type Point } from '../../../src/photo.js'
import { type DrawnGrid, drawGrid, turned, withNoise } from '../drawn-grid.js'

const ORDER = 9
const { toGrid, toPicture } = turned(40, 5, { x: 60, y: 30 })

function latticeOf(place: (at: Point) => Point): Lattice {
  const points = Array.from({ length: 100 }, (_, k) => place({ x: k % 10, y: Math.floor(k / 10) }))
  return { order: ORDER, points, cut: false, support: 1 }
}

/**
 * A grid with an upright bar (a rough 1, `half` its width in cells) in the middle of the cells that `bar` gives an ink.
 */
function withBars(spec: Partial<DrawnGrid> & { bar?: (cell: number) => number | undefined; half?: number }) {
  const base = drawGrid({ width: 480, height: 460, order: ORDER, toGrid, ...spec })
  const data = Uint8Array.from(base.data)
  for (let y = 0; y < base.height; y++) {
    for (let x = 0; x < base.width; x++) {
      const { x: u, y: v } = toGrid({ x: x + 0.5, y: y + 0.5 })
      if (u < 0 || v < 0 || u >= ORDER || v >= ORDER) continue
      const ink = spec.bar?.(Math.floor(v) * ORDER + Math.floor(u))
      if (ink === undefined) continue
      const [s, t] = [u - Math.floor(u), v - Math.floor(v)]
      if (Math.abs(s - 0.5) < (spec.half ?? 0.07) && Math.abs(t - 0.5) < 0.3) data[y * base.width + x] = ink
    }
  }
  return { ...base, data }
}

const at = ({ data }: CellPicture, x: number, y: number) => data[y * CELL_SIZE + x]!
const isBarred = (cell: number) => cell % 3 === 0

describe('cutCells', () => {
  it('gives paper 255 and ink 0, with the rules at the border', () => {
    const cells = cutCells(
      withBars({ bar: (cell) => (isBarred(cell) ? 40 : undefined) }),
      latticeOf(toPicture),
    )
    expect(cells.length).toBe(81)
    cells.forEach((cell, k) => {
      expect(cell.data.length).toBe(CELL_SIZE ** 2)
      expect(at(cell, 11, 20)).toBeGreaterThan(235)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(30)
      else expect(at(cell, 20, 20)).toBeGreaterThan(235)
    })
    // the left border of r1c1 is a box rule, a tenth of a cell in from the edge of the picture
    expect(at(cells[0]!, 3, 20)).toBeLessThan(60)
  })

  it('evens out shade: cells on dark ground look like the others', () => {
    const ground = (column: number) => (column < 4 ? 230 : 120)
    const cells = cutCells(
      withBars({ ground, ink: 20, bar: (cell) => (isBarred(cell) ? 20 : undefined) }),
      latticeOf(toPicture),
    )
    cells.forEach((cell, k) => {
      expect(at(cell, 11, 20)).toBeGreaterThan(225)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(50)
    })
  })

  it('turns light print on dark ground over', () => {
    const ground = () => 30
    const image = withBars({ ground, ink: 225, bar: (cell) => (isBarred(cell) ? 225 : undefined) })
    cutCells(image, latticeOf(toPicture)).forEach((cell, k) => {
      expect(at(cell, 11, 20)).toBeGreaterThan(225)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
    })
  })

  it('turns all cells of a light grid over, also those that glare makes as light as their rules', () => {
    // the grid is light on dark as a whole; in the last column the ground comes near the rules' value
    const ground = (column: number) => (column < 8 ? 60 : 170)
    const image = withBars({ ground, ink: 195, bar: (cell) => (isBarred(cell) ? 235 : undefined) })
    cutCells(image, latticeOf(toPicture)).forEach((cell, k) => {
      expect(at(cell, 11, 20)).toBeGreaterThan(225)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
    })
  })

  it('turns light print over where rules too thin to show leave it to the figures', () => {
    const ground = () => 30
    const image = withBars({ ground, rules: false, bar: (cell) => (isBarred(cell) ? 225 : undefined) })
    cutCells(image, latticeOf(toPicture)).forEach((cell, k) => {
      expect(at(cell, 11, 20)).toBeGreaterThan(225)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
    })
  })

  it('turns light print over that is so heavy that little of its ground shows', () => {
    const ground = () => 45
    const bar = (cell: number) => (isBarred(cell) ? 190 : undefined)
    for (const rules of [true, false]) {
      const image = withBars({ ground, ink: 60, rules, bar, half: 0.22 })
      cutCells(image, latticeOf(toPicture)).forEach((cell, k) => {
        expect(at(cell, 10, 20)).toBeGreaterThan(225)
        if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
        else expect(at(cell, 20, 20)).toBeGreaterThan(225)
      })
    }
  })

  it('does not turn dark print over where a shadow makes part of the page as dark as print', () => {
    const ground = (column: number, row: number) => (column + row > 9 ? 90 : 230)
    const bar = (cell: number) =>
      isBarred(cell) ? ((cell % 9) + Math.floor(cell / 9) > 9 ? 25 : 60) : undefined
    cutCells(withBars({ ground, ink: 25, bar }), latticeOf(toPicture)).forEach((cell, k) => {
      expect(at(cell, 11, 20)).toBeGreaterThan(225)
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
    })
  })

  it('does not turn a tinted cell over for its pale rules, where its own figure is dark', () => {
    const ground = (column: number, row: number) => (column === 3 && row === 0 ? 130 : 250)
    const image = withBars({ ground, ink: 190, bar: (cell) => (isBarred(cell) ? 10 : undefined) })
    const tinted = cutCells(image, latticeOf(toPicture))[3]!
    expect(at(tinted, 11, 20)).toBeGreaterThan(225)
    expect(at(tinted, 20, 20)).toBeLessThan(60)
  })

  it('does not blow the noise of blank cells up to ink', () => {
    const image = withNoise(withBars({ bar: (cell) => (cell % 5 === 0 ? 40 : undefined) }), 7, 11)
    const cells = cutCells(image, latticeOf(toPicture))
    for (const k of [1, 13, 39, 41, 79]) {
      let darkest = 255
      for (let y = 12; y < 28; y++)
        for (let x = 12; x < 28; x++) darkest = Math.min(darkest, at(cells[k]!, x, y))
      expect(darkest).toBeGreaterThan(170)
    }
  })

  it('cuts the same cells from a picture three times as large', () => {
    const bar = (cell: number) => (isBarred(cell) ? 40 : undefined)
    const small = withBars({ bar })
    const data = new Uint8Array(small.data.length * 9)
    const width = small.width * 3
    for (let k = 0; k < data.length; k++) {
      data[k] = small.data[Math.floor(Math.floor(k / width) / 3) * small.width + Math.floor((k % width) / 3)]!
    }
    const large = cutCells(
      { width, height: small.height * 3, data },
      latticeOf((place) => ({ x: toPicture(place).x * 3, y: toPicture(place).y * 3 })),
    )
    cutCells(small, latticeOf(toPicture)).forEach((cell, k) => {
      let sum = 0
      for (let i = 0; i < cell.data.length; i++) sum += Math.abs(cell.data[i]! - large[k]!.data[i]!)
      expect(sum / cell.data.length).toBeLessThan(4)
    })
  })

  it('shows red ink on blue ground, which the darkest channel alone hides', () => {
    const gray = withBars({ bar: (cell) => (isBarred(cell) ? 100 : undefined), ground: () => 100, ink: 20 })
    // where the grey picture shows no difference, the colours do: red bars on a blue ground, both 100 at their darkest
    const colour = { width: gray.width, height: gray.height, data: new Uint8Array(3 * gray.data.length) }
    for (let y = 0; y < gray.height; y++) {
      for (let x = 0; x < gray.width; x++) {
        const { x: u, y: v } = toGrid({ x: x + 0.5, y: y + 0.5 })
        const [s, t] = [u - Math.floor(u), v - Math.floor(v)]
        const cell = Math.floor(v) * ORDER + Math.floor(u)
        const inside = u >= 0 && v >= 0 && u < ORDER && v < ORDER
        const bar = inside && isBarred(cell) && Math.abs(s - 0.5) < 0.07 && Math.abs(t - 0.5) < 0.3
        const value = gray.data[y * gray.width + x]!
        const blue = inside && value === 100
        colour.data.set(
          bar ? [200, 100, 100] : blue ? [100, 140, 200] : [value, value, value],
          3 * (y * gray.width + x),
        )
      }
    }
    const lattice = latticeOf(toPicture)
    cutCells(gray, lattice, colour).forEach((cell, k) => {
      if (isBarred(k)) expect(at(cell, 20, 20)).toBeLessThan(60)
      else expect(at(cell, 20, 20)).toBeGreaterThan(225)
    })
    expect(at(cutCells(gray, lattice)[0]!, 20, 20)).toBeGreaterThan(225)
  })
})
