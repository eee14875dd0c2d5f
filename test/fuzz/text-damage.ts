import { below, pick, type Random } from './random-choice.js'
import type { OwnedLine, TextDocument } from './text-documents.js'

/** A text after some damage, and the grids that it may have touched. */
export interface Damaged {
  readonly lines: readonly OwnedLine[]
  readonly touched: ReadonlySet<number>
  readonly kinds: readonly string[]
}

const NOISE_LINES = [
  ...[
    '*****',
    '*********',
    '_________',
    '-----',
    '---------',
    '=====',
    '~~~~',
    '----+----',
    '.........',
    '000000000',
  ],
  ...[
    'hello there',
    '12',
    '7',
    '2041',
    '1020304010203040',
    'a83bc0912f',
    '3.5 hard',
    '#',
    '...',
    '0',
    ',,,,',
    ',,,,,,,,',
  ],
  ...[
    'x x x',
    '{',
    ']',
    '[1,2',
    '"',
    '\t\t',
    '\t\t\t\t',
    '1 2 3 4 5 6 7 8 9',
    '123456789',
    'ABCDEFGHI',
    '| | |',
    '',
    ' ',
    '   ',
  ],
  ...[
    '************************************',
    '_'.repeat(81),
    '*'.repeat(16),
    'x'.repeat(81),
    '# geometry: 3x3 diagonals',
    'Grid 9',
  ],
]
const NOISE_SYMBOLS = [...'0123456789.x*_-?oABG|,; \t#k"[]+!\u200b\u0000é']

export function damage(document: TextDocument, random: Random): Damaged {
  const lines: OwnedLine[] = [...document.lines]
  const touched = new Set<number>()
  const kinds: string[] = []
  const touch = (at: number) => {
    const owner = lines[at]?.owner ?? -1
    if (owner >= 0) touched.add(owner)
    else {
      // What stands between two grids concerns both.
      for (const step of [-1, 1]) {
        let next = at + step
        while (lines[next] && lines[next]!.owner < 0) next += step
        if (lines[next]) touched.add(lines[next]!.owner)
      }
    }
  }
  const times = random() < 0.7 ? 1 : random() < 0.7 ? 2 : 3
  for (let n = 0; n < times; n++) {
    const kind = pick(DAMAGE, random)
    const at = below(lines.length, random)
    const line = lines[at]!
    const { text, owner } = line
    const change = (changed: string) => {
      touch(at)
      lines[at] = { text: changed, owner }
    }
    const from = below(text.length + 1, random)
    const after = () => {
      touch(at)
      touch(at + 1)
    }
    kinds.push(kind)
    switch (kind) {
      case 'drop character':
        change(text.slice(0, from) + text.slice(from + 1))
        break
      case 'double character':
        change(text.slice(0, from) + text.slice(Math.max(0, from - 1)))
        break
      case 'swap characters':
        change(text.slice(0, from) + (text[from + 1] ?? '') + (text[from] ?? '') + text.slice(from + 2))
        break
      case 'wrong character':
        change(text.slice(0, from) + pick(NOISE_SYMBOLS, random) + text.slice(from + 1))
        break
      case 'insert character':
        change(text.slice(0, from) + pick(NOISE_SYMBOLS, random) + text.slice(from))
        break
      case 'drop piece':
        change(text.slice(0, from) + text.slice(from + 1 + below(12, random)))
        break
      case 'cut line short':
        change(text.slice(0, from))
        break
      case 'drop line':
        touch(at)
        if (owner < 0) after()
        lines.splice(at, 1)
        break
      case 'drop lines':
        for (let k = below(6, random); k >= 0 && at < lines.length; k--) {
          touch(at)
          lines.splice(at, 1)
        }
        break
      case 'double line':
        touch(at)
        lines.splice(at, 0, line)
        break
      case 'swap lines':
        if (at + 1 < lines.length) {
          after()
          lines.splice(at, 2, lines[at + 1]!, line)
        }
        break
      case 'join lines':
        if (at + 1 < lines.length) {
          after()
          lines.splice(at, 2, { text: text + pick(['', ' '], random) + lines[at + 1]!.text, owner })
        }
        break
      case 'split line':
        touch(at)
        lines.splice(at, 1, { text: text.slice(0, from), owner }, { text: text.slice(from), owner })
        break
      case 'noise line':
        after()
        if (at > 0) touch(at - 1)
        lines.splice(at + below(2, random), 0, { text: pick(NOISE_LINES, random), owner: -1 })
        break
      case 'stray line':
        after()
        if (at > 0) touch(at - 1)
        lines.splice(at + below(2, random), 0, { text: pick(lines, random).text, owner: -1 })
        break
      case 'trim ends':
        lines.forEach((each, i) => {
          if (each.text !== each.text.trimEnd()) {
            touch(i)
            lines[i] = { text: each.text.trimEnd(), owner: each.owner }
          }
        })
        break
      case 'end early':
        for (let i = at; i < lines.length; i++) touch(i)
        lines.length = at
        break
    }
    if (lines.length === 0) break
  }
  return { lines, touched, kinds }
}

const DAMAGE = [
  ...[
    'drop character',
    'double character',
    'swap characters',
    'wrong character',
    'insert character',
    'drop piece',
  ],
  ...[
    'cut line short',
    'drop line',
    'drop line',
    'drop lines',
    'double line',
    'swap lines',
    'join lines',
    'split line',
  ],
  ...['noise line', 'noise line', 'stray line', 'trim ends', 'end early'],
] as const
