import { describe, expect, it } from 'vitest'
import { proseFaults } from './prose.js'

const words = (text: string, path = 'a.ts') => proseFaults(path, text).map(({ says }) => says)

describe('words', () => {
  it.each([
    'the step is told once',
    "const TOLD = 'x'",
    'looked for in vain',
    'it does away with a candidate',
    'the rows are laid over it',
    'which cannot be true beside it',
    'a page on its head',
    '{ maxNodes: 3 }',
    "because: 'several-solutions'",
  ])('of the list are found: %s', (text) => {
    expect(words(text)).toHaveLength(1)
  })

  it.each([
    'two grids are told apart by their rules',
    'how all frames are laid out',
    'the sentence beside the board',
    'several solutions',
    'a headline',
  ])('in their plain meaning are not: %s', (text) => {
    expect(words(text)).toEqual([])
  })

  it('are found in their line', () => {
    expect(proseFaults('a.ts', 'one\ntwo in vain\nthree')).toMatchObject([{ line: 2 }])
  })
})

describe('width', () => {
  const long = `${'word '.repeat(24)}end`
  const longer = `${long} more`

  it('counts in comments and Markdown', () => {
    expect(words(`// ${longer}`)).toHaveLength(1)
    expect(words(` * ${longer}`)).toHaveLength(1)
    expect(words(longer, 'a.md')).toHaveLength(1)
    expect(words(`// ${long.slice(0, 117)}`)).toEqual([])
  })

  it('does not count in strings, tables, code and what cannot be broken', () => {
    expect(words(`const text = '${longer}'`)).toEqual([])
    expect(words(`| ${longer} |`, 'a.md')).toEqual([])
    expect(words(`    ${longer}`, 'a.md')).toEqual([])
    expect(words(` * // → ${longer}`)).toEqual([])
    expect(words('x'.repeat(130), 'a.md')).toEqual([])
  })
})
