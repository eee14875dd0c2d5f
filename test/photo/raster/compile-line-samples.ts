import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { generateAssembly } from '../../support/compile-assembly.js'

const FOLDER = new URL('../../../src/photo/raster/', import.meta.url)
export const GENERATED = new URL('line-samples-bytes.ts', FOLDER)

/** The text of line-samples-bytes.ts. */
export function generateLineSampleBytes(): Promise<string> {
  return generateAssembly({
    source: new URL('line-samples.as', FOLDER),
    name: 'line-samples',
    command: 'test/photo/raster/compile-line-samples.ts',
  })
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(GENERATED, await generateLineSampleBytes())
