import { describe, expect, it } from 'vitest'
import { CELL_SIZE, type CellPicture, type DigitReader } from '../../src/photo/digits/digit-reader.js'
import { QUARTER_TURNS, turnCellPicture, turnedIndices } from '../../src/photo/turn.js'
import { likelyTurns } from '../../src/photo/upright.js'

/** A cell whose top left pixel names its digit: only upright pictures have it there. */
function cellOf(digit: number): CellPicture {
  const data = new Uint8Array(CELL_SIZE * CELL_SIZE).fill(255)
  if (digit > 0) data[0] = digit
  return { data }
}

/** Knows a digit only by its upright mark; anything else with ink is any digit for all it knows. */
const markReader: DigitReader & { cellsRead: number } = {
  name: 'mark',
  cellsRead: 0,
  async read(cells) {
    this.cellsRead += cells.length
    return cells.map(({ data }) => {
      const digits = new Float32Array(10)
      if (data[0] !== 255) digits[data[0]!] = 1
      else if (data.some((pixel) => pixel !== 255)) digits.fill(1 / 9, 1)
      else digits[0] = 1
      return { digits, handwritten: 0 }
    })
  },
  async close() {},
}

const PAGE = Array.from({ length: 81 }, (_, cell) => (cell % 3 === 0 ? (cell % 9) + 1 : 0))

describe('likelyTurns', () => {
  it('finds each of the four turns from the digits and puts the cells in reading order', async () => {
    for (const turns of QUARTER_TURNS) {
      // lay the page so that `turns` quarter turns clockwise bring it upright
      const back = QUARTER_TURNS[(4 - turns) % 4]!
      const found = Array.from(turnedIndices(9, back), (from) => turnCellPicture(cellOf(PAGE[from]!), back))
      const [upright, other] = await likelyTurns(found, markReader, {})
      if (!upright) throw new Error('no turn')
      expect(upright.turns).toBe(turns)
      expect(other).toBeUndefined()
      expect(upright.scores.map(({ digits }) => digits.indexOf(Math.max(...digits)))).toEqual(PAGE)
      expect(upright.pictures.map(({ data }) => data)).toEqual(PAGE.map((digit) => cellOf(digit).data))
    }
  })

  it('is not led astray by handwriting, which reads as no digit upright and a little like a digit when turned', async () => {
    // the top right pixel marks handwriting where it should be; the reader is unsure of all that is turned
    const written = (): CellPicture => ({
      // a T: its bar along the upper edge, where no figure is looked for, its stem taller than wide
      data: Uint8Array.from({ length: CELL_SIZE * CELL_SIZE }, (_, at) => {
        const [x, y] = [at % CELL_SIZE, Math.floor(at / CELL_SIZE)]
        return y < 2 || (x >= 16 && x < 24 && y < 30) ? 20 : 255
      }),
    })
    const reader: DigitReader = {
      ...markReader,
      async read(cells) {
        return cells.map(({ data }) => {
          const digits = new Float32Array(10)
          const inked = data.some((pixel) => pixel !== 255)
          if (data[0]! > 0 && data[0]! < 10) digits[data[0]!] = 1
          else if (!inked) digits[0] = 1
          else if (data[0] === 20 && data.at(-1) === 255 && data[CELL_SIZE - 1] === 20) digits[0] = 1
          else
            digits
              .fill(0.15, 0, 1)
              .fill(0.6, 9)
              .fill(0.25 / 8, 1, 9)
          return { digits, handwritten: 0 }
        })
      },
    }
    const page = PAGE.map((digit, cell) => (digit ? cellOf(digit) : cell % 3 === 1 ? written() : cellOf(0)))
    for (const turns of QUARTER_TURNS) {
      const back = QUARTER_TURNS[(4 - turns) % 4]!
      const found = Array.from(turnedIndices(9, back), (from) => turnCellPicture(page[from]!, back))
      const [upright] = await likelyTurns(found, reader, {})
      expect(upright?.turns).toBe(turns)
    }
  })

  it('leaves two turns open on a page without digits', async () => {
    const blank = PAGE.map(() => cellOf(0))
    const pages = await likelyTurns(blank, markReader, {})
    expect(pages.map(({ nats }) => nats)).toEqual([0, 0])
  })

  it('stops comparing turns once one is far ahead', async () => {
    markReader.cellsRead = 0
    await likelyTurns(PAGE.map(cellOf), markReader, {})
    // all 81 cells once, and two small groups of the filled ones at the three other turns
    expect(markReader.cellsRead).toBeLessThanOrEqual(81 + 3 * 12)
  })
})
