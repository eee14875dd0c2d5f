import { describe, expect, it } from 'vitest'
import { cellOptions, settledCell } from '../../../src/photo/decide/options.js'

describe('what a cell could hold', () => {
  it('is each digit and none, likeliest first, with what it costs against the first', () => {
    const { digits, costs } = cellOptions([0.2, 0.1, 0.5, 0.15, 0.05], 4)
    expect([...digits]).toEqual([2, 0, 3, 1, 4])
    expect([...costs]).toEqual([0.5, 0.2, 0.15, 0.1, 0.05].map((p) => Math.log(0.5 / p)))
  })

  it('leaves digits of equal chance in their order', () => {
    expect([...cellOptions([0.25, 0.25, 0.25, 0.25, 0], 4).digits]).toEqual([0, 1, 2, 3, 4])
    expect([...cellOptions([0, 0.2, 0.4, 0.4, 0], 4).digits]).toEqual([2, 3, 1, 0, 4])
  })

  it('drops scores beyond the order and takes missing ones for as good as impossible', () => {
    const { digits, costs } = cellOptions([0, 0.5, 0, 0, 0, 0.5], 4)
    expect([...digits]).toEqual([1, 0, 2, 3, 4])
    // no reader is surer than a million to one
    for (const cost of costs.slice(1)) expect(cost).toBeCloseTo(Math.log(0.5 / 1e-6), 9)
    expect([...cellOptions([0.1, 0.9], 4).digits]).toEqual([1, 0, 2, 3, 4])
  })

  it('is one thing where a person has settled it', () => {
    expect(settledCell(7)).toEqual({ digits: Uint8Array.of(7), costs: Float64Array.of(0) })
  })
})
