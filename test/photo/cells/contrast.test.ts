import { describe, expect, it } from 'vitest'
import { type CellTone, lightOnDark } from '../../../src/photo/cells/contrast.js'

/** A page of chequered ground with dark figures in every third cell, between pale rules. */
const page: readonly CellTone[] = Array.from({ length: 81 }, (_, cell) => {
  const ground = cell % 2 ? 200 : 130
  return {
    ground,
    darkest: cell % 3 ? ground - 6 : ground - 70,
    lightest: ground + 4,
    rule: cell % 2 ? 150 : 140,
  }
})

function lightAt(cell: number, tone: CellTone): boolean | undefined {
  return lightOnDark(
    page.map((other, k) => (k === cell ? tone : other)),
    9,
  )[cell]
}

describe('lightOnDark', () => {
  it('does not turn over a tinted cell between pale rules whose dark figure is faint', () => {
    expect(lightAt(75, { ground: 123, darkest: 102, lightest: 126, rule: 153 })).toBe(false)
  })

  it('turns over a dark cell with a light figure on the same page', () => {
    expect(lightAt(75, { ground: 60, darkest: 55, lightest: 170, rule: 160 })).toBe(true)
  })
})
