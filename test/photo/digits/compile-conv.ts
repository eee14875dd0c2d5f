import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import asc from 'assemblyscript/asc'

const FOLDER = new URL('../../../src/photo/digits/', import.meta.url)
export const GENERATED = new URL('conv-bytes.ts', FOLDER)

const OPTIONS = ['--runtime', 'stub', '--enable', 'simd', '-O3', '--noAssert', '--initialMemory', '1']

/** The text of conv-bytes.ts; it depends on conv.as and the compiler's version alone. */
export async function generateConvBytes(): Promise<string> {
  const source = readFileSync(new URL('conv.as', FOLDER), 'utf8')
  let bytes: Uint8Array | undefined
  // the compiler takes files of its own extension only, so the source goes in under another name
  const { error, stderr } = await asc.main(['conv.ts', '-o', 'conv.wasm', ...OPTIONS], {
    readFile: (name) => (name === 'conv.ts' ? source : null),
    writeFile: (name, contents) => {
      if (name.endsWith('.wasm')) bytes = contents as Uint8Array
    },
    listFiles: () => [],
  })
  if (error || !bytes) throw new Error(`conv.as does not compile: ${stderr.toString()}`)
  const lines = Buffer.from(bytes)
    .toString('base64')
    .match(/.{1,100}/g)!
  return [
    '// Generated from conv.as by test/photo/digits/compile-conv.ts; do not edit.',
    `// ${bytes.length} bytes of WebAssembly.`,
    'export const WASM_BYTES =',
    ...lines.map((line, i) => `  '${line}'${i < lines.length - 1 ? ' +' : ''}`),
    '',
  ].join('\n')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(GENERATED, await generateConvBytes())
