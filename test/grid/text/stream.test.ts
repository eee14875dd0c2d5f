import { describe, expect, it } from 'vitest'
import { type PuzzleEntry, readPuzzles } from '../../../src/grid/text/stream.js'

const A = '003020600900305001001806400008102900700000008006708200002609500800203009005010300'
const B = '200080300060070084030500209000105408000000000402706000301007040720040060004010003'
const rows = (line: string) => line.match(/.{9}/g)!.join('\n')

async function readAll(text: string, chunk = text.length || 1): Promise<PuzzleEntry[]> {
  const chunks: string[] = []
  for (let i = 0; i < text.length; i += chunk) chunks.push(text.slice(i, i + chunk))
  const entries: PuzzleEntry[] = []
  for await (const entry of readPuzzles(chunks)) entries.push(entry)
  return entries
}

const summary = (entries: PuzzleEntry[]) =>
  entries.map((e) => `${e.line} ${e.title ?? '-'} ${e.ok ? e.puzzle.givens.join('') : e.error.code}`)

describe('readPuzzles', () => {
  it('reads one a line with comments, blank lines, remarks and bad lines, whatever the chunks and line ends', async () => {
    const text = ['\ufeff# from the Dale Courier', A, '', `7 ${B} 3.5`, B.slice(1), A].join('\n')
    const expected = [`2 - ${A}`, `4 7 3.5 ${B}`, '5 - text-shape', `6 - ${A}`]
    for (const end of ['\n', '\r\n', '\r']) {
      for (const chunk of [1, 2, 7, 1000]) {
        const entries = await readAll(text.replaceAll('\n', end), chunk)
        expect(summary(entries)).toEqual(expected)
        expect(entries[0]!.comments).toEqual(['from the Dale Courier'])
      }
    }
  })

  it('reads grids of several lines under headings, run together, and with a gap between bands', async () => {
    expect(summary(await readAll(`Grid 01\n${rows(A)}\nGrid 02\n${rows(B)}`))).toEqual([
      `2 Grid 01 ${A}`,
      `12 Grid 02 ${B}`,
    ])
    expect(summary(await readAll(`${rows(A)}\n${rows(B)}\n`))).toEqual([`1 - ${A}`, `10 - ${B}`])
    const banded = (line: string) => line.match(/.{27}/g)!.map(rows).join('\n\n')
    expect(summary(await readAll(`${banded(A)}\n\n${banded(B)}\n`))).toEqual([`1 - ${A}`, `13 - ${B}`])
  })

  it('does not complete a grid that lacks a row with a row of the next', async () => {
    const short = rows(A).split('\n').slice(1).join('\n')
    expect(summary(await readAll(`${short}\n\n${rows(B)}\n\n${rows(A)}`))).toEqual([
      '1 - text-shape',
      `10 - ${B}`,
      `20 - ${A}`,
    ])
  })
})
