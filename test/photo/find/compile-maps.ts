import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { generateAssembly } from '../../support/compile-assembly.js'

const FOLDER = new URL('../../../src/photo/find/', import.meta.url)
export const GENERATED = new URL('pixel-maps-bytes.ts', FOLDER)

/** The text of pixel-maps-bytes.ts. */
export function generateMapsBytes(): Promise<string> {
  return generateAssembly({
    source: new URL('pixel-maps.as', FOLDER),
    name: 'pixel-maps',
    command: 'test/photo/find/compile-maps.ts',
  })
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(GENERATED, await generateMapsBytes())
