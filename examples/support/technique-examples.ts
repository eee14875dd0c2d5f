import { readFileSync } from 'node:fs'
import { type Board, boardFromMarks, parsePuzzle, type TechniqueName } from '../../src/index.js'

const FILE = new URL('../../fixtures/puzzles/techniques.txt', import.meta.url)

/** A board for each technique that has an instance of it, easiest technique first. */
export function techniqueExamples(): ReadonlyMap<TechniqueName, Board> {
  const lines = readFileSync(FILE, 'utf8').split('\n')
  return new Map(
    lines
      .filter((line) => line !== '' && !line.startsWith('#'))
      .map((line) => {
        const [technique, givens, digits, marks] = line.split(' ') as [TechniqueName, string, string, string]
        const board = boardFromMarks(
          parsePuzzle(givens),
          [...digits].map((digit) => (digit === '.' ? 0 : Number(digit))),
          marks.match(/../g)!.map((set) => Number.parseInt(set, 36)),
        )
        return [technique, board]
      }),
  )
}
