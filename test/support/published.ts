import { readFileSync } from 'node:fs'

export interface PublishedPuzzle {
  /** Where it comes from. */
  readonly source: string
  readonly givens: readonly number[]
  readonly solution: readonly number[]
}

const FILE = new URL('../../fixtures/puzzles/published.txt', import.meta.url)

/** The published puzzles kept in fixtures, in the order of the file. */
export function publishedPuzzles(): PublishedPuzzle[] {
  const lines = readFileSync(FILE, 'utf8').split('\n')
  return lines.flatMap((line, at) => {
    if (line === '' || line.startsWith('#')) return []
    const [givens, solution] = line.split(' ').map((part) => [...part].map(Number))
    return [{ source: lines[at - 1]!.slice(2), givens: givens!, solution: solution! }]
  })
}
