import { describe, expect, it } from 'vitest'
import { InputError } from '../../src/errors.js'
import {
  boxedGeometry,
  cellName,
  type Geometry,
  regionGeometry,
  STANDARD,
  usualGeometry,
  withFurtherPeers,
} from '../../src/grid/geometry.js'
import { layoutOf } from '../../src/grid/layout.js'
import { GEOMETRIES, JIGSAW } from './arbitraries.js'

describe.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))('%s', (_, geometry) => {
  const layout = layoutOf(geometry)
  const { order, cellCount } = geometry
  const { houses } = layout
  const cells = Array.from({ length: cellCount }, (_, cell) => cell)

  it('has houses of as many different cells as digits, and every cell in a row, a column and a piece', () => {
    for (const house of houses) {
      expect(new Set(house.cells).size).toBe(order)
      expect([...house.cells]).toEqual([...house.cells].sort((a, b) => a - b))
      expect(house.name).toBe(`${house.kind} ${house.number}`)
      expect(houses[house.index]).toBe(house)
    }
    for (const cell of cells) {
      const kinds = layout.housesOf[cell]!.map((house) => houses[house]!.kind)
      expect(kinds.slice(0, 3)).toEqual(['row', 'column', geometry === JIGSAW ? 'region' : 'box'])
      expect(kinds.slice(3).every((kind) => kind === 'diagonal')).toBe(true)
    }
  })

  it('knows peers and positions as looking through the houses does', () => {
    const shareHouse = (a: number, b: number) =>
      a !== b && houses.some((house) => house.cells.includes(a) && house.cells.includes(b))
    for (const cell of cells.filter((cell) => cell % 7 === 0)) {
      expect(layout.peersOf[cell]).toEqual(cells.filter((other) => shareHouse(cell, other)))
      for (const other of cells) expect(layout.arePeers(cell, other)).toBe(shareHouse(cell, other))
      for (const house of houses) expect(layout.positionIn(house.index, cell)).toBe(house.cells.indexOf(cell))
    }
  })
})

describe('boxedGeometry', () => {
  it('gives each cell of the standard grid its 20 peers', () => {
    expect(layoutOf(STANDARD).peersOf.every((peers) => peers.length === 20)).toBe(true)
    expect(layoutOf(STANDARD).houses[18 + 4]!.cells).toEqual([30, 31, 32, 39, 40, 41, 48, 49, 50])
    expect(cellName(STANDARD, 0)).toBe('r1c1')
    expect(cellName(STANDARD, 80)).toBe('r9c9')
  })

  it('puts wide boxes side by side: box 2 of 2×3 is rows 1 and 2, columns 4 to 6', () => {
    const geometry = boxedGeometry(2, 3)
    const layout = layoutOf(geometry)
    expect(layout.houses[12 + 1]!.cells.map((cell) => cellName(geometry, cell))).toEqual([
      'r1c4',
      'r1c5',
      'r1c6',
      'r2c4',
      'r2c5',
      'r2c6',
    ])
  })

  it('returns the same value for the same sides and refuses others', () => {
    expect(boxedGeometry(3, 3)).toBe(STANDARD)
    for (const [rows, columns] of [
      [1, 3],
      [5, 4],
      [0, 9],
      [-3, -3],
      [1.5, 6],
      [Number.NaN, 3],
    ] as const) {
      expect(() => boxedGeometry(rows, columns)).toThrow(InputError)
    }
  })
})

describe('usualGeometry', () => {
  it('has boxes as square as they come, wider than high, or none', () => {
    const names = Array.from({ length: 18 }, (_, order) => usualGeometry(order)?.name)
    expect(names).toEqual([
      ...[undefined, undefined, undefined, undefined, '2x2', undefined, '2x3', undefined, '2x4', '3x3'],
      ...['2x5', undefined, '3x4', undefined, '2x7', '3x5', '4x4', undefined],
    ])
  })
})

describe('regionGeometry', () => {
  it('refuses maps that are not order × order, name other regions, or cut unequal pieces', () => {
    const regions = [0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 3, 3, 2, 2, 3, 3]
    expect(layoutOf(regionGeometry('fine', regions)).houses).toHaveLength(12)
    expect(layoutOf(regionGeometry('fine', regions, { diagonals: true })).houses).toHaveLength(14)
    for (const bad of [
      regions.slice(1),
      regions.with(0, 4),
      regions.with(0, -1),
      regions.with(0, 1),
      [0],
      [],
    ]) {
      expect(() => regionGeometry('bad', bad)).toThrow(InputError)
    }
    expect(JIGSAW.box).toBeUndefined()
  })

  it('calls its regions boxes where they are boxes in their usual order', () => {
    const names = (regions: readonly number[]) =>
      layoutOf(regionGeometry('any', regions, { diagonals: true }))
        .houses.slice(8)
        .map(({ name }) => name)
    const diagonals = ['diagonal 1', 'diagonal 2']
    const boxes = [0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 3, 3, 2, 2, 3, 3]
    expect(names(boxes)).toEqual(['box 1', 'box 2', 'box 3', 'box 4', ...diagonals])
    const turned = boxes.map((box) => 3 - box)
    expect(names(turned)).toEqual(['region 1', 'region 2', 'region 3', 'region 4', ...diagonals])
  })
})

describe('a copy of a geometry', () => {
  const jigsaw = regionGeometry('Saturday', [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 1, 3, 2, 3, 3, 3])
  const further = withFurtherPeers(jigsaw, 'further', [[0, 15]])

  it.each([...GEOMETRIES, jigsaw, further].map((geometry) => [geometry.name, geometry] as const))(
    'of %s has the same layout',
    (_, geometry) => {
      for (const copy of [structuredClone(geometry), JSON.parse(JSON.stringify(geometry)), { ...geometry }]) {
        expect(copy).toStrictEqual(geometry)
        expect(layoutOf(copy)).toBe(layoutOf(geometry))
      }
    },
  )

  it('shares the layout of another name with the same rules, and not that of other rules', () => {
    expect(layoutOf(regionGeometry('Sunday', jigsaw.regions!))).toBe(layoutOf(jigsaw))
    const keys = [jigsaw, further, regionGeometry('both', jigsaw.regions!, { diagonals: true })].map(
      ({ key }) => key,
    )
    expect(new Set(keys).size).toBe(3)
    expect(layoutOf(further).arePeers(0, 15)).toBe(true)
    expect(layoutOf(jigsaw).arePeers(0, 15)).toBe(false)
  })

  it.each([
    ['another order', { ...STANDARD, order: 4 }],
    ['another key', { ...STANDARD, key: '2x2' }],
    ['a part too many', { ...STANDARD, regions: jigsaw.regions }],
    ['a part too few', { key: '3x3', name: '3x3', order: 9, cellCount: 81 }],
    ['boxes that do not fit', { ...STANDARD, box: { rows: 2, columns: 2 } }],
    ['a box that is none', { ...STANDARD, box: 'x' }],
    ['a region too large', { ...jigsaw, regions: jigsaw.regions!.with(3, 0) }],
    ['regions that are no numbers', { ...jigsaw, regions: jigsaw.regions!.map(String) }],
    ['diagonals that are not in its key', { ...jigsaw, diagonals: true }],
    ['pairs that are none', { ...further, furtherPeers: [[0]] }],
    ['pairs of cells that there are not', { ...further, furtherPeers: [[0, 16]] }],
    ['other pairs than its key', { ...further, furtherPeers: [[0, 14]] }],
  ])('is refused with %s', (_, copy) => {
    expect(() => layoutOf(copy as Geometry)).toThrow(/`geometry` must be a geometry/)
  })
})
