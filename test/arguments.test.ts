import { describe, expect, it } from 'vitest'
import { GridreasonError, StoppedError } from '../src/errors.js'
import * as core from '../src/index.js'
import { type Argument, CORE, type Entries, JUNK, METHODS } from './support/entries.js'

type Callable = (...args: unknown[]) => unknown

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

/** What a call comes to, whichever way it comes; of several values the first. */
async function settle(call: () => unknown): Promise<{ value?: unknown; error?: unknown }> {
  try {
    const result = await call()
    const isStream = typeof result === 'object' && result !== null && Symbol.asyncIterator in result
    return { value: isStream ? await (result as AsyncGenerator).next() : result }
  } catch (error) {
    return { error }
  }
}

/** Calls with junk in the place of one argument, or of one option, that do not come out as they must. */
async function wrongOutcomes(call: Callable, args: readonly Argument[]): Promise<string[]> {
  const wrong: string[] = []
  const attempt = async (place: string, values: readonly unknown[], isAllowed: boolean) => {
    const { error } = await settle(() => call(...values))
    if (error === undefined) {
      if (!isAllowed) wrong.push(`${place} is taken without a word`)
    } else if (isAllowed && error instanceof StoppedError) {
      // a limit may be right and too little
    } else if (!(error instanceof GridreasonError) || !CODES.has(error.code) || error.message.length < 20) {
      wrong.push(`${place} ends in ${error}`)
    }
  }
  const good = args.map((argument) => argument.good)
  await attempt('what is right', good, true)
  for (const [i, { allows, options, good: own }] of args.entries()) {
    for (const [name, junk] of JUNK) {
      await attempt(`argument ${i}, ${name},`, good.with(i, junk), allows(junk))
      for (const [option, isAllowed] of Object.entries(options ?? {})) {
        const odd = { ...(own as object), [option]: junk }
        await attempt(`option ${option}, ${name},`, good.with(i, odd), junk === undefined || isAllowed(junk))
      }
    }
    if (!options) continue
    for (const option of ['junk', 'toString', '__proto__x'])
      await attempt(`an option ${option}`, good.with(i, { ...(own as object), [option]: 1 }), false)
  }
  return wrong
}

const isClass = (value: unknown): boolean =>
  typeof value === 'function' && /^class\b/.test(Function.prototype.toString.call(value))

function testEntries(of: Readonly<Record<string, unknown>>, entries: Entries): void {
  it('every function has its arguments listed, and no other', () => {
    expect(Object.keys(entries).sort()).toEqual(Object.keys(of).sort())
  })
  it.each(Object.entries(entries))('%s', async (name, args) => {
    expect(await wrongOutcomes(of[name] as Callable, args)).toEqual([])
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
