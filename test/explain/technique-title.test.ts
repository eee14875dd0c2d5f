import { expect, it } from 'vitest'
import { techniqueTitle, titleOf } from '../../src/explain/words/english/technique-title.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'

it.each([
  ['full-house', 'Full house'],
  ['naked-pair', 'Naked pair'],
  ['x-wing', 'X-wing'],
  ['finned-x-wing', 'Finned X-wing'],
  ['xy-wing', 'XY-wing'],
  ['wxyz-wing', 'WXYZ-wing'],
  ['two-string-kite', 'Two-string kite'],
  ['als-xz', 'ALS-XZ'],
  ['als-xy-wing', 'ALS-XY-wing'],
  ['als-chain', 'ALS chain'],
  ['sue-de-coq', 'Sue de Coq'],
  ['a-technique-of-tomorrow', 'A technique of tomorrow'],
])('%s is called %s', (name, title) => {
  expect(titleOf(name)).toBe(title)
})

it('gives every technique of the catalogue a title of its own', () => {
  const titles = TECHNIQUE_NAMES.map(techniqueTitle)
  expect(new Set(titles).size).toBe(titles.length)
  for (const title of titles) expect(title).toMatch(/^[A-Z][A-Za-z0-9+ -]+$/)
})

it('gives every technique a German title of its own', () => {
  const titles = TECHNIQUE_NAMES.map(GERMAN.technique)
  expect(new Set(titles).size).toBe(titles.length)
  for (const title of titles) expect(title).toMatch(/^[A-ZÄÖÜ][\p{L}\d+ ()-]+$/u)
})

it('knows techniques by their own names only', () => {
  expect(techniqueTitle('x-wing')).toBe('X-wing')
  expect(() => techniqueTitle('xwing' as 'x-wing')).toThrow(
    expect.objectContaining({
      code: 'argument',
      message: expect.stringMatching(/not "xwing"\. Did you mean x-wing\?/),
    }),
  )
})
