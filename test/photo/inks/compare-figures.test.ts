import { describe, expect, it } from 'vitest'
import { STANDARD } from '../../../src/grid/geometry.js'
import { CERTAIN } from '../../../src/photo/certainty.js'
import type { CellScores } from '../../../src/photo/digits/digit-reader.js'
import { compareFigures } from '../../../src/photo/inks/compare-figures.js'
import { isWrittenIn } from '../../../src/photo/inks/written-page.js'
import { CELL_PIXELS, type WrittenPage, writtenPage } from './written-page.js'

/** A reader that knows digits, but of print and handwriting only as much as `printed` says. */
function scoresOf({ holds, digits }: WrittenPage, printed: (cell: number) => number): CellScores[] {
  return holds.map((kind, cell) => {
    const shares = new Float32Array(10)
    if (kind === 'nothing' || kind === 'marks') {
      shares[0] = 1
      return { digits: shares, handwritten: kind === 'marks' ? 1 : 0 }
    }
    shares[digits[cell]!] = 1
    return { digits: shares, handwritten: 1 - printed(cell) }
  })
}

/** A page with pencil marks. */
const MARKED = 45

const compare = (page: WrittenPage, scores: readonly CellScores[]) =>
  compareFigures(STANDARD, scores, page.pictures, page.looks, CELL_PIXELS)

describe('isWrittenIn', () => {
  const figures = (...hands: readonly number[]): CellScores[] =>
    hands.map((handwritten) => {
      const digits = new Float32Array(10)
      digits[4] = 1
      return { digits, handwritten }
    })
  const print = Array.from({ length: 28 }, () => 0.01)

  it('believes several figures that surely look written, or many that somewhat do', () => {
    expect(isWrittenIn(figures(...print, 0.99, 0.98, 0.99))).toBe(true)
    expect(isWrittenIn(figures(...print, ...Array.from({ length: 20 }, () => 0.7)))).toBe(true)
  })

  it('takes one, or a few in doubt, for print that came out badly', () => {
    expect(isWrittenIn(figures(...print))).toBe(false)
    expect(isWrittenIn(figures(...print, 0.97))).toBe(false)
    expect(isWrittenIn(figures(...print, 0.6, 0.4, 0.5))).toBe(false)
  })

  it("takes what all figures show for the page's own look, but not what somebody wrote beside it", () => {
    const strange = Array.from({ length: 28 }, (_, k) => 0.04 + 0.01 * k)
    expect(isWrittenIn(figures(...strange, 0.9, 0.9, 0.9))).toBe(false)
    expect(isWrittenIn(figures(...strange, ...Array.from({ length: 9 }, () => 0.995)))).toBe(true)
  })
})

describe('compareFigures', () => {
  it('tells print from handwriting by the page, where the reader knows of five figures only', async () => {
    let figures = 0
    let wrong = 0
    for (let seed = 41; seed < 53; seed++) {
      const page = await writtenPage(seed)
      const entries = page.holds.flatMap((kind, cell) => (kind === 'entry' ? [cell] : []))
      const known = new Set(entries.slice(0, 5))
      const seen = compare(
        page,
        scoresOf(page, (cell) => (known.has(cell) ? 0.005 : 0.95)),
      )
      page.holds.forEach((kind, cell) => {
        if (kind !== 'given' && kind !== 'entry') return
        figures++
        const asPrint = seen[cell]!.digits[0]! < 0.5
        if (asPrint !== (kind === 'given')) wrong++
      })
    }
    expect(figures).toBeGreaterThan(500)
    // no reader's eye is needed for all but a few
    expect(wrong).toBeLessThan(0.03 * figures)
  }, 60_000)

  it('keeps which digit it would be', async () => {
    const page = await writtenPage(41)
    const entries = page.holds.flatMap((kind, cell) => (kind === 'entry' ? [cell] : []))
    const known = new Set(entries.slice(0, 5))
    const seen = compare(
      page,
      scoresOf(page, (cell) => (known.has(cell) ? 0.005 : 0.95)),
    )
    for (const cell of entries) {
      const shares = Array.from(seen[cell]!.digits)
      expect(shares.slice(1).indexOf(Math.max(...shares.slice(1))) + 1).toBe(page.digits[cell])
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 5)
    }
  })

  it('leaves a page alone that nobody has written in', async () => {
    for (const seed of [61, 62, 63]) {
      const page = await writtenPage(seed, { untouched: true })
      const scores = scoresOf(page, () => 0.97)
      compare(page, scores).forEach(({ digits, handwritten }, cell) => {
        expect(digits.indexOf(Math.max(...digits))).toBe(page.digits[cell])
        expect(handwritten).toBeLessThan(0.01)
      })
    }
  })

  it('takes a lone figure that looks written for print that came out badly, and doubts it', async () => {
    const page = await writtenPage(61, { untouched: true })
    const given = page.holds.findIndex((kind, cell) => kind === 'given' && page.looks[cell] !== undefined)
    const seen = compare(
      page,
      scoresOf(page, (cell) => (cell === given ? 0.05 : 0.97)),
    )[given]!
    expect(seen.digits[page.digits[given]!]).toBeGreaterThan(0.5)
    expect(seen.handwritten).toBeGreaterThan(CERTAIN.handwritten)
  })

  it('takes one small figure, where there are no more, for a piece of print and not for a pencil mark', async () => {
    const page = await writtenPage(61, { untouched: true })
    const given = page.holds.findIndex((kind, cell) => kind === 'given' && page.looks[cell] !== undefined)
    const looks = page.looks.map((look, cell) =>
      look && cell === given ? { ...look, height: look.height * 0.4 } : look,
    )
    const scores = scoresOf(page, () => 0.97)
    const seen = compareFigures(STANDARD, scores, page.pictures, looks, CELL_PIXELS)[given]!
    expect(seen.digits[0]).toBeLessThan(0.5)
    expect(seen.handwritten).toBeGreaterThanOrEqual(0.5)
  })

  it('does not take a pencil mark for a given, however sure the reader is, on a page of larger print', async () => {
    const page = await writtenPage(MARKED)
    const marked = page.holds.findIndex((kind, cell) => kind === 'marks' && page.looks[cell] !== undefined)
    expect(marked).toBeGreaterThanOrEqual(0)
    // entries as sure print too, so that nothing but size speaks
    const scores = scoresOf(page, () => 0.999)
    const shares = new Float32Array(10)
    shares[5] = 0.97
    shares[0] = 0.03
    scores[marked] = { digits: shares, handwritten: 0 }
    expect(compare(page, scores)[marked]!.digits[0]).toBeGreaterThan(0.5)
  })

  it('doubts what it could not compare on a page that has been written in', async () => {
    const page = await writtenPage(41)
    const given = page.holds.indexOf('given')
    const looks = page.looks.map((look, cell) => (cell === given ? undefined : look))
    const entries = page.holds.flatMap((kind, cell) => (kind === 'entry' ? [cell] : []))
    const scores = scoresOf(page, (cell) => (entries.includes(cell) ? 0.02 : 0.99))
    const seen = compareFigures(STANDARD, scores, page.pictures, looks, CELL_PIXELS)
    expect(seen[given]!.digits[0]).toBeLessThan(0.5)
    expect(seen[given]!.handwritten).toBeGreaterThan(0.2)
  })
})
