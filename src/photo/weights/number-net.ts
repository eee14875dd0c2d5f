import { readFile } from 'node:fs/promises'

/** The bytes of `digits/number-net.bin`; replaced in the package, as those of the other networks are. */
export const packedBytes = (): Promise<Uint8Array> =>
  readFile(new URL('../digits/number-net.bin', import.meta.url))
