import { argumentError } from '../check-arguments.js'

/** A path, or a stream that can be written to. */
export function checkOutput(out: unknown, name = 'out'): void {
  const { write, on } = Object(out) as Partial<NodeJS.WritableStream>
  if (out !== '' && (typeof out === 'string' || (typeof write === 'function' && typeof on === 'function')))
    return
  throw argumentError(name, 'the path of a file, or a stream to write to', out)
}
