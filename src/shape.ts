/**
 * What data from outside must look like, as data itself. Saved values and steps are checked against it, and
 * `gridreason/schemas` makes its schemas from it, so that a shape is written once and the core needs no library for it.
 */
import { nearNames, shown } from './check-arguments.js'
import { InputError } from './errors.js'

/** `T` is the type of what fits. */
export type Shape<T = unknown> = AnyShape & { readonly fits?: T }

type AnyShape =
  | { readonly kind: 'number'; readonly whole: boolean; readonly least: number; readonly most: number }
  | { readonly kind: 'text' | 'flag' | 'base64' }
  | { readonly kind: 'only'; readonly value: string | number | boolean | null }
  /** `what` is what the names name, for the message. */
  | { readonly kind: 'name'; readonly names: readonly string[]; readonly what: string | undefined }
  | { readonly kind: 'list'; readonly of: Shape; readonly most: number }
  | { readonly kind: 'tuple'; readonly of: readonly Shape[] }
  | ObjectShape
  /** Objects told apart by the name that stands in their part `by`. */
  | { readonly kind: 'cases'; readonly by: string; readonly cases: Readonly<Record<string, ObjectShape>> }
  /** A value for some of the names. */
  | { readonly kind: 'record'; readonly names: readonly string[]; readonly of: Shape }
  | { readonly kind: 'nullable'; readonly of: Shape }
  /** For shapes that hold themselves. */
  | { readonly kind: 'later'; readonly shape: () => Shape }

interface ObjectShape {
  readonly kind: 'object'
  readonly parts: Readonly<Record<string, Part>>
  /** May it have parts beyond these? They are taken over as they are. */
  readonly open: boolean
}

type Part = Shape | OptionalPart
type OptionalPart<T = unknown> = { readonly kind: 'optional'; readonly of: Shape<T> }

/** A shape for every part of a type; one that is missing, or is optional in the type alone, does not compile. */
type PartsOf<T> = {
  readonly [Name in keyof T]-?: undefined extends T[Name]
    ? OptionalPart<Exclude<T[Name], undefined>>
    : Shape<T[Name]>
}
type CaseOf<T, By extends keyof T, Value> = T extends unknown ? (Value extends T[By] ? T : never) : never

export const text: Shape<string> = { kind: 'text' }
export const flag: Shape<boolean> = { kind: 'flag' }
export const base64: Shape<string> = { kind: 'base64' }

export const whole = (least = 0, most = Number.MAX_SAFE_INTEGER): Shape<number> => ({
  kind: 'number',
  whole: true,
  least,
  most,
})

/** Any number but infinite ones, which JSON does not have. */
export const amount = (least = -Number.MAX_VALUE, most = Number.MAX_VALUE): Shape<number> => ({
  kind: 'number',
  whole: false,
  least,
  most,
})

export const only = <const T extends string | number | boolean | null>(value: T): Shape<T> => ({
  kind: 'only',
  value,
})

export const name = <const T extends string>(names: readonly T[], what?: string): Shape<T> => ({
  kind: 'name',
  names,
  what,
})

export const list = <T>(of: Shape<T>, most = Number.MAX_SAFE_INTEGER): Shape<readonly T[]> => ({
  kind: 'list',
  of,
  most,
})

export const tuple = <T extends readonly unknown[]>(
  ...of: { readonly [I in keyof T]: Shape<T[I]> }
): Shape<T> => ({ kind: 'tuple', of })

export const object = <T>(parts: PartsOf<T>): Shape<T> & ObjectShape => ({
  kind: 'object',
  parts,
  open: false,
})

/** An object with at least these parts. */
export const openObject = <T>(parts: Partial<PartsOf<T>>): Shape<T> => ({
  kind: 'object',
  parts: parts as ObjectShape['parts'],
  open: true,
})

/** A union of objects; its parts are listed by the name that stands in `by`. */
export const cases = <T, By extends keyof T & string>(
  by: By,
  parts: { readonly [Value in T[By] & string]: PartsOf<Omit<CaseOf<T, By, Value>, By>> },
): Shape<T> => ({
  kind: 'cases',
  by,
  cases: Object.fromEntries(
    Object.entries<ObjectShape['parts']>(parts).map(([value, rest]) => [
      value,
      { kind: 'object', parts: { [by]: only(value), ...rest }, open: false },
    ]),
  ),
})

export const record = <Name extends string, T>(
  names: readonly Name[],
  of: Shape<T>,
): Shape<Partial<Record<Name, T>>> => ({ kind: 'record', names, of })

export const nullable = <T>(of: Shape<T>): Shape<T | null> => ({ kind: 'nullable', of })
export const later = <T>(shape: () => Shape<T>): Shape<T> => ({ kind: 'later', shape })

/** A part that may be left out; `undefined` counts as left out, too. */
export const optional = <T>(of: Shape<T>): OptionalPart<T> => ({ kind: 'optional', of })

/** Where a value does not fit, and what was expected there; phrases. */
export interface Misfit {
  /** Names and numbers from the whole value to the part, joined by dots; empty for the whole. */
  readonly path: string
  readonly found: string
  readonly expected: string
}

export type Fit<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly misfit: Misfit }

/** A copy of a value that fits, or where it does not. */
export function fitted<T>(shape: Shape<T>, value: unknown): Fit<T> {
  try {
    return { ok: true, value: copy(shape, value, []) as T }
  } catch (error) {
    if (error instanceof Unfit) return { ok: false, misfit: error.misfit }
    throw error
  }
}

