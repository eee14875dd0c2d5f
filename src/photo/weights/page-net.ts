import { readFile } from 'node:fs/promises'

/** The bytes of `find/page-net.bin`; replaced in the package, as those of the other network are. */
export const packedBytes = (): Promise<Uint8Array> =>
  readFile(new URL('../find/page-net.bin', import.meta.url))
