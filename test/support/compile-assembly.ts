import { readFileSync } from 'node:fs'
import asc from 'assemblyscript/asc'

export interface AssemblySource {
  /** The AssemblyScript file. */
  readonly source: URL
  /** Its name without its ending, for people. */
  readonly name: string
  /** What makes the generated file anew. */
  readonly command: string
}

const OPTIONS = ['--runtime', 'stub', '--enable', 'simd', '-O3', '--noAssert', '--initialMemory', '1']

/**
 * The text of a file that exports the WebAssembly of a source; it depends on the source and the compiler's version
 * alone.
 */
export async function generateAssembly({ source, name, command }: AssemblySource): Promise<string> {
  const text = readFileSync(source, 'utf8')
  let bytes: Uint8Array | undefined
  // the compiler takes files of its own extension only, so the source goes in under another name
  const { error, stderr } = await asc.main(['source.ts', '-o', 'source.wasm', ...OPTIONS], {
    readFile: (file) => (file === 'source.ts' ? text : null),
    writeFile: (file, contents) => {
      if (file.endsWith('.wasm')) bytes = contents as Uint8Array
    },
    listFiles: () => [],
  })
  if (error || !bytes) throw new Error(`${name}.as does not compile: ${stderr.toString()}`)
  const lines = Buffer.from(bytes)
    .toString('hex')
    .match(/.{1,100}/g)!
  return [
    `// Generated from ${name}.as by ${command}; do not edit.`,
    `// ${bytes.length} bytes of WebAssembly.`,
    'export const WASM_BYTES =',
    ...lines.map((line, i) => `  '${line}'${i < lines.length - 1 ? ' +' : ''}`),
    '',
  ].join('\n')
}
