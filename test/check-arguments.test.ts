import { describe, expect, it } from 'vitest'
import {
  abortSignal,
  amount,
  arrayLike,
  boolean,
  type Check,
  callback,
  checkOptions,
  count,
  listOf,
  nearNames,
  object,
  oneOf,
  string,
  whole,
} from '../src/check-arguments.js'

const argument = (message: RegExp) =>
  expect.objectContaining({ name: 'InputError', code: 'argument', message: expect.stringMatching(message) })

/** One value of each kind that JavaScript has. */
const KINDS = [undefined, null, true, 0, 'a', 1n, Symbol('s'), () => {}, {}, [], new Date(0), Number.NaN]

const CASES: Record<string, { check: Check; takes: readonly unknown[]; refuses: readonly unknown[] }> = {
  boolean: { check: boolean, takes: [true, false], refuses: KINDS.filter((v) => typeof v !== 'boolean') },
  string: { check: string, takes: ['', 'a'], refuses: KINDS.filter((v) => typeof v !== 'string') },
  callback: { check: callback, takes: [() => {}], refuses: KINDS.filter((v) => typeof v !== 'function') },
  object: { check: object, takes: [{}, []], refuses: [undefined, null, 1, 'a', () => {}] },
  abortSignal: {
    check: abortSignal,
    takes: [AbortSignal.abort(), new AbortController().signal],
    refuses: [...KINDS, new AbortController(), { aborted: false }],
  },
  whole: { check: whole(2, 4), takes: [2, 3, 4], refuses: [1, 5, 2.5, '3', 3n, Number.NaN, null, undefined] },
  amount: {
    check: amount(0),
    takes: [0, 0.5, Number.POSITIVE_INFINITY],
    refuses: [-1, Number.NaN, '1', null, undefined, 1n, new Date(5)],
  },
  count: {
    check: count(1),
    takes: [1, 7, Number.POSITIVE_INFINITY],
    refuses: [0, 1.5, Number.NEGATIVE_INFINITY, Number.NaN, '1'],
  },
  oneOf: {
    check: oneOf(['scan', 'mark']),
    takes: ['scan', 'mark'],
    refuses: ['Scan', '', 0, null, ['scan']],
  },
  listOf: {
    check: listOf(whole(1)),
    takes: [[], [1, 2]],
    refuses: [undefined, 'a', { length: 1 }, [0], [1, '2'], new Array(1)],
  },
  arrayLike: {
    check: arrayLike,
    takes: [[], [1], new Uint8Array(2), { length: 0 }],
    refuses: [undefined, null, 'abc', {}, { length: -1 }, { length: '1' }, () => {}],
  },
}

describe.each(Object.entries(CASES))('%s', (_, { check, takes, refuses }) => {
  it('takes what it should', () => {
    for (const value of takes) expect(() => check(value, 'thing')).not.toThrow()
  })

  it('refuses all else, and names it', () => {
    for (const value of refuses)
      expect(() => check(value, 'thing')).toThrow(argument(/^`thing(\[0\]|\[1\])?` must be/))
  })
})

describe('options', () => {
  interface Sample {
    readonly limit?: number
    readonly title?: string
  }
  const checks = { limit: count(0), title: string }
  const options = (value: unknown) => () => checkOptions<Sample>(value as Sample, checks)

  it('may be left out, and so may each of them', () => {
    for (const value of [undefined, {}, { limit: undefined }, { limit: 2, title: 'a' }, Object.create(null)])
      expect(options(value)).not.toThrow()
  })

  it('are an object', () => {
    for (const value of [null, 3, 'limit', true, [], () => {}])
      expect(options(value)).toThrow(argument(/^`options` must/))
  })

  it('have known names; near ones are named', () => {
    expect(options({ limits: 3 })).toThrow(
      argument(/no option "limits" here; did you mean limit\?.*limit, title/),
    )
    expect(options({ depth: 3 })).toThrow(argument(/no option "depth" here\. Known options: limit, title\./))
    expect(options({ constructor: 3 })).toThrow(argument(/no option "constructor"/))
    expect(options(Object.create({ depth: 3 }))).toThrow(argument(/no option "depth"/))
    expect(options({ depth: undefined })).toThrow(argument(/no option "depth"/))
  })

  it('have values of the right kind', () => {
    expect(options({ limit: 'two' })).toThrow(
      argument(/^`limit` must be a whole number from 0, not "two"\.$/),
    )
    expect(options({ title: null })).toThrow(argument(/^`title` must be a string, not null\.$/))
  })
})

describe('names that are near', () => {
  const names = ['x-wing', 'xy-wing', 'w-wing', 'naked-pair', 'hidden-pair']
  it.each([
    ['xwing', ['x-wing']],
    ['X-Wing', ['x-wing']],
    ['XY wing', ['xy-wing']],
    ['naked-pairs', ['naked-pair']],
    ['nakedpiar', ['naked-pair']],
    ['y-wing', ['x-wing', 'xy-wing', 'w-wing']],
    ['', []],
    ['---', []],
    ['swordfish', []],
    ['x'.repeat(1_000_000), []],
  ])('%.20s', (name, near) => {
    expect(nearNames(name, names)).toEqual(near)
  })
})
