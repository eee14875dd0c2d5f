import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import * as fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { CELL_SIZE, type CellScores } from '../../../src/photo/digits/digit-reader.js'
import { DigitNet } from '../../../src/photo/digits/net.js'
import { crc32 } from '../../../src/photo/nets/net-file.js'
import { createNetworkReader } from '../../../src/photo/node.js'
import { type DrawnCell, drawCells, drawMarks } from './drawn-cells.js'

const WEIGHTS = readFileSync(new URL('../../../src/photo/digits/digit-net.bin', import.meta.url))
const SEED = 7041

function choice({ digits }: CellScores): number {
  return digits.indexOf(Math.max(...digits))
}

let cells: DrawnCell[]
beforeAll(async () => {
  cells = await drawCells(300, SEED)
})

async function wrongCells(weights?: URL): Promise<number> {
  const scores = await createNetworkReader(weights).read(cells.map(({ picture }) => picture))
  return scores.filter((score, i) => choice(score) !== cells[i]!.digit).length
}

describe('the network reader', () => {
  it('reads drawn cells of families it has never seen, at most one in a hundred wrong', async () => {
    expect(await wrongCells()).toBeLessThanOrEqual(3)
  })

  it('would fail that with weights that are not the trained ones', async () => {
    const spoilt = Uint8Array.from(WEIGHTS)
    const view = new DataView(spoilt.buffer)
    const first = 12 + view.getUint32(8, true)
    // every byte of the first layer's weights is turned to its opposite; the checksum is made to fit
    for (let i = first; i < first + 25 * 32; i++) view.setInt8(i, -view.getInt8(i))
    view.setUint32(spoilt.length - 4, crc32(spoilt.subarray(0, spoilt.length - 4)), true)
    const file = join(mkdtempSync(join(tmpdir(), 'digit-net-')), 'spoilt.bin')
    writeFileSync(file, spoilt)
    expect(await wrongCells(pathToFileURL(file))).toBeGreaterThan(100)
  })

  it('gives probabilities that sum to 1, the same alone as among others', async () => {
    const reader = createNetworkReader()
    const picture = fc
      .uint8Array({ minLength: CELL_SIZE ** 2, maxLength: CELL_SIZE ** 2 })
      .map((data) => ({ data }))
    await fc.assert(
      fc.asyncProperty(fc.array(picture, { maxLength: 4 }), async (pictures) => {
        const together = await reader.read(pictures)
        expect(together).toHaveLength(pictures.length)
        for (const [i, score] of together.entries()) {
          expect(score.digits.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 5)
          expect(score.handwritten).toBeGreaterThanOrEqual(0)
          expect(score.handwritten).toBeLessThanOrEqual(1)
          expect(await reader.read([pictures[i]!])).toEqual([score])
        }
      }),
      { seed: SEED, numRuns: 30 },
    )
  })

  it('takes small figures for marks, not for a given, and print for print', async () => {
    const reader = createNetworkReader()
    const marks = await reader.read((await drawMarks(60, SEED)).map(({ picture }) => picture))
    expect(marks.filter(({ handwritten }) => handwritten > 0.5).length).toBeGreaterThanOrEqual(54)
    expect(marks.filter((score) => choice(score) === 0).length).toBeGreaterThanOrEqual(54)
    const print = await reader.read(cells.map(({ picture }) => picture))
    expect(print.filter(({ handwritten }) => handwritten > 0.5).length).toBeLessThanOrEqual(6)
  })

  it('looks more closely at doubtful cells: moved about, it makes the same of clean ones, and less of chance', async () => {
    const reader = createNetworkReader()
    const pictures = cells.map(({ picture }) => picture)
    const [once, closely] = [await reader.read(pictures), await reader.readClosely!(pictures)]
    let surest = 0
    for (const [i, score] of once.entries()) {
      if (Math.max(...score.digits) < 0.999) continue
      surest++
      expect(choice(closely[i]!)).toBe(choice(score))
    }
    expect(surest).toBeGreaterThan(cells.length / 2)
    // one pixel to the right and down is what the network sees one pixel up and to the left of there
    const net = new DigitNet(WEIGHTS)
    const moved = Uint8Array.from({ length: CELL_SIZE ** 2 }, (_, at) => {
      const [x, y] = [at % CELL_SIZE, Math.floor(at / CELL_SIZE)]
      return x === 0 || y === 0 ? 255 : pictures[0]!.data[at - CELL_SIZE - 1]!
    })
    const expected = [...net.run(pictures[0]!.data)]
    expect([...net.run(moved, 1, 1)]).toEqual(expected)
  })

  it('stops when asked to', async () => {
    const reading = createNetworkReader().read(
      cells.map(({ picture }) => picture),
      { signal: AbortSignal.abort() },
    )
    await expect(reading).rejects.toMatchObject({ code: 'aborted' })
  })

  it('opens its file only when cells are to be read', async () => {
    const missing = createNetworkReader(pathToFileURL('/nowhere/digit-net.bin'))
    await expect(missing.close()).resolves.toBeUndefined()
    const printed = cells.find(({ digit }) => digit !== 0)!
    await expect(missing.read([printed.picture])).rejects.toThrow(/digit-net/)
  })
})

const reference: { cells: string[]; logits: number[][] } = JSON.parse(
  readFileSync(new URL('reference.json', import.meta.url), 'utf8'),
)

describe('the network', () => {
  it('computes what the training program computes from the same file', () => {
    const net = new DigitNet(WEIGHTS)
    expect(reference.cells.length).toBeGreaterThanOrEqual(20)
    for (const [i, text] of reference.cells.entries()) {
      const logits = net.run(new Uint8Array(Buffer.from(text, 'base64')))
      // numbers between layers are rounded to sixteen bits
      for (const [k, expected] of reference.logits[i]!.entries())
        expect(Math.abs(logits[k]! - expected)).toBeLessThan(2e-3)
    }
  })

  it('gives the same answer again after other cells', () => {
    const net = new DigitNet(WEIGHTS)
    const [first, second] = reference.cells.map((text) => new Uint8Array(Buffer.from(text, 'base64')))
    const before = [...net.run(first!)]
    expect([...net.run(second!)]).not.toEqual(before)
    expect([...net.run(first!)]).toEqual(before)
  })

  it('refuses a file that was cut short or damaged', () => {
    expect(() => new DigitNet(WEIGHTS.subarray(0, 5))).toThrow(/does not begin/)
    expect(() => new DigitNet(WEIGHTS.subarray(0, WEIGHTS.length - 1))).toThrow(/checksum/)
    fc.assert(
      fc.property(fc.nat(WEIGHTS.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
        const damaged = Uint8Array.from(WEIGHTS)
        damaged[at] = damaged[at]! ^ change
        expect(() => new DigitNet(damaged)).toThrow(/Install gridreason anew/)
      }),
      { seed: SEED, numRuns: 25 },
    )
  })
})
