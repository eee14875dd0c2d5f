import { describe, expect, it } from 'vitest'
import { InputError } from '../src/errors.js'
import * as shape from '../src/shape.js'

interface Tree {
  readonly name: 'leaf' | 'branch'
  readonly under?: readonly Tree[]
}
const tree: shape.Shape<Tree> = shape.object<Tree>({
  name: shape.name(['leaf', 'branch'], 'a part of a tree'),
  under: shape.optional(shape.list(shape.later(() => tree))),
})

const misfit = (wanted: shape.Shape, value: unknown) => {
  const result = shape.fitted(wanted, value)
  return result.ok ? undefined : result.misfit
}

describe('a misfit', () => {
  it('says where, what was found and what was expected', () => {
    expect(misfit(tree, { name: 'branch', under: [{ name: 'leaf' }, { name: 'branhc' }] })).toEqual({
      path: 'under.1.name',
      found: '"branhc"',
      expected: 'a part of a tree; did you mean branch?',
    })
    expect(misfit(shape.list(shape.whole(1, 9)), [1, 9, 10])).toEqual({
      path: '2',
      found: '10',
      expected: 'a whole number from 1 to 9',
    })
    expect(misfit(tree, [])).toEqual({ path: '', found: 'a list of 0', expected: 'an object' })
    expect(misfit(tree, { name: 'leaf', height: 2 })).toEqual({
      path: 'height',
      found: '2',
      expected: 'only name, under',
    })
  })
  it('is a hole in a list, an infinite number, an unsafe one', () => {
    // biome-ignore lint/suspicious/noSparseArray: holes are the point
    expect(misfit(shape.list(shape.amount()), [1, , 2])?.path).toBe('1')
    expect(misfit(shape.amount(), Number.POSITIVE_INFINITY)).toBeDefined()
    expect(misfit(shape.amount(), Number.NaN)).toBeDefined()
    expect(misfit(shape.whole(), 2 ** 53)).toBeDefined()
  })
  it('is a name that every object has', () => {
    expect(misfit(shape.record(['leaf'], shape.flag), { constructor: true })).toBeDefined()
    expect(misfit(tree, JSON.parse('{"name":"leaf","__proto__":{"under":[]}}'))).toBeDefined()
    expect(misfit(shape.cases<{ kind: 'a' }, 'kind'>('kind', { a: {} }), { kind: 'toString' })).toBeDefined()
  })
  it('is a value that holds itself', () => {
    const endless: { name: string; under: unknown[] } = { name: 'branch', under: [] }
    endless.under.push(endless)
    expect(misfit(tree, endless)?.found).toBe('values more than 500 deep')
  })
})

describe('what fits', () => {
  it('is copied, without parts that are undefined', () => {
    const value = { name: 'branch', under: [{ name: 'leaf', under: undefined }] }
    const result = shape.fitted(tree, value)
    expect(result).toStrictEqual({ ok: true, value: { name: 'branch', under: [{ name: 'leaf' }] } })
    expect(result.ok && result.value).not.toBe(value)
  })
  it.each(['', 'AAAA', 'AA==', 'AAA='])('is base64: %j', (text) =>
    expect(misfit(shape.base64, text)).toBe(undefined),
  )
  it.each(['A', 'AA', 'A===', 'AA_A', 'AA=A', ' AAA'])('is not base64: %j', (text) =>
    expect(misfit(shape.base64, text)).toBeDefined(),
  )
})

it('saved data that does not fit is an error that says so', () => {
  expect(() => shape.savedAs(tree, { name: 7 }, 'tree')).toThrow(InputError)
  expect(() => shape.savedAs(tree, { name: 7 }, 'tree')).toThrow(
    'Saved tree at "name": found 7; expected a part of a tree.',
  )
})
