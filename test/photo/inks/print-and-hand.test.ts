import { describe, expect, it } from 'vitest'
import { Random } from '../../../fixtures/draw/random.js'
import { type PageFigure, partPrintAndHand } from '../../../src/photo/inks/print-and-hand.js'
import { HAND_SPREADS, PRINT_SPREADS } from '../../../src/photo/inks/traits.js'

const PRINT = [0.55, 0, 0.02, 0.9, -0.6, 0, 0, 0]
const HAND = [0.68, 0.06, 0, 1.15, -0.25, 0.02, 0, 0.25]

function figures(count: number, middle: readonly number[], spreads: readonly number[], random: Random) {
  return Array.from({ length: count }, () => middle.map((value, k) => value + spreads[k]! * random.normal()))
}

function page(prints: number, hands: number, printed: (hand: boolean) => number, seed: number): PageFigure[] {
  const random = new Random(seed)
  return [
    ...figures(prints, PRINT, PRINT_SPREADS, random).map((traits) => ({
      traits,
      printed: printed(false),
      small: false,
    })),
    ...figures(hands, HAND, HAND_SPREADS, random).map((traits) => ({
      traits,
      printed: printed(true),
      small: false,
    })),
  ]
}

const noLikeness = () => undefined

describe('partPrintAndHand', () => {
  it('parts figures that the reader is of two minds about', () => {
    const { odds } = partPrintAndHand(
      page(28, 20, (hand) => (hand ? 0.45 : 0.6), 5),
      noLikeness,
      50,
    )
    expect(odds.slice(0, 28).filter((value) => value > 0).length).toBeGreaterThanOrEqual(27)
    expect(odds.slice(28).filter((value) => value < 0).length).toBeGreaterThanOrEqual(18)
  })

  it('does not turn the reader over where it is sure of most', () => {
    // more handwriting than print, and the reader sure of all print
    const { odds } = partPrintAndHand(
      page(23, 45, (hand) => (hand ? 0.02 : 0.999), 6),
      noLikeness,
      50,
    )
    expect(odds.slice(0, 23).every((value) => value > 0)).toBe(true)
    expect(odds.slice(23).every((value) => value < 0)).toBe(true)
  })

  it('lets shape decide where nothing else differs', () => {
    const random = new Random(9)
    const all = figures(40, PRINT, PRINT_SPREADS, random).map((traits, i) => ({
      traits,
      printed: i < 25 ? 0.9 : 0.6,
      small: false,
    }))
    const isPrint = (i: number) => i < 25
    const alike = (a: number, b: number) =>
      a % 5 === b % 5 ? (isPrint(a) && isPrint(b) ? 0.99 : 0.6) : undefined
    const { odds } = partPrintAndHand(all, alike, 50)
    expect(odds.map((value) => value > 0)).toEqual(all.map((_, i) => isPrint(i)))
  })

  it('does not drop a sure figure that was cut out badly', () => {
    const all = page(28, 15, (hand) => (hand ? 0.05 : 0.9999), 7)
    const shadowed = { ...all[3]!, traits: [0.75, -0.12, 0.1, 0.8, -0.6, 0, 0, 0.3] }
    const { odds } = partPrintAndHand(all.with(3, shadowed), noLikeness, 50)
    expect(odds[3]).toBeGreaterThan(0)
  })
})
