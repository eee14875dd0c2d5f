import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { type ColourImage, overlayPng, overlaySvg, rectifiedPng, rectify } from '../../../src/photo.js'
import { drawGrid, turned } from '../drawn-grid.js'

const { toGrid, toPicture } = turned(30, 12, { x: 110, y: 30 })
const gray = drawGrid({
  width: 420,
  height: 400,
  order: 9,
  toGrid,
  ground: (c, r) => (c === 2 && r === 5 ? 120 : 230),
})
const colour: ColourImage = {
  ...gray,
  data: Uint8Array.from({ length: gray.data.length * 3 }, (_, i) => gray.data[Math.floor(i / 3)]!),
}
const points = Array.from({ length: 100 }, (_, k) => toPicture({ x: k % 10, y: Math.floor(k / 10) }))
const lattice = { order: 9, points, cut: false, support: 1 }
const cells = Array.from({ length: 81 }, (_, k) => ({
  digit: k === 4 ? 7 : 0,
  decidedBy: 'logic' as const,
  alternatives: [{ digit: 1, probability: 0.2 }],
}))

describe('rectify', () => {
  it('bends the grid straight: the shaded cell lies where its row and column say', () => {
    const flat = rectify(colour, lattice, 20, 0.25)
    expect([flat.width, flat.height]).toEqual([190, 190])
    const grey = (column: number, row: number) =>
      flat.data[((row + 0.5) * 20 + 5 + 0) * 190 * 3 + ((column + 0.5) * 20 + 5) * 3]!
    expect(grey(2, 5)).toBeLessThan(135)
    for (const [c, r] of [
      [1, 5],
      [3, 5],
      [2, 4],
      [2, 6],
      [0, 0],
      [8, 8],
    ] as const)
      expect(grey(c, r)).toBeGreaterThan(215)
  })
})

describe('overlay', () => {
  it('draws every rule, the digits, and doubt by shape as well as colour', () => {
    const svg = overlaySvg(gray, [{ lattice, cells, doubtful: [4, 40] }])
    expect(svg).toMatch(/^<svg [^>]*width="420" height="400"/)
    expect(svg.match(/M/g)?.length).toBe(20 + 2)
    expect(svg.match(/stroke-dasharray/g)?.length).toBe(2)
    expect(svg).toContain('>7?</text>')
    expect(svg).toContain('>?</text>')
    expect(svg).toContain('text-decoration="underline"')
    expect(svg).toContain('rotate(12.0)')
  })

  it('makes pictures of the right size, with a crop for each doubtful cell', async () => {
    const over = await sharp(await overlayPng(colour, [{ lattice, cells, doubtful: [] }])).metadata()
    expect([over.format, over.width, over.height]).toEqual(['png', 420, 400])
    const height = async (doubtful: number[]) =>
      (await sharp(await rectifiedPng(colour, { lattice, cells, doubtful })).metadata()).height
    const [none, one, four] = [await height([]), await height([4]), await height([1, 2, 3, 4])]
    expect(one).toBeGreaterThan(none)
    expect(four - none).toBe(2 * (one - none))
  })
})
