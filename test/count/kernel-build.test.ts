import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { GENERATED, generateWasmBytes } from './compile-kernel.js'

it('wasm-bytes.ts is what kernel9.as compiles to (else: npm run build:kernel)', async () => {
  expect(readFileSync(GENERATED, 'utf8')).toBe(await generateWasmBytes())
})
