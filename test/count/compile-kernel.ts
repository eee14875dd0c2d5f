import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import asc from 'assemblyscript/asc'

const FOLDER = new URL('../../src/count/kernel9/', import.meta.url)
export const GENERATED = new URL('wasm-bytes.ts', FOLDER)

const OPTIONS = [
  ...['--runtime', 'stub', '--enable', 'simd', '-O3', '--noAssert'],
  ...['--initialMemory', '1', '--maximumMemory', '1'],
]

/** The text of wasm-bytes.ts; it depends on kernel9.as and the compiler's version alone. */
export async function generateWasmBytes(): Promise<string> {
  const source = readFileSync(new URL('kernel9.as', FOLDER), 'utf8')
  let bytes: Uint8Array | undefined
  // the compiler takes files of its own extension only, so the source goes in under another name
  const { error, stderr } = await asc.main(['kernel9.ts', '-o', 'kernel9.wasm', ...OPTIONS], {
    readFile: (name) => (name === 'kernel9.ts' ? source : null),
    writeFile: (name, contents) => {
      if (name.endsWith('.wasm')) bytes = contents as Uint8Array
    },
    listFiles: () => [],
  })
  if (error || !bytes) throw new Error(`kernel9.as does not compile: ${stderr.toString()}`)
  const lines = Buffer.from(bytes)
    .toString('hex')
    .match(/.{1,100}/g)!
  return [
    '// Generated from kernel9.as by `npm run build:kernel`; do not edit.',
    `// ${bytes.length} bytes of WebAssembly.`,
    'export const WASM_BYTES =',
    ...lines.map((line, i) => `  '${line}'${i < lines.length - 1 ? ' +' : ''}`),
    '',
  ].join('\n')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writeFileSync(GENERATED, await generateWasmBytes())
