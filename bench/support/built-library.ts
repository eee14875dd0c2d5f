import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'esbuild'
import type * as library from '../../src/index.js'

/**
 * The library of a checkout, built anew from its sources, so that two checkouts are measured in the same form. (What
 * loads sources directly keeps the names of functions, which takes time of its own.)
 */
export async function builtLibrary(checkout: string): Promise<typeof library> {
  const folder = mkdtempSync(join(tmpdir(), 'gridreason-bench-'))
  try {
    const outfile = join(folder, 'index.mjs')
    await build({
      entryPoints: [resolve(checkout, 'src/index.ts')],
      bundle: true,
      format: 'esm',
      target: 'es2022',
      outfile,
      logLevel: 'error',
    })
    return (await import(pathToFileURL(outfile).href)) as typeof library
  } finally {
    rmSync(folder, { recursive: true })
  }
}
