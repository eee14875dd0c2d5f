import { readFile } from 'node:fs/promises'

/** The bytes of `print-or-hand/entry-net.bin`; replaced in the package, as those of the other networks are. */
export const packedBytes = (): Promise<Uint8Array> =>
  readFile(new URL('../print-or-hand/entry-net.bin', import.meta.url))
