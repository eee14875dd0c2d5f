import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { checkUniqueness, countSolutions, makePuzzle } from '../../src/index.js'
import { fromLine } from './puzzles.js'

const lines = readFileSync(new URL('../../fixtures/puzzles/published.txt', import.meta.url), 'utf8').split(
  '\n',
)
const puzzles = lines.flatMap((line, i) => {
  const [puzzle, solution] = line.split(' ')
  return line === '' || line.startsWith('#')
    ? []
    : [{ source: lines[i - 1]!.slice(2), puzzle: puzzle!, solution: solution! }]
})

describe('published puzzles', () => {
  it('are there', () => {
    expect(puzzles).toHaveLength(11)
  })

  it.each(puzzles)('$source', ({ puzzle, solution }) => {
    expect(checkUniqueness(makePuzzle(fromLine(puzzle)))).toEqual({
      kind: 'unique',
      solution: fromLine(solution),
    })
    expect(countSolutions(makePuzzle(fromLine(puzzle)))).toEqual({ count: 1, complete: true })
  })
})
