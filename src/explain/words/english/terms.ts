import type { Candidate } from '../../../grid/board.js'
import { digitName } from '../../../grid/digit-names.js'
import { layoutOf } from '../../../grid/layout.js'
import type { ChainNode, Premise } from '../../../logic/steps/step.js'
import { type CellsOfLine, type Names, namedCells } from '../../names.js'
import { gathered } from '../gathered.js'

/** The small words from which English sentences about a grid are put together. */
export interface EnglishTerms {
  cell(cell: number): string
  /** `r4c56 and r7c1`; spoken, `row 4, columns 5 and 6; and row 7, column 1`. */
  cells(cells: readonly number[], word?: 'and' | 'or'): string
  /** Cells of a house that is named already: spoken, `column 2 or 9` is enough in a row. */
  within(house: number, cells: readonly number[], word?: 'and' | 'or'): string
  /** Do the names of its cells say which house this is? Spoken, those of a row or column do. */
  isSaid(house: number): boolean
  house(house: number): string
  houses(houses: readonly number[], word?: 'and' | 'or'): string
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
  /** `the 3 in r4c5 and the 2 in r1c12`. */
  theCandidates(candidates: readonly Candidate[]): string
  /** `r4c5 is 3`, or `r4c5 or r4c6 is 3` for a grouped node. */
  node(node: ChainNode): string
  /** `r4c5 is not 3`, `neither r4c5 nor r4c6 is 3`. */
  noNode(node: ChainNode): string
  premise(premise: Premise): string
}

export function list(items: readonly string[], word: 'and' | 'or' = 'and'): string {
  if (items.length <= 1) return items[0] ?? ''
  // items with commas of their own are parted by semicolons
  const parted = items.some((item) => item.includes(','))
  const [comma, last] = parted ? ['; ', `; ${word} `] : [', ', ` ${word} `]
  return `${items.slice(0, -1).join(comma)}${last}${items[items.length - 1]}`
}

const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]

/** In words, so that it is not taken for a digit of the grid. */
export function count(n: number): string {
  if (n < COUNTS.length) return COUNTS[n]!
  if (n > 99) return `${n}`
  const ones = n % 10
  return n < 20
    ? TEENS[n - COUNTS.length]!
    : `${TENS[Math.floor(n / 10) - 2]}${ones > 0 ? `-${COUNTS[ones]}` : ''}`
}

const TEENS = ['thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen']
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']

/** `one cell`, `two cells`, `79 cells`. */
export function counted(n: number, noun: string, plural = `${noun}s`): string {
  return `${n < COUNTS.length ? count(n) : n} ${n === 1 ? noun : plural}`
}

export function capital(text: string): string {
  // Cell names keep their small r: they are notation, also at the head of a sentence.
  return /^r\d/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1)
}

/** `row 1`; several of one kind share the noun: `rows 2 and 6`. */
function housesName({ geometry }: Names, houses: readonly number[], word: 'and' | 'or'): string {
  const layout = layoutOf(geometry)
  const numbersOf = new Map<string, number[]>()
  for (const index of houses) {
    const { kind, number } = layout.houses[index]!
    const numbers = numbersOf.get(kind)
    if (numbers) numbers.push(number)
    else numbersOf.set(kind, [number])
  }
  const plural = (kind: string) => (kind === 'box' ? 'boxes' : `${kind}s`)
  const kinds = [...numbersOf].map(([kind, numbers]) =>
    numbers.length === 1
      ? `${kind} ${numbers[0]}`
      : `${word === 'or' ? kind : plural(kind)} ${list(numbers.sort((a, b) => a - b).map(String), word)}`,
  )
  return kinds.length === 2 ? kinds.join(` ${word} `) : list(kinds, word)
}

/** More cells than these are named by groups in print. */
const MOST_SINGLE = 4

/** Digits whose names begin with a vowel when they are spoken. */
const SPOKEN_WITH_VOWEL = ['8', '11', 'A', 'E', 'F']

type Word = 'and' | 'or'

/** `column 2`, `columns 2 and 9`, `column 2 or 9`. */
function spokenLines(noun: string, numbers: readonly number[], word: Word): string {
  return `${noun}${numbers.length > 1 && word === 'and' ? 's' : ''} ${list(numbers.map(String), word)}`
}

function spokenGroup({ row, column }: CellsOfLine, word: Word): string {
  return row.length > 1
    ? `${spokenLines('column', column, word)}, ${spokenLines('row', row, word)}`
    : `${spokenLines('row', row, word)}, ${spokenLines('column', column, word)}`
}

export function englishTerms(names: Names): EnglishTerms {
  const { order } = names.geometry
  const { houses: all } = layoutOf(names.geometry)
  const digit = (d: number) => digitName(d, names.digits)
  const one = (d: number) => `${SPOKEN_WITH_VOWEL.includes(digit(d)) ? 'an' : 'a'} ${digit(d)}`
  const items = (cs: readonly number[], word: Word = 'and') =>
    namedCells(names, cs, (group) => spokenGroup(group, word))
  const cell = (c: number) => items([c])[0]!
  // a few cells are named each for itself in print
  const each = (cs: readonly number[], word: Word) =>
    names.cells !== 'spoken' && cs.length <= MOST_SINGLE ? cs.map(cell) : items(cs, word)
  const cells = (cs: readonly number[], word: Word = 'and') => list(each(cs, word), word)
  const isSaid = (h: number) => names.cells === 'spoken' && /^(row|column)$/.test(all[h]!.kind)
  const digits = (ds: readonly number[], word: 'and' | 'or' = 'and') => list(ds.map(digit), word)
  const houses = (hs: readonly number[], word: 'and' | 'or' = 'and') => housesName(names, hs, word)
  const house = (h: number) => houses([h])
  const within = (h: number, cs: readonly number[], word: Word = 'and') => {
    if (!isSaid(h)) return cells(cs, word)
    const across = all[h]!.kind === 'row' ? ('column' as const) : ('row' as const)
    const numbers = cs.map((c) => (across === 'row' ? Math.floor(c / order) : c % order) + 1)
    return spokenLines(
      across,
      numbers.sort((a, b) => a - b),
      word,
    )
  }
  return {
    cell,
    cells,
    within,
    isSaid,
    house,
    houses,
    digit,
    one,
    several: (d) => `${digit(d)}${d > 9 && names.digits === 'letters' ? "'s" : 's'}`,
    digits,
    candidate: (c) => `${digit(c.digit)} in ${cell(c.cell)}`,
    candidates: (cs, word = 'and') =>
      list(
        gathered(cs).map((group) => `${digits(group.digits, word)} in ${cells(group.cells, word)}`),
        word,
      ),
    theCandidates: (cs) =>
      list(gathered(cs).map((group) => `the ${digits(group.digits)} in ${cells(group.cells)}`)),
    node: (node) =>
      node.cells.length === 1
        ? `${cell(node.cells[0]!)} is ${digit(node.digit)}`
        : `one of ${cells(node.cells)} is ${digit(node.digit)}`,
    noNode: (node) => {
      if (node.cells.length === 1) return `${cell(node.cells[0]!)} is not ${digit(node.digit)}`
      return `${node.cells.length === 2 ? 'neither' : 'none'} of ${cells(node.cells)} is ${digit(node.digit)}`
    },
    premise: (premise) =>
      premise.kind === 'cell'
        ? `${cell(premise.cell)} is ${digits(premise.digits, 'or')}`
        : `${house(premise.house)} has its ${digit(premise.digit)} in ${within(premise.house, premise.cells, 'or')}`,
  }
}
