import { argumentError, type Check } from '../../check-arguments.js'
import { GridreasonError } from '../../errors.js'

/** The weights of a network: a URL to read them from, or their bytes. */
export type Weights = URL | Uint8Array | ArrayBuffer

/** Bytes of a URL, however the platform gets them. */
export type ReadUrl = (url: URL) => Promise<Uint8Array>

export const checkWeights: Check = (value, name) => {
  const tag = Object.prototype.toString.call(value)
  if (!['[object URL]', '[object Uint8Array]', '[object ArrayBuffer]'].includes(tag))
    throw argumentError(name, 'a URL, a Uint8Array or an ArrayBuffer with the weights of a network', value)
}

/** @throws GridreasonError `weights-unreadable` when nothing comes from the URL */
export async function bytesOf(weights: Weights, readUrl: ReadUrl): Promise<Uint8Array> {
  if (weights instanceof Uint8Array) return weights
  if (!('href' in weights)) return new Uint8Array(weights)
  try {
    return await readUrl(weights)
  } catch (cause) {
    throw new GridreasonError(
      'weights-unreadable',
      `The weights at ${weights.href} cannot be read. Check that they are there, or leave \`weights\` out to use those of the package.`,
      { cause, place: { file: weights.href } },
    )
  }
}

/** What is loaded when it is first asked for, and again if that failed. */
export function loadedOnce<T>(load: () => Promise<T>): () => Promise<T> {
  let loading: Promise<T> | undefined
  return () => {
    loading ??= load().catch((error) => {
      loading = undefined
      throw error
    })
    return loading
  }
}
