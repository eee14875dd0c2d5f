import type { Candidate } from '../../../grid/board.js'
import { digitName } from '../../../grid/digit-names.js'
import { type HouseKind, layoutOf } from '../../../grid/layout.js'
import type { ChainNode, Premise } from '../../../logic/steps/step.js'
import { type CellsOfLine, type Names, namedCells } from '../../names.js'
import { gathered } from '../gathered.js'

/** The small words from which German sentences about a grid are put together. */
export interface GermanTerms {
  cell(cell: number): string
  /** `r4c5 und r7c1`; spoken, `Zeile 4, Spalte 5 und Zeile 7, Spalte 1`. */
  cells(cells: readonly number[], word?: Word): string
  /** Cells of a house that is named already: spoken, `Spalte 2 oder 9` is enough in a row. */
  within(house: number, cells: readonly number[], word: Word): string
  /** Do the names of its cells say which house this is? Spoken, those of a row or column do. */
  isSaid(house: number): boolean
  /** `Zeile 1`, without an article: the same in all cases. */
  house(house: number): string
  /** `die Zeilen 2 und 5`, `Zeile 3 und Block 1`. */
  houses(houses: readonly number[]): string
  /** The dative: `den Zeilen 2 und 5`. */
  toHouses(houses: readonly number[]): string
  /** `Spalte 2 oder 9`. */
  anyHouse(houses: readonly number[]): string
  /** `ihre` or `seine`, by the gender of the house. */
  its(house: number): string
  /** The relative pronoun: `die` or `der`. */
  which(house: number): string
  digit(digit: number): string
  digits(digits: readonly number[], word?: Word): string
  /** `3 in r4c5`. */
  candidates(candidates: readonly Candidate[], word?: Word): string
  /** `die 3 in r4c5 und die 2 in r1c12`. */
  theCandidates(candidates: readonly Candidate[], word?: Word): string
  /** `r4c5 ist 3`, `eine von r4c5 und r4c6 ist 3`. */
  node(node: ChainNode): string
  /** `r4c5 ist nicht 3`, `weder r4c5 noch r4c6 ist 3`. */
  noNode(node: ChainNode): string
  /** The same with its verb ahead: `ist r4c5 nicht 3`. */
  isNoNode(node: ChainNode): string
  premise(premise: Premise): string
}

export type Word = 'und' | 'oder'

export function list(items: readonly string[], word: Word = 'und'): string {
  if (items.length <= 1) return items[0] ?? ''
  // items with commas of their own are parted by semicolons
  const comma = items.some((item) => item.includes(',')) ? '; ' : ', '
  return `${items.slice(0, -1).join(comma)} ${word} ${items[items.length - 1]}`
}

const COUNTS = [
  'keine',
  'eine',
  'zwei',
  'drei',
  'vier',
  'fünf',
  'sechs',
  'sieben',
  'acht',
  'neun',
  'zehn',
  'elf',
  'zwölf',
]

/**
 * In words, so that it is not taken for a digit of the grid; feminine, as cells, digits and lines are what is counted.
 */
export function count(n: number): string {
  if (n < COUNTS.length) return COUNTS[n]!
  if (n > 99) return `${n}`
  const ones = n % 10
  if (n < 20) return `${['drei', 'vier', 'fünf', 'sech', 'sieb', 'acht', 'neun'][n - COUNTS.length]}zehn`
  const tens = TENS[Math.floor(n / 10) - 2]!
  return ones === 0 ? tens : `${ones === 1 ? 'ein' : COUNTS[ones]}und${tens}`
}

const TENS = ['zwanzig', 'dreißig', 'vierzig', 'fünfzig', 'sechzig', 'siebzig', 'achtzig', 'neunzig']

/** `eine Zelle`, `zwei Zellen`. */
export function counted(n: number, noun: string, plural = `${noun}n`): string {
  return `${count(n)} ${n === 1 ? noun : plural}`
}

export function capital(text: string): string {
  return /^r\d/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1)
}

interface HouseWords {
  readonly one: string
  readonly several: string
  /** Dative plural. */
  readonly toSeveral: string
  readonly article: 'die' | 'der'
}

export const HOUSES: Readonly<Record<HouseKind, HouseWords>> = {
  row: { one: 'Zeile', several: 'Zeilen', toSeveral: 'Zeilen', article: 'die' },
  column: { one: 'Spalte', several: 'Spalten', toSeveral: 'Spalten', article: 'die' },
  box: { one: 'Block', several: 'Blöcke', toSeveral: 'Blöcken', article: 'der' },
  region: { one: 'Region', several: 'Regionen', toSeveral: 'Regionen', article: 'die' },
  diagonal: { one: 'Diagonale', several: 'Diagonalen', toSeveral: 'Diagonalen', article: 'die' },
}

/** More cells than these are named by groups in print. */
const MOST_SINGLE = 4

/** `Spalte 2`, `Spalten 2 und 9`, `Spalte 2 oder 9`. */
function spokenLines(noun: string, numbers: readonly number[], word: Word): string {
  return `${noun}${numbers.length > 1 && word === 'und' ? 'n' : ''} ${list(numbers.map(String), word)}`
}

