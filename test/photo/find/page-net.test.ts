import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { drawPicture } from '../../../fixtures/draw/scenes.js'
import { seenGrids } from '../../../src/photo/find/page-net.js'
import { ConvNet } from '../../../src/photo/nets/conv-net.js'
import { readNetFile } from '../../../src/photo/nets/net-file.js'
import { decodePicture } from '../../../src/photo.js'
import { latticesNow, pageNet } from './lattices-now.js'

const WEIGHTS = readFileSync(new URL('../../../src/photo/find/page-net.bin', import.meta.url))
const SEED = 7051
const UNITS = 8000

const reference: { row: number; column: number; outputs: number[] }[] = JSON.parse(
  readFileSync(new URL('page-net-reference.json', import.meta.url), 'utf8'),
)

/** Lays the training program's test pattern into a network's input. */
function pattern(net: ConvNet): ConvNet {
  for (let y = 0; y < net.inputSide; y++) {
    const row = net.inputRow(y)
    for (let x = 0; x < net.inputSide; x++)
      row[x] = Math.round(UNITS * 2 * Math.sin(0.11 * x + 0.02 * y) * Math.cos(0.17 * y))
  }
  return net
}

describe('the page network', () => {
  it('computes what the training program computes from the same file', () => {
    const net = pattern(new ConvNet(readNetFile(WEIGHTS)))
    const outputs = net.run(1 / UNITS)
    expect(reference.length).toBeGreaterThanOrEqual(30)
    for (const { row, column, outputs: expected } of reference) {
      const at = (row * (net.inputSide / net.spacing) + column) * net.outputStep
      // numbers between layers are rounded to sixteen bits
      for (const [k, value] of expected.entries())
        expect(Math.abs(outputs[at + k]! - value)).toBeLessThan(0.01 * Math.max(1, Math.abs(value)))
    }
  })

  it('looks at a part of its square as if nothing had been looked at before', () => {
    const part = { width: 256, height: 192 }
    const fresh = pattern(new ConvNet(readNetFile(WEIGHTS)))
    const expected = Array.from(fresh.run(1 / UNITS, part.width, part.height))
    const used = pattern(new ConvNet(readNetFile(WEIGHTS)))
    const whole = Array.from(used.run(1 / UNITS))
    expect(Array.from(used.run(1 / UNITS, part.width, part.height))).toEqual(expected)
    expect(expected.length).toBe((whole.length * part.height) / used.inputSide)
    expect(Array.from(used.run(1 / UNITS))).toEqual(whole)
  })

  it(`says where on the grid a place lies, in faces it has never seen (seed ${SEED})`, async () => {
    let whole = 0
    for (let i = 0; i < 8; i++) {
      const { data, label } = await drawPicture({
        kind: 'photos',
        seed: SEED + i,
        fonts: 'kept-aside',
        name: 'page',
      })
      const picture = await decodePicture(data)
      const scale = picture.gray.width / picture.fullWidth
      const grid = label.grids[0]!
      const crossings = grid.lattice.map(([x, y]) => ({ x: x * scale, y: y * scale }))
      const off = seenGrids(pageNet, picture.gray).map((places) => medianOffset(places, crossings))
      if (Math.min(...off) < 0.3) whole++
    }
    expect(whole).toBeGreaterThanOrEqual(7)
  })

  it(`is not alone in saying what is a grid: lattices of other counts may look like one to it (seed ${SEED})`, async () => {
    let invented = 0
    for (let i = 0; i < 12; i++) {
      const { data } = await drawPicture({
        kind: 'non-grids',
        seed: SEED + i,
        fonts: 'kept-aside',
        name: 'page',
      })
      const { gray } = await decodePicture(data)
      if (seenGrids(pageNet, gray).length > 0) invented++
      expect(latticesNow(gray)).toEqual([])
    }
    expect(invented).toBeLessThanOrEqual(3)
  })
})

type Spot = { readonly x: number; readonly y: number }

/**
 * How far (in cells) places lie from where the true crossings put them, in the middle, for the best of the four turns.
 */
function medianOffset(
  places: readonly { point: Spot; u: number; v: number }[],
  crossings: readonly Spot[],
): number {
  const cell =
    Math.hypot(crossings[99]!.x - crossings[0]!.x, crossings[99]!.y - crossings[0]!.y) / (9 * Math.SQRT2)
  const turns = [0, 1, 2, 3].map((quarter) => {
    const offsets = places.map(({ point, u, v }) => {
      let [a, b] = [u, v]
      for (let k = 0; k < quarter; k++) [a, b] = [b, 1 - a]
      const at = between(crossings, a * 9, b * 9)
      return Math.hypot(point.x - at.x, point.y - at.y) / cell
    })
    return offsets.sort((a, b) => a - b)[offsets.length >> 1]!
  })
  return Math.min(...turns)
}

function between(crossings: readonly Spot[], u: number, v: number): Spot {
  const column = Math.max(0, Math.min(8, Math.floor(u)))
  const row = Math.max(0, Math.min(8, Math.floor(v)))
  const mix = (name: 'x' | 'y') => {
    const at = (r: number, c: number) => crossings[10 * (row + r) + column + c]![name]
    const above = at(0, 0) + (at(0, 1) - at(0, 0)) * (u - column)
    const below = at(1, 0) + (at(1, 1) - at(1, 0)) * (u - column)
    return above + (below - above) * (v - row)
  }
  return { x: mix('x'), y: mix('y') }
}
