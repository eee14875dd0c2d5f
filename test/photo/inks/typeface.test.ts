import { beforeAll, describe, expect, it } from 'vitest'
import { CELL_SIZE, type CellPicture, type CellScores } from '../../../src/photo/digits/digit-reader.js'
import { weighByTypeface } from '../../../src/photo/inks/typeface.js'
import { type WrittenPage, writtenPage } from './written-page.js'

let page: WrittenPage
beforeAll(async () => {
  page = await writtenPage(61, { untouched: true })
})

function scoresOf(shares: Readonly<Record<number, number>>): CellScores {
  const digits = new Float32Array(10)
  for (const [digit, share] of Object.entries(shares)) digits[Number(digit)] = share
  return { digits, handwritten: 0 }
}

/** A reader that is sure of every cell but one. */
function sureBut(cell: number, shares: Readonly<Record<number, number>>): CellScores[] {
  return page.digits.map((digit, other) => scoresOf(other === cell ? shares : { [digit]: 1 }))
}

const chance = (scores: readonly CellScores[], cell: number, digit: number) => scores[cell]!.digits[digit]!

/** A shadow's edge across a cell. */
const shadow: CellPicture = {
  data: Uint8Array.from({ length: CELL_SIZE ** 2 }, (_, k) =>
    (k % CELL_SIZE) + Math.floor(k / CELL_SIZE) < CELL_SIZE * 0.9 ? 60 : 250,
  ),
}

describe('weighByTypeface', () => {
  it('tells digits by the figures that the reader is sure of', () => {
    let better = 0
    const figures = page.digits.flatMap((digit, cell) => (digit ? [cell] : []))
    const often = figures.filter(
      (cell) => figures.filter((k) => page.digits[k] === page.digits[cell]).length > 1,
    )
    expect(often.length).toBeGreaterThan(15)
    for (const cell of often) {
      const digit = page.digits[cell]!
      const other = figures.map((k) => page.digits[k]!).find((d) => d !== digit)!
      const seen = weighByTypeface(sureBut(cell, { [digit]: 0.45, [other]: 0.55 }), page.pictures)
      if (chance(seen, cell, digit) > 0.8) better++
    }
    expect(better).toBeGreaterThan(0.95 * often.length)
  })

  it('takes what is like no figure of the page for none, where the reader is in doubt', () => {
    const blank = page.digits.indexOf(0)
    const pictures = page.pictures.map((picture, cell) => (cell === blank ? shadow : picture))
    const seen = weighByTypeface(sureBut(blank, { 0: 0.1, 4: 0.6, 9: 0.3 }), pictures)
    expect(chance(seen, blank, 0)).toBeGreaterThan(0.8)
  })

  it('leaves shares that add up to 1, and lets go of no figure that the reader is sure of', () => {
    const blank = page.digits.indexOf(0)
    const seen = weighByTypeface(sureBut(blank, { 0: 0.9, 4: 0.1 }), page.pictures)
    for (const [cell, { digits }] of seen.entries()) {
      expect(digits.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 5)
      if (page.digits[cell]) expect(digits[page.digits[cell]!]).toBeGreaterThan(0.99)
    }
  })

  it('has nothing to say where all is sure, or where few figures are', () => {
    const sure = page.digits.map((digit) => scoresOf({ [digit]: 1 }))
    expect(weighByTypeface(sure, page.pictures)).toBe(sure)
    const unsure = page.digits.map((digit) => scoresOf(digit ? { [digit]: 0.9, 0: 0.1 } : { 0: 1 }))
    expect(weighByTypeface(unsure, page.pictures)).toBe(unsure)
  })
})
