import { describe, expect, it } from 'vitest'
import * as core from '../src/index.js'
import { type Callable, wrongOutcomes } from './support/argument-attempts.js'
import { CORE, type Entries, METHODS } from './support/entries.js'

/** The errors that what is handed in may meet. */
const CODES = new Set<string>([
  'argument',
  'text-empty',
  'text-shape',
  'text-symbol',
  'geometry-shape',
  'json-shape',
  'claim-shape',
  'board-foreign',
])

const isClass = (value: unknown): boolean =>
  typeof value === 'function' && /^class\b/.test(Function.prototype.toString.call(value))

function testEntries(of: Readonly<Record<string, unknown>>, entries: Entries): void {
  it('every function has its arguments listed, and no other', () => {
    expect(Object.keys(entries).sort()).toEqual(Object.keys(of).sort())
  })
  it.each(Object.entries(entries))('%s', async (name, args) => {
    expect(await wrongOutcomes(of[name] as Callable, args, CODES)).toEqual([])
  })
}

describe('functions of the core say what was expected', () => {
  const functions = Object.entries(core).filter(([, value]) => typeof value === 'function' && !isClass(value))
  // an asynchronous form takes what the plain one takes
  const async = functions.map(([name]) => name).filter((name) => name.endsWith('Async'))
  const forms = async.map((name) => [name, CORE[name.replace(/Async$/, '')] ?? []])
  testEntries(Object.fromEntries(functions), { ...CORE, ...Object.fromEntries(forms) })
})

describe('methods of the core, too', () => {
  /** Made by the package, or by nobody but their reader. */
  const errors = ['GridreasonError', 'InputError', 'StoppedError']
  const classes = Object.entries(core).filter(([name, value]) => isClass(value) && !errors.includes(name))
  it('every class has its methods listed', () => {
    expect(Object.keys(METHODS).sort()).toEqual(classes.map(([name]) => name).sort())
  })
  for (const [name, value] of classes) {
    const { fixed, own, make } = METHODS[name]!
    const methodsOf = (target: object, self: object) =>
      Object.fromEntries(
        Object.entries(Object.getOwnPropertyDescriptors(target))
          .filter(([key, { value }]) => typeof value === 'function' && key !== 'constructor')
          .map(([key, { value }]) => [key, value.bind(self)]),
      )
    describe(`${name}, of the class`, () => testEntries(methodsOf(value as object, value as object), fixed))
    describe(`${name}, of a value`, () => {
      testEntries(methodsOf((value as { prototype: object }).prototype, make()), own)
    })
  }
})
