import type { Geometry } from '../../../src/grid/geometry.js'
import { safeParsePuzzle } from '../../../src/grid/text/parse.js'
import { type PuzzleEntry, readPuzzles } from '../../../src/grid/text/stream.js'

export const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
export const B = '200080300060070084030500209000105408000000000402706000301007040720040060004010003'
export const C = '000000907000420180000705026100904000050000040000507009920108000034059000507000000'

export const rows = (line: string, mark = '0') => line.replaceAll('0', mark).match(/.{9}/g)!
/** Rows with this between their cells. */
export const values = (line: string, separator: string, mark = '0') =>
  line.match(/.{9}/g)!.map((row) => [...row].map((cell) => (cell === '0' ? mark : cell)).join(separator))
export const text = (...lines: readonly (string | readonly string[])[]) => lines.flat().join('\n')

export async function entriesOf(input: string, geometry?: Geometry): Promise<PuzzleEntry[]> {
  const entries: PuzzleEntry[] = []
  for await (const entry of readPuzzles([input], geometry ? { geometry } : {})) entries.push(entry)
  return entries
}

/** The givens of each grid, or the message of its error. */
export async function read(input: string, geometry?: Geometry): Promise<string[]> {
  return (await entriesOf(input, geometry)).map((entry) =>
    entry.ok ? entry.puzzle.givens.join('') : entry.error.message,
  )
}

export function faultOf(input: string, geometry?: Geometry): string {
  const result = safeParsePuzzle(input, geometry ? { geometry } : {})
  return result.ok ? `read as ${result.puzzle.givens.join('')}` : result.error.message
}
