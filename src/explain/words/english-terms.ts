import type { Candidate } from '../../grid/board.js'
import { type DigitStyle, digitName } from '../../grid/digit-names.js'
import { cellName, type Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { ChainNode, Premise } from '../../logic/step.js'
import { cellGroups } from '../cell-names.js'

/** The small words from which English sentences about a grid are put together. */
export interface EnglishTerms {
  cell(cell: number): string
  /** `r4c56 and r7c1`. */
  cells(cells: readonly number[], word?: 'and' | 'or'): string
  house(house: number): string
  houses(houses: readonly number[]): string
  /** As it stands on the grid: a letter or a number above nine. */
  digit(digit: number): string
  /** `a 3`, `an 8`. */
  one(digit: number): string
  /** `3s`, `A's`. */
  several(digit: number): string
  digits(digits: readonly number[], word?: 'and' | 'or'): string
  /** `3 in r4c5`. */
  candidate(candidate: Candidate): string
  candidates(candidates: readonly Candidate[], word?: 'and' | 'or'): string
  /** `3 can be removed from r4c5 and 2 from r1c12`. */
  removals(candidates: readonly Candidate[]): string
  /** `3 in r4c5`, or `a 3 in r4c56` for a grouped node. */
  node(node: ChainNode): string
  /** `at least one of r4c5 and r9c9 is 1`, or with a digit each where they differ. */
  oneOf(nodes: readonly ChainNode[]): string
  premise(premise: Premise): string
}

export function list(items: readonly string[], word: 'and' | 'or' = 'and'): string {
  if (items.length <= 1) return items[0] ?? ''
  return `${items.slice(0, -1).join(', ')} ${word} ${items[items.length - 1]}`
}

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten']

export function count(n: number): string {
  return COUNTS[n] ?? `${n}`
}

/** `1 cell`, `two cells`. */
export function counted(n: number, noun: string, plural = `${noun}s`): string {
  return `${count(n)} ${n === 1 ? noun : plural}`
}

export function capital(text: string): string {
  // Cell names keep their small r: they are notation, also at the head of a sentence.
  return /^r\d/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1)
}

/** `row 1`; several of one kind share the noun: `rows 2 and 6`. */
function housesName(geometry: Geometry, houses: readonly number[]): string {
  const layout = layoutOf(geometry)
  const numbersOf = new Map<string, number[]>()
  for (const index of houses) {
    const { kind, number } = layout.houses[index]!
    const numbers = numbersOf.get(kind)
    if (numbers) numbers.push(number)
    else numbersOf.set(kind, [number])
  }
  const plural = (kind: string) => (kind === 'box' ? 'boxes' : `${kind}s`)
  return list(
    [...numbersOf].map(([kind, numbers]) =>
      numbers.length === 1
        ? `${kind} ${numbers[0]}`
        : `${plural(kind)} ${list(numbers.sort((a, b) => a - b).map(String))}`,
    ),
  )
}

/** Candidates named together: digits that stand in the same cells, with these cells. */
function gathered(geometry: Geometry, candidates: readonly Candidate[], name: (digit: number) => string) {
  const cellsOf = new Map<number, number[]>()
  for (const { cell, digit } of candidates) {
    const cells = cellsOf.get(digit)
    if (cells) cells.push(cell)
    else cellsOf.set(digit, [cell])
  }
  const digitsOf = new Map<string, { digits: string[]; cells: string[] }>()
  for (const [digit, cells] of cellsOf) {
    const names = cellGroups(geometry, cells)
    const group = digitsOf.get(names.join())
    if (group) group.digits.push(name(digit))
    else digitsOf.set(names.join(), { digits: [name(digit)], cells: names })
  }
  return [...digitsOf.values()]
}

/** Digits whose names begin with a vowel when they are spoken. */
const SPOKEN_WITH_VOWEL = ['8', '11', 'A', 'E', 'F']

export function englishTerms(geometry: Geometry, style: DigitStyle = 'letters'): EnglishTerms {
  const digit = (d: number) => digitName(d, style)
  const one = (d: number) => `${SPOKEN_WITH_VOWEL.includes(digit(d)) ? 'an' : 'a'} ${digit(d)}`
  const cell = (c: number) => cellName(geometry, c)
  const cells = (cs: readonly number[], word: 'and' | 'or' = 'and') => list(cellGroups(geometry, cs), word)
  const digits = (ds: readonly number[], word: 'and' | 'or' = 'and') => list(ds.map(digit), word)
  const nodeName = (node: ChainNode) =>
    `${node.cells.length === 1 ? digit(node.digit) : one(node.digit)} in ${cells(node.cells, 'or')}`
  const house = (h: number) => housesName(geometry, [h])
  return {
    cell,
    cells,
    house,
    houses: (hs) => housesName(geometry, hs),
    digit,
    one,
    several: (d) => `${digit(d)}${d > 9 && style === 'letters' ? "'s" : 's'}`,
    digits,
    candidate: (c) => `${digit(c.digit)} in ${cell(c.cell)}`,
    candidates: (cs, word = 'and') =>
      list(
        gathered(geometry, cs, digit).map(
          (group) => `${list(group.digits, word)} in ${list(group.cells, word)}`,
        ),
        word,
      ),
    removals: (cs) =>
      list(
        gathered(geometry, cs, digit).map(
          (group, i) => `${list(group.digits)} ${i === 0 ? 'can be removed ' : ''}from ${list(group.cells)}`,
        ),
      ),
    node: nodeName,
    oneOf: (nodes) => {
      const shared = nodes[0]?.digit ?? 0
      const where = nodes[0]?.cells ?? []
      if (where.length === 1 && nodes.every(({ cells: own }) => own.length === 1 && own[0] === where[0]))
        return `${cell(where[0]!)} is ${digits(
          nodes.map((node) => node.digit),
          'or',
        )}`
      if (nodes.some((node) => node.digit !== shared))
        return `at least one of these is true: ${list(nodes.map(nodeName), 'or')}`
      return `at least one of ${cells([...new Set(nodes.flatMap((node) => node.cells))])} is ${digit(shared)}`
    },
    premise: (premise) =>
      premise.kind === 'cell'
        ? `${cell(premise.cell)} is ${digits(premise.digits, 'or')}`
        : `${house(premise.house)} has its ${digit(premise.digit)} in ${cells(premise.cells, 'or')}`,
  }
}
