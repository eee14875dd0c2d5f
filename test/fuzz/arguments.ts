import { GridreasonError } from '../../src/errors.js'
import * as core from '../../src/index.js'
import { type Argument, CORE, JUNK } from '../support/entries.js'
import { below, type Random } from './boards.js'
import { type Fuzzer, FuzzFault } from './fuzzer.js'

type Callable = (...args: unknown[]) => unknown

const NAMES = Object.keys(CORE).filter((name) => name !== 'walkthrough')

/** Junk in random places of random calls, often deep within what is right: no error is without a code. */
export const argumentsFuzzer: Fuzzer = {
  name: 'arguments',
  async runCase(random) {
    const name = NAMES[below(random, NAMES.length)]!
    const args = CORE[name]!
    const call = (core as unknown as Record<string, Callable>)[name]!
    const values = args.map((argument) => (random() < 0.4 ? argument.good : spoilt(random, argument)))
    try {
      const result = await call(...values)
      if (typeof result === 'object' && result !== null && Symbol.asyncIterator in result)
        await (result as AsyncGenerator).next()
      return { calls: 1, answered: 1 }
    } catch (error) {
      if (error instanceof GridreasonError) return { calls: 1, refused: 1 }
      throw new FuzzFault(`${name}(${values.map((value) => sketch(value)).join(', ')}) ends in ${error}`)
    }
  },
}

function junk(random: Random): unknown {
  return JUNK[below(random, JUNK.length)]![1]
}

/** Junk instead of the value, of an option or of a part of it. */
function spoilt(random: Random, { good, options }: Argument): unknown {
  const names = Object.keys(options ?? {})
  if (names.length > 0 && random() < 0.7)
    return { ...(good as object), timeLimit: undefined, ...Object.fromEntries(somePairs(random, names)) }
  return random() < 0.3 ? junk(random) : withSpoiltPart(random, good, 4)
}

function somePairs(random: Random, names: readonly string[]): [string, unknown][] {
  return Array.from({ length: 1 + below(random, 2) }, () => [
    names[below(random, names.length)]!,
    junk(random),
  ])
}

/** A copy with junk in one place, up to so many levels down; boards and geometries stay whole. */
function withSpoiltPart(random: Random, value: unknown, depth: number): unknown {
  const isOpen = Array.isArray(value) || (isPlain(value) && !('arePeers' in value))
  if (!isOpen || depth === 0 || random() < 0.2) return junk(random)
  const keys = Object.keys(value)
  if (keys.length === 0) return junk(random)
  const key = keys[below(random, keys.length)]!
  const part = withSpoiltPart(random, (value as Record<string, unknown>)[key], depth - 1)
  if (Array.isArray(value))
    return random() < 0.2 ? value.slice(0, Number(key)) : value.with(Number(key), part)
  return { ...value, [key]: part }
}

function isPlain(value: unknown): value is object {
  return typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype
}

function sketch(value: unknown): string {
  try {
    return (JSON.stringify(value) ?? String(value)).slice(0, 300)
  } catch {
    return String(typeof value)
  }
}