function spokenGroup({ row, column }: CellsOfLine, word: Word): string {
  return row.length > 1
    ? `${spokenLines('Spalte', column, word)}, ${spokenLines('Zeile', row, word)}`
    : `${spokenLines('Zeile', row, word)}, ${spokenLines('Spalte', column, word)}`
}

export function germanTerms(names: Names): GermanTerms {
  const { houses: all } = layoutOf(names.geometry)
  const { order } = names.geometry
  const digit = (d: number) => digitName(d, names.digits)
  const items = (cs: readonly number[], word: Word = 'und') =>
    namedCells(names, cs, (group) => spokenGroup(group, word))
  const cell = (c: number) => items([c])[0]!
  const each = (cs: readonly number[], word: Word) =>
    names.cells !== 'spoken' && cs.length <= MOST_SINGLE ? cs.map(cell) : items(cs, word)
  const cells = (cs: readonly number[], word: Word = 'und') => list(each(cs, word), word)
  const isSaid = (h: number) => names.cells === 'spoken' && /^(row|column)$/.test(all[h]!.kind)
  const within = (h: number, cs: readonly number[], word: Word) => {
    if (!isSaid(h)) return cells(cs, word)
    const isRow = all[h]!.kind === 'row'
    const numbers = cs.map((c) => (isRow ? c % order : Math.floor(c / order)) + 1)
    return spokenLines(
      isRow ? 'Spalte' : 'Zeile',
      numbers.sort((a, b) => a - b),
      word,
    )
  }
  const digits = (ds: readonly number[], word: Word = 'und') => list(ds.map(digit), word)
  const wordsOf = (house: number) => HOUSES[all[house]!.kind]
  const house = (h: number) => `${wordsOf(h).one} ${all[h]!.number}`
  const grouped = (hs: readonly number[], word: Word, several: (words: HouseWords) => string) => {
    const numbersOf = new Map<HouseWords, number[]>()
    for (const h of hs) {
      const numbers = numbersOf.get(wordsOf(h))
      if (numbers) numbers.push(all[h]!.number)
      else numbersOf.set(wordsOf(h), [all[h]!.number])
    }
    const kinds = [...numbersOf].map(([words, numbers]) =>
      numbers.length === 1
        ? `${words.one} ${numbers[0]}`
        : `${several(words)} ${list(numbers.sort((a, b) => a - b).map(String), word)}`,
    )
    return kinds.length === 2 ? kinds.join(` ${word} `) : list(kinds, word)
  }
  const theCandidates = (cs: readonly Candidate[], word: Word = 'und') =>
    list(
      gathered(cs).map(
        (group) =>
          `die ${list(
            group.digits.map((d, i) => (i === 0 ? digit(d) : `die ${digit(d)}`)),
            word,
          )} in ${cells(group.cells, word)}`,
      ),
      word,
    )
  return {
    cell,
    cells,
    within,
    isSaid,
    house,
    houses: (hs) => grouped(hs, 'und', (words) => `die ${words.several}`),
    toHouses: (hs) => grouped(hs, 'und', (words) => `den ${words.toSeveral}`),
    anyHouse: (hs) => grouped(hs, 'oder', (words) => words.one),
    its: (h) => (wordsOf(h).article === 'die' ? 'ihre' : 'seine'),
    which: (h) => wordsOf(h).article,
    digit,
    digits,
    candidates: (cs, word = 'und') =>
      list(
        gathered(cs).map((group) => `${digits(group.digits, word)} in ${cells(group.cells, word)}`),
        word,
      ),
    theCandidates,
    node: (node) =>
      node.cells.length === 1
        ? `${cell(node.cells[0]!)} ist ${digit(node.digit)}`
        : `eine von ${cells(node.cells)} ist ${digit(node.digit)}`,
    noNode: ({ cells: own, digit: d }) => {
      if (own.length === 1) return `${cell(own[0]!)} ist nicht ${digit(d)}`
      return own.length === 2
        ? `weder ${cell(own[0]!)} noch ${cell(own[1]!)} ist ${digit(d)}`
        : `keine von ${cells(own)} ist ${digit(d)}`
    },
    isNoNode: ({ cells: own, digit: d }) => {
      if (own.length === 1) return `ist ${cell(own[0]!)} nicht ${digit(d)}`
      return own.length === 2
        ? `ist weder ${cell(own[0]!)} noch ${cell(own[1]!)} die ${digit(d)}`
        : `ist keine von ${cells(own)} die ${digit(d)}`
    },
    premise: (premise) =>
      premise.kind === 'cell'
        ? `${cell(premise.cell)} ist ${digits(premise.digits, 'oder')}`
        : `${house(premise.house)} hat ${wordsOf(premise.house).article === 'die' ? 'ihre' : 'seine'} ${digit(
            premise.digit,
          )} in ${within(premise.house, premise.cells, 'oder')}`,
  }
}
