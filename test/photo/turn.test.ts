import { describe, expect, it } from 'vitest'
import { CELL_SIZE } from '../../src/photo/digits/digit-reader.js'
import { QUARTER_TURNS, turnCellPicture, turnedIndices, turnLattice } from '../../src/photo/turn.js'

describe('turning', () => {
  it('brings the bottom left corner to the top left with one turn clockwise', () => {
    // 0 1      2 0
    // 2 3  ->  3 1
    expect([...turnedIndices(2, 1)]).toEqual([2, 0, 3, 1])
    expect([...turnedIndices(2, 2)]).toEqual([3, 2, 1, 0])
    expect([...turnedIndices(2, 3)]).toEqual([1, 3, 0, 2])
  })

  it('is undone by the turns that complete the circle', () => {
    const picture = { data: Uint8Array.from({ length: CELL_SIZE * CELL_SIZE }, (_, i) => (i * 37) % 256) }
    for (const turns of QUARTER_TURNS) {
      const back = QUARTER_TURNS[(4 - turns) % 4]!
      expect(turnCellPicture(turnCellPicture(picture, turns), back).data).toEqual(picture.data)
    }
  })

  it('turns crossings with the page: a page lying on its right side has its top left at the bottom left', () => {
    const order = 4
    const points = Array.from({ length: 25 }, (_, i) => ({ x: i % 5, y: Math.floor(i / 5) }))
    const turned = turnLattice({ order, points, cut: false, support: 1 }, 1)
    expect(turned.points[0]).toEqual({ x: 0, y: 4 })
    expect(turned.points[4]).toEqual({ x: 0, y: 0 })
  })
})
