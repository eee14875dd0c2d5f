import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { figureInk } from '../../../src/photo/inks/figure-ink.js'
import { centredFigure } from '../../../src/photo/print-or-hand/centred-figure.js'
import { EntryNet } from '../../../src/photo/print-or-hand/entry-net.js'
import { packedBytes } from '../../../src/photo/weights/entry-net.js'

const SIDE = 40
const bytes = (text: string) => new Uint8Array(Buffer.from(text, 'base64'))

/** Cells, their figures brought to one size, and what PyTorch computes of these (`fixtures/train/train_entries.py`). */
const reference = JSON.parse(readFileSync(new URL('./reference-entries.json', import.meta.url), 'utf8')) as {
  readonly cells: readonly string[]
  readonly figures: readonly string[]
  readonly logits: readonly (readonly number[])[]
}

describe('a figure by itself', () => {
  it('is cut and brought to one size as in training', () => {
    for (const [i, cell] of reference.cells.entries()) {
      const ink = figureInk({ data: bytes(cell) })!
      const figure = centredFigure(ink, SIDE, SIDE)
      bytes(reference.figures[i]!).forEach((expected, at) => {
        expect(Math.abs(figure[at]! - expected)).toBeLessThanOrEqual(1)
      })
    }
  })

  it('comes out the same wherever it stands, however small and pale it is', () => {
    const bar = (x: number, y: number, height: number, grey: number) => {
      const data = new Uint8Array(SIDE * SIDE).fill(255)
      for (let v = y; v < y + height; v++) for (let u = x; u < x + height / 5; u++) data[v * SIDE + u] = grey
      return centredFigure(figureInk({ data })!, SIDE, SIDE)
    }
    const plain = bar(18, 10, 20, 0)
    const darkest = (picture: Uint8Array) => Math.min(...picture)
    for (const other of [bar(8, 8, 20, 0), bar(20, 12, 10, 0), bar(18, 10, 20, 150)]) {
      expect(darkest(other)).toBe(darkest(plain))
      const off = other.reduce((sum, value, at) => sum + Math.abs(value - plain[at]!), 0)
      const ink = plain.reduce((sum, value) => sum + 255 - value, 0)
      expect(off / ink).toBeLessThan(0.35)
    }
  })
})

describe('the network of single figures', () => {
  it('computes what PyTorch computes, with weights of six bits', async () => {
    const net = new EntryNet(await packedBytes())
    const edge = (SIDE - net.side) / 2
    for (const [i, figure] of reference.figures.entries()) {
      const whole = bytes(figure)
      const rows = Array.from({ length: net.side }, (_, y) => {
        const from = (y + edge) * SIDE + edge
        return [...whole.subarray(from, from + net.side)]
      })
      const logits = net.run(Uint8Array.from(rows.flat()))
      reference.logits[i]!.forEach((expected, k) => {
        // layers hand on whole numbers of 16 bits
        expect(Math.abs(logits[k]! - expected)).toBeLessThan(0.02 + 0.002 * Math.abs(expected))
      })
    }
  })
})