/**
 * A copy of saved data that fits.
 *
 * @param what what it should be: `puzzle`
 * @throws InputError `json-shape`
 */
export function savedAs<T>(shape: Shape<T>, data: unknown, what: string): T {
  const result = fitted(shape, data)
  if (!result.ok) throw wrongSaved(what, result.misfit)
  return result.value
}

export function wrongSaved(what: string, { path, found, expected }: Misfit): InputError {
  const where = path === '' ? '' : ` at "${path}"`
  return new InputError('json-shape', `Saved ${what}${where}: found ${found}; expected ${expected}.`, {
    found,
    expected,
  })
}

/** Ends a check from within; never seen outside of this file. */
class Unfit {
  readonly misfit: Misfit
  constructor(path: Path, found: string, expected: string) {
    this.misfit = { path: path.join('.'), found, expected }
  }
}

type Path = readonly (string | number)[]

/** Values within values; what is saved here is a few dozen deep where cases lie in cases. */
const DEEPEST = 500

function copy(shape: Shape, value: unknown, path: Path): unknown {
  if (path.length > DEEPEST) throw new Unfit(path.slice(0, 8), `values more than ${DEEPEST} deep`, 'fewer')
  switch (shape.kind) {
    case 'later':
      return copy(shape.shape(), value, path)
    case 'nullable':
      return value === null ? null : copy(shape.of, value, path)
    case 'list':
      if (!Array.isArray(value)) throw new Unfit(path, shown(value), 'a list')
      if (value.length > shape.most) throw new Unfit(path, shown(value), `at most ${shape.most} of them`)
      // by number, so that holes in a list are seen, too
      return Array.from(value, (entry, i) => copy(shape.of, entry, [...path, i]))
    case 'tuple':
      if (!Array.isArray(value) || value.length !== shape.of.length)
        throw new Unfit(path, shown(value), `a list of ${shape.of.length}`)
      return shape.of.map((of, i) => copy(of, value[i], [...path, i]))
    case 'cases':
      return copyCase(shape.by, shape.cases, value, path)
    case 'object':
      return copyObject(shape, asObject(value, path), path)
    case 'record':
      return Object.fromEntries(
        Object.entries(asObject(value, path)).map(([key, entry]) => [
          copy({ kind: 'name', names: shape.names, what: undefined }, key, path),
          copy(shape.of, entry, [...path, key]),
        ]),
      )
    default: {
      const expected = expectedOf(shape, value)
      if (expected !== undefined) throw new Unfit(path, shown(value), expected)
      return value
    }
  }
}

/** What a simple value should be, if it is not. */
function expectedOf(
  shape: Extract<AnyShape, { readonly kind: 'number' | 'text' | 'flag' | 'base64' | 'only' | 'name' }>,
  value: unknown,
): string | undefined {
  switch (shape.kind) {
    case 'number': {
      const { least, most } = shape
      const isOne = shape.whole ? Number.isSafeInteger(value) : Number.isFinite(value)
      if (isOne && (value as number) >= least && (value as number) <= most) return undefined
      const what = shape.whole ? 'a whole number' : 'a number'
      if (least === -Number.MAX_VALUE) return what
      return most >= Number.MAX_SAFE_INTEGER ? `${what} from ${least}` : `${what} from ${least} to ${most}`
    }
    case 'text':
      return typeof value === 'string' ? undefined : 'a string'
    case 'base64':
      return typeof value === 'string' && isBase64(value) ? undefined : 'bytes in base64'
    case 'flag':
      return typeof value === 'boolean' ? undefined : 'true or false'
    case 'only':
      return value === shape.value ? undefined : shown(shape.value)
    case 'name': {
      if (shape.names.includes(value as string)) return undefined
      const near = typeof value === 'string' ? nearNames(value, shape.names) : []
      if (near.length > 0) return `${shape.what ?? 'a known name'}; did you mean ${near.join(' or ')}?`
      return shape.what ?? `one of ${shape.names.join(', ')}`
    }
  }
}

function isBase64(value: string): boolean {
  return value.length % 4 === 0 && /^[\w+/]*={0,2}$/.test(value) && !value.includes('_')
}

function asObject(value: unknown, path: Path): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new Unfit(path, shown(value), 'an object')
  return value as Readonly<Record<string, unknown>>
}

function copyCase(
  by: string,
  all: Readonly<Record<string, ObjectShape>>,
  value: unknown,
  path: Path,
): unknown {
  const object = asObject(value, path)
  const chosen = object[by]
  if (typeof chosen !== 'string' || !Object.hasOwn(all, chosen))
    throw new Unfit([...path, by], shown(chosen), `one of ${Object.keys(all).join(', ')}`)
  return copyObject(all[chosen]!, object, path)
}

function copyObject(
  { parts, open }: ObjectShape,
  object: Readonly<Record<string, unknown>>,
  path: Path,
): unknown {
  const result: Record<string, unknown> = open ? { ...object } : {}
  for (const [key, part] of Object.entries(parts)) {
    const value = object[key]
    if (part.kind !== 'optional') result[key] = copy(part, value, [...path, key])
    else if (value !== undefined) result[key] = copy(part.of, value, [...path, key])
  }
  if (open) return result
  for (const key of Object.keys(object))
    if (!Object.hasOwn(parts, key))
      throw new Unfit([...path, key], shown(object[key]), `only ${Object.keys(parts).join(', ')}`)
  return result
}
