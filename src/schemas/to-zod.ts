import * as z from 'zod'
import type { Shape } from '../shape.js'

/** One schema a shape, so that what is used in several places is one definition of a JSON Schema, too. */
const made = new WeakMap<object, z.ZodType>()

/** The zod schema of a shape: it takes what `fitted` takes. */
export function toZod<T>(shape: Shape<T>): z.ZodType<T> {
  const before = made.get(shape)
  if (before) return before as z.ZodType<T>
  const schema = translated(shape)
  made.set(shape, schema)
  return schema as z.ZodType<T>
}

function translated(shape: Shape): z.ZodType {
  switch (shape.kind) {
    case 'number': {
      const number = (shape.whole ? z.int() : z.number()).min(shape.least)
      return shape.most >= Number.MAX_SAFE_INTEGER ? number : number.max(shape.most)
    }
    case 'text':
      return z.string()
    case 'base64':
      return z.base64()
    case 'flag':
      return z.boolean()
    case 'only':
      return z.literal(shape.value)
    case 'name':
      return z.enum(shape.names as [string, ...string[]])
    case 'list': {
      const list = z.array(toZod(shape.of))
      return shape.most === Number.MAX_SAFE_INTEGER ? list : list.max(shape.most)
    }
    case 'tuple':
      return z.tuple(shape.of.map(toZod) as [z.ZodType, ...z.ZodType[]])
    case 'object':
      return object(shape)
    case 'cases':
      return z.discriminatedUnion(
        shape.by,
        Object.values(shape.cases).map(object) as unknown as [z.core.$ZodTypeDiscriminable],
      )
    case 'record':
      return z.partialRecord(z.enum(shape.names as [string, ...string[]]), toZod(shape.of))
    case 'nullable':
      return toZod(shape.of).nullable()
    case 'later':
      return z.lazy(() => toZod(shape.shape()))
  }
}

function object({ parts, open }: Extract<Shape, { readonly kind: 'object' }>): z.ZodObject {
  const all = Object.fromEntries(
    Object.entries(parts).map(([name, part]) => [
      name,
      part.kind === 'optional' ? toZod(part.of).optional() : toZod(part),
    ]),
  )
  return open ? z.looseObject(all) : z.strictObject(all)
}
