import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { GENERATED, generateConvBytes } from './compile-conv.js'

it('ships the WebAssembly that conv.as compiles to', async () => {
  expect(readFileSync(GENERATED, 'utf8')).toBe(await generateConvBytes())
})
