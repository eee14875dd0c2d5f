import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { generateAssembly } from '../../support/compile-assembly.js'

const FOLDER = new URL('../../../src/photo/nets/', import.meta.url)
export const GENERATED = new URL('conv-bytes.ts', FOLDER)

/** The text of conv-bytes.ts. */
export function generateConvBytes(): Promise<string> {
  return generateAssembly({
    source: new URL('conv.as', FOLDER),
    name: 'conv',
    command: 'test/photo/nets/compile-conv.ts',
  })
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(GENERATED, await generateConvBytes())
