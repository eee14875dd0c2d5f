import { beforeAll, describe, expect, it } from 'vitest'
import { CELL_SIZE, type CellPicture } from '../../src/photo/digits/digit-reader.js'
import { figuresStand, hasInk } from '../../src/photo/standing.js'
import { turnCellPicture } from '../../src/photo/turn.js'
import { drawCells } from './digits/drawn-cells.js'

const SEED = 7046
/** About as many figures as a puzzle has. */
const PAGE = 28

let figures: CellPicture[]
beforeAll(async () => {
  const cells = await drawCells(800, SEED)
  figures = cells.filter(({ digit }) => digit !== 0).map(({ picture }) => picture)
})

const blank: CellPicture = { data: new Uint8Array(CELL_SIZE * CELL_SIZE).fill(255) }

describe('figuresStand', () => {
  it(`knows standing figures from lying ones, whichever way up (seed ${SEED})`, () => {
    expect(figures.length).toBeGreaterThan(8 * PAGE)
    for (let from = 0; from + PAGE <= figures.length; from += PAGE) {
      const page = [...figures.slice(from, from + PAGE), blank]
      const turned = (turns: 1 | 2 | 3) => page.map((picture) => turnCellPicture(picture, turns))
      expect(figuresStand(page)).toBe(true)
      expect(figuresStand(turned(2))).toBe(true)
      expect(figuresStand(turned(1))).toBe(false)
      expect(figuresStand(turned(3))).toBe(false)
    }
  })

  it('is not misled by a thick rule that reaches into every cell', () => {
    const underRule = ({ data }: CellPicture) => ({
      data: data.map((value, at) => (at < 12 * CELL_SIZE ? 0 : value)),
    })
    const page = [...figures.slice(0, PAGE), ...Array(81 - PAGE).fill(blank)].map(underRule)
    expect(figuresStand(page)).not.toBe(false)
  })

  it('says nothing of few figures, nor of what is as wide as tall', () => {
    expect(figuresStand(figures.slice(0, 7))).toBeUndefined()
    expect(figuresStand(Array(81).fill(blank))).toBeUndefined()
    const block: CellPicture = {
      data: blank.data.map((_, at) => {
        const [x, y] = [at % CELL_SIZE, Math.floor(at / CELL_SIZE)]
        return Math.max(Math.abs(x - 20), Math.abs(y - 20)) < 8 ? 10 : 255
      }),
    }
    expect(figuresStand(Array(20).fill(block))).toBeUndefined()
  })
})

describe('hasInk', () => {
  it('takes a few dark pixels for dirt', () => {
    const spotted = (count: number) => ({
      data: blank.data.slice().fill(0, 20 * CELL_SIZE + 10, 20 * CELL_SIZE + 10 + count),
    })
    expect(hasInk(spotted(12))).toBe(false)
    expect(hasInk(spotted(13))).toBe(true)
    // rules run along the edges
    expect(hasInk({ data: blank.data.slice().fill(0, 0, 5 * CELL_SIZE) })).toBe(false)
  })
})
