/**
 * Small checks for public entries, since JavaScript, JSON and other threads hand in what the types would refuse. They
 * look at shapes only, and code within the package calls past them.
 */
import { InputError, type Signal } from './errors.js'

/** Throws the `argument` error unless the value is what it should be; `name` is how the caller knows it. */
export type Check = (value: unknown, name: string) => void

/** A check for each option that there is; one that is missing here does not compile. */
export type OptionChecks<Options> = { readonly [Name in keyof Options]-?: Check }

export function argumentError(name: string, expected: string, value: unknown, advice?: string): InputError {
  const found = shown(value)
  const message = `\`${name}\` must be ${expected}, not ${found}.`
  return new InputError('argument', advice ? `${message} ${advice}` : message, { found, expected })
}

/**
 * Options are a plain object of known names; those that are `undefined` count as left out.
 *
 * @throws InputError `argument`
 */
export function checkOptions<Options extends object>(
  options: Options | undefined,
  checks: OptionChecks<Options>,
): void {
  if (options === undefined) return
  if (typeof options !== 'object' || options === null || Array.isArray(options))
    throw argumentError('options', 'an object with options by name', options)
  for (const name in options) {
    if (!Object.hasOwn(checks, name)) throw unknownOption(name, Object.keys(checks))
    const value = options[name]
    if (value !== undefined) checks[name](value, name)
  }
}

/** Options without those that are undefined, to be handed on to a function that takes them. */
export function defined<Options extends object>(
  options: Options,
): { [Name in keyof Options]?: Exclude<Options[Name], undefined> } {
  return Object.fromEntries(Object.entries(options).filter(([, value]) => value !== undefined)) as never
}

function unknownOption(name: string, known: readonly string[]): InputError {
  const found = JSON.stringify(name.slice(0, LONGEST_SHOWN))
  const expected = known.length === 0 ? 'no options' : `one of ${known.join(', ')}`
  return new InputError(
    'argument',
    `There is no option ${found} here${meant(name, known)}. Known options: ${known.join(', ') || 'none'}.`,
    { found, expected },
  )
}

export const boolean: Check = (value, name) => {
  if (typeof value !== 'boolean') throw argumentError(name, 'true or false', value)
}

export const string: Check = (value, name) => {
  if (typeof value !== 'string') throw argumentError(name, 'a string', value)
}

export const callback: Check = (value, name) => {
  if (typeof value !== 'function') throw argumentError(name, 'a function', value)
}

export const object: Check = (value, name) => {
  if (typeof value !== 'object' || value === null) throw argumentError(name, 'an object', value)
}

/** By its parts, since a signal may come from another realm. */
export const abortSignal: Check = (value, name) => {
  const { aborted, addEventListener } = (value ?? {}) as Partial<Signal>
  if (typeof aborted !== 'boolean' || typeof addEventListener !== 'function')
    throw argumentError(name, 'an AbortSignal', value)
}

/** A whole number within bounds. */
export function whole(least: number, most = Number.POSITIVE_INFINITY): Check {
  return (value, name) => {
    if (!isWhole(value, least, most)) throw argumentError(name, `a whole number ${span(least, most)}`, value)
  }
}

export function isWhole(value: unknown, least: number, most: number): value is number {
  return Number.isInteger(value) && (value as number) >= least && (value as number) <= most
}

/** A number from `least` on; without bound, too. */
export function amount(least: number): Check {
  return (value, name) => {
    if (typeof value !== 'number' || !(value >= least))
      throw argumentError(name, `a number from ${least}`, value)
  }
}

/** A whole number from `least` on, or `Infinity` for no bound. */
export function count(least: number): Check {
  return (value, name) => {
    if (value !== Number.POSITIVE_INFINITY && !isWhole(value, least, Number.POSITIVE_INFINITY))
      throw argumentError(name, `a whole number from ${least}`, value)
  }
}

/** A width or height in pixels. */
export const pixels: Check = (value, name) => {
  if (typeof value !== 'number' || !(value > 0 && value < Number.POSITIVE_INFINITY))
    throw argumentError(name, 'a number of pixels above 0', value)
}

/** One of a list of names; a name that is near to one of them is answered with it. */
export function oneOf(names: readonly string[], what?: string): Check {
  return (value, name) => {
    if (typeof value === 'string' && names.includes(value)) return
    const near = typeof value === 'string' ? nearNames(value, names) : []
    const expected = what && near.length > 0 ? what : `one of ${names.join(', ')}`
    throw argumentError(name, expected, value, near.length > 0 ? `Did you mean ${near.join(' or ')}?` : '')
  }
}

/** A list of which each entry passes the check. */
export function listOf(check: Check, what = 'a list'): Check {
  return (value, name) => {
    if (!Array.isArray(value)) throw argumentError(name, what, value)
    // by number, so that holes in a list are seen, too
    for (let i = 0; i < value.length; i++) check(value[i], `${name}[${i}]`)
  }
}

export const iterable: Check = (value, name) => {
  if (
    typeof value !== 'object' ||
    typeof (value as Iterable<unknown> | null)?.[Symbol.iterator] !== 'function'
  )
    throw argumentError(name, 'a list', value)
}

/** What has entries by number: a list or a typed array. */
export const arrayLike: Check = (value, name) => {
  if (
    typeof value !== 'object' ||
    value === null ||
    !isWhole((value as ArrayLike<unknown>).length, 0, 2 ** 32)
  )
    throw argumentError(name, 'a list', value)
}

function span(least: number, most: number): string {
  return most === Number.POSITIVE_INFINITY ? `from ${least}` : `from ${least} to ${most}`
}

const LONGEST_SHOWN = 60

/** A value in a few words, whatever it is. */
export function shown(value: unknown): string {
  switch (typeof value) {
    case 'string':
      return JSON.stringify(value.length > LONGEST_SHOWN ? `${value.slice(0, LONGEST_SHOWN)}…` : value)
    case 'function':
      return 'a function'
    case 'bigint':
      return `${value}n`.slice(0, LONGEST_SHOWN)
    case 'object':
      break
    default:
      return String(value)
  }
  if (value === null) return 'null'
  if (Array.isArray(value)) return `a list of ${value.length}`
  const maker: unknown = Object.getPrototypeOf(value)?.constructor?.name
  return typeof maker === 'string' && maker !== '' && maker !== 'Object' ? `a value of ${maker}` : 'an object'
}

function meant(name: string, known: readonly string[]): string {
  const near = nearNames(name, known)
  return near.length > 0 ? `; did you mean ${near.join(' or ')}?` : ''
}

/** Names that differ from this one in spaces, hyphens and capitals only, or else in a letter or two. */
export function nearNames(name: string, known: readonly string[]): string[] {
  const plain = squeezed(name.slice(0, LONGEST_SHOWN))
  const distances = known.map((other) => editDistance(plain, squeezed(other)))
  const least = Math.min(...distances)
  if (plain === '' || least > Math.min(2, Math.floor(plain.length / 3))) return []
  return known.filter((_, i) => distances[i] === least)
}

function squeezed(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]/g, '')
}

/** Letters to put in, leave out or change (Levenshtein). */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const changed = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)
      next.push(Math.min(changed, row[j]! + 1, next[j - 1]! + 1))
    }
    row = next
  }
  return row[b.length]!
}
