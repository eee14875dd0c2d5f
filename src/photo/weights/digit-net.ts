import { readFile } from 'node:fs/promises'

/**
 * The bytes of `digits/digit-net.bin`. In the package a module that holds them stands in the place of this one
 * (`tsup.config.ts`), so that no bundler has to know about a file.
 */
export const packedBytes = (): Promise<Uint8Array> =>
  readFile(new URL('../digits/digit-net.bin', import.meta.url))
