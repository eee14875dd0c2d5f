import { describe, expect, it } from 'vitest'
import { figureShape, likeness } from '../../../src/photo/inks/likeness.js'
import { writtenPage } from './written-page.js'

describe('likeness', () => {
  it('is 1 for a figure and itself, and higher among printed figures of a digit than to written ones', async () => {
    const print: number[] = []
    const mixed: number[] = []
    for (const seed of [71, 72, 73, 74]) {
      const { holds, digits, looks } = await writtenPage(seed)
      const shapes = looks.map((look) => look && figureShape(look.ink))
      for (let a = 0; a < 81; a++) {
        if (holds[a] !== 'given') continue
        expect(likeness(shapes[a]!, shapes[a]!)).toBeCloseTo(1, 5)
        for (let b = 0; b < 81; b++) {
          if (a === b || digits[a] !== digits[b] || !shapes[b]) continue
          if (holds[b] === 'given') print.push(likeness(shapes[a]!, shapes[b]!))
          if (holds[b] === 'entry') mixed.push(likeness(shapes[a]!, shapes[b]!))
        }
      }
    }
    const middle = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!
    expect(middle(print)).toBeGreaterThan(0.97)
    expect(middle(mixed)).toBeLessThan(0.8)
  })

  it('forgives a shift of a pixel', () => {
    const square = (left: number) =>
      Float32Array.from({ length: 26 * 26 }, (_, at) => {
        const [x, y] = [at % 26, Math.floor(at / 26)]
        return x >= left && x < left + 5 && y >= 8 && y < 18 ? 1 : 0
      })
    expect(likeness(square(10), square(11))).toBeCloseTo(1, 5)
    expect(likeness(square(10), square(16))).toBeLessThan(0.3)
  })
})
