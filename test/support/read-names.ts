import { parseCells } from '../../src/explain/cell-names.js'
import type { Candidate } from '../../src/grid/board.js'
import type { Geometry } from '../../src/grid/geometry.js'
import type { ChainNode } from '../../src/logic/steps/step.js'

/** Readers of what people are shown, to prove that it can be read in one way only. They throw on anything else. */

const LETTERS = 'ABCDEFG'

/** `7`, `10` or `A`. */
export function readDigit(geometry: Geometry, text: string): number {
  const digit = /^[A-G]$/.test(text) ? 10 + LETTERS.indexOf(text) : /^[1-9]\d*$/.test(text) ? Number(text) : 0
  if (digit < 1 || digit > geometry.order) throw new Error(`${JSON.stringify(text)} is no digit`)
  return digit
}

/** `1, 2 and 13`. */
export function readDigits(geometry: Geometry, text: string): number[] {
  return readList(text).map((item) => readDigit(geometry, item))
}

/** `r4c5,10, r2c3 and r7c1`. */
export function readCells(geometry: Geometry, text: string): number[] {
  return readList(text)
    .flatMap((item) => parseCells(geometry, item))
    .sort((a, b) => a - b)
}

function readList(text: string): string[] {
  return text.split(/(?:, |; | )(?:and |or |und |oder )|, |; /)
}

/** `3 and 5 in r4c5, 7 in r1c12 and r2c2 and 12 in r9c9`. */
export function readCandidates(geometry: Geometry, text: string): Candidate[] {
  const candidates: Candidate[] = []
  let digits: string[] = []
  let cells: number[] = []
  const close = () => {
    for (const digit of digits)
      for (const cell of cells) candidates.push({ cell, digit: readDigit(geometry, digit) })
    digits = []
    cells = []
  }
  for (const item of readList(text)) {
    const [, digit, rest] = /^(?:([1-9]\d*|[A-G])(?: in |$))?(r.*)?$/.exec(item) ?? []
    if (digit !== undefined && cells.length > 0) close()
    if (digit !== undefined) digits.push(digit)
    if (rest !== undefined) cells.push(...parseCells(geometry, rest))
  }
  close()
  return inOrder(candidates)
}

/** `r1c1=5, r1,4c11<>10`. */
export function readConclusion(geometry: Geometry, text: string) {
  const placements: Candidate[] = []
  const removals: Candidate[] = []
  for (const part of text.split(', ')) {
    const [, cells, sign, digit] = /^([rc\d,]+)(=|<>)(\w+)$/.exec(part) ?? []
    for (const cell of parseCells(geometry, cells!))
      (sign === '=' ? placements : removals).push({ cell, digit: readDigit(geometry, digit!) })
  }
  return { placements: inOrder(placements), removals: inOrder(removals) }
}

export function inOrder(candidates: readonly Candidate[]): Candidate[] {
  return [...candidates].sort((a, b) => a.digit - b.digit || a.cell - b.cell)
}

export interface ReadLink {
  readonly kind: 'strong' | 'weak'
  readonly from: ChainNode
  readonly to: ChainNode
}

/** `(3=7)r1c1-(7)r1c5; (2)r4c4=(2)r4c9`, perhaps with ` loop` at its end. */
export function readLinks(geometry: Geometry, text: string): { links: ReadLink[]; loop: boolean } {
  const loop = text.endsWith(' loop')
  const links: ReadLink[] = []
  for (const chain of (loop ? text.slice(0, -' loop'.length) : text).split('; ')) {
    let rest = chain
    let from: ChainNode | undefined
    let sign: string | undefined
    while (rest !== '') {
      const [whole, digits, cells, next] = /^\(([^)]+)\)([rc\d,]+)([=-]?)/.exec(rest) ?? []
      if (whole === undefined) throw new Error(`${JSON.stringify(rest)} is no link`)
      for (const [i, digit] of digits!.split('=').entries()) {
        const node: ChainNode = { digit: readDigit(geometry, digit), cells: parseCells(geometry, cells!) }
        if (from) links.push({ kind: i > 0 || sign === '=' ? 'strong' : 'weak', from, to: node })
        from = node
      }
      sign = next
      rest = rest.slice(whole.length)
    }
  }
  return { links, loop }
}
