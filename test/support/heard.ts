import { explainStep } from '../../src/explain/explain-step.js'
import type { Wording } from '../../src/explain/words/wording.js'
import { openCount } from '../../src/grid/board/ask.js'
import { type HouseKind, layoutOf } from '../../src/grid/layout.js'
import type { FoundStep } from '../../src/logic/steps/step.js'

/** What a listener hears in the sentences of a step, read from the words alone: cells, houses and digits. */
export interface Heard {
  readonly sentences: readonly string[]
  readonly cells: ReadonlySet<number>
  readonly houses: ReadonlySet<number>
  readonly digits: ReadonlySet<number>
  /** Removed candidates that no sentence gives a reason for. */
  readonly withoutReason: number
  readonly fallbacks: number
}

/** Nouns of houses, by language: those that numbers follow. */
const NOUNS: Readonly<Record<string, Readonly<Record<string, HouseKind>>>> = {
  en: {
    row: 'row',
    rows: 'row',
    column: 'column',
    columns: 'column',
    box: 'box',
    boxes: 'box',
    region: 'region',
    regions: 'region',
    diagonal: 'diagonal',
    diagonals: 'diagonal',
  },
  de: {
    zeile: 'row',
    zeilen: 'row',
    spalte: 'column',
    spalten: 'column',
    block: 'box',
    blöcke: 'box',
    blöcken: 'box',
    region: 'region',
    regionen: 'region',
    diagonale: 'diagonal',
    diagonalen: 'diagonal',
  },
}
const FALLBACKS = [/could not all hold at once/, /nicht alles zugleich gelten/]
const CASES = /\b(?:case|Fall|Case) \d+(?:\.\d+)*/g
/** A cell as these checks have it named. */
const CELL = /⟦(\d+)⟧/g
const LIST = '\\d+(?:(?:, | and | or | und | oder )\\d+)*(?!\\d)'

export function hear(step: FoundStep, wording: Wording): Heard {
  const { houses } = layoutOf(step.before.geometry)
  const { facts, sentences } = explainStep(step, { wording, cells: (cell) => `⟦${cell}⟧` })
  const heard = { cells: new Set<number>(), houses: new Set<number>(), digits: new Set<number>() }
  const nouns = NOUNS[wording.language]!
  const inHouses = new RegExp(`\\b(${Object.keys(nouns).join('|')}) (${LIST})`, 'gi')
  for (const sentence of sentences) {
    const plain = sentence
      .replace(CASES, ' ')
      .replace(CELL, (_, cell: string) => {
        heard.cells.add(Number(cell))
        return '⟦⟧'
      })
      .replace(inHouses, (_, noun: string, numbers: string) => {
        for (const number of numbers.split(/\D+/)) {
          const house = houses.find(
            ({ kind, number: own }) => kind === nouns[noun.toLowerCase()] && own === Number(number),
          )
          if (!house) throw new Error(`no ${noun} ${number}: ${sentence}`)
          heard.houses.add(house.index)
        }
        return ' '
      })
    for (const [digit] of plain.matchAll(/\d+/g)) heard.digits.add(Number(digit))
  }
  const reasoned = new Set<string>()
  facts.forEach((fact, i) => {
    if (fact.kind !== 'conclusion') return
    // the reason stands after a colon, and says something of the grid or of the cases before it
    const because = /: (\S+ ){2,}\S+\.$/.test(sentences[i]!) && !FALLBACKS.some((f) => f.test(sentences[i]!))
    if (because) for (const { cell, digit } of fact.candidates) reasoned.add(`${cell}.${digit}`)
  })
  return {
    sentences,
    ...heard,
    withoutReason: step.removals.filter(({ cell, digit }) => !reasoned.has(`${cell}.${digit}`)).length,
    fallbacks: sentences.filter((sentence) => FALLBACKS.some((fallback) => fallback.test(sentence))).length,
  }
}

/** Faults of grammar in what is said with cells as these checks name them, and with spoken ones. */
export function faultsHeard(step: FoundStep, wording: Wording, { sentences }: Heard): string[] {
  const spoken = explainStep(step, { wording, cells: 'spoken' }).sentences
  return [...grammarFaults(sentences, wording.language), ...grammarFaults(spoken, wording.language)]
}

/** Everything that a step's pattern, premises and conclusions are made of. */
export function partsOf(step: FoundStep): Pick<Heard, 'cells' | 'houses' | 'digits'> {
  const { before, pattern } = step
  const { houses, housesOf } = layoutOf(before.geometry)
  const parts = { cells: new Set<number>(), houses: new Set<number>(), digits: new Set<number>() }
  const visit = (value: unknown, key: string): void => {
    if (typeof value === 'number') {
      if (/^(cell|cells|pivot|pincers|fins|stem|base|targets)$/.test(key)) parts.cells.add(value)
      else if (/^(house|from|to|cover|lines)$/.test(key)) parts.houses.add(value)
      else if (/^digits?$/.test(key)) parts.digits.add(value)
    } else if (Array.isArray(value)) for (const item of value) visit(item, key)
    else if (value && typeof value === 'object')
      for (const [name, part] of Object.entries(value)) visit(part, name)
  }
  if (pattern.shape === 'fish') {
    const { base, ...rest } = pattern
    for (const house of base) parts.houses.add(house)
    visit(rest, '')
  } else visit(pattern, '')
  visit([step.premises, step.placements, step.removals], '')
  if (pattern.shape === 'single') {
    // a single is explained by the digits around it
    before.digits.forEach((digit, cell) => {
      if (digit) parts.cells.add(cell)
    })
    for (const house of housesOf[pattern.cell]!) {
      parts.houses.add(house)
      for (const cell of houses[house]!.cells) parts.cells.add(cell)
    }
    for (let digit = 1; digit <= before.geometry.order; digit++) parts.digits.add(digit)
  }
  // cells that see each other do so in a house
  for (const cell of parts.cells) for (const house of housesOf[cell]!) parts.houses.add(house)
  return parts
}

/** What is named without being in the step, and what of the step's proof is not named. */
export function strays(
  step: FoundStep,
  heard: Heard,
): { readonly strange: string[]; readonly unnamed: string[] } {
  const parts = partsOf(step)
  const strange: string[] = []
  for (const kind of ['cells', 'houses', 'digits'] as const)
    for (const item of heard[kind]) if (!parts[kind].has(item)) strange.push(`${kind} ${item}`)
  const unnamed: string[] = []
  const name = (kind: 'cells' | 'digits', item: number) => {
    if (!heard[kind].has(item)) unnamed.push(`${kind} ${item}`)
  }
  for (const { cell, digit } of [...step.placements, ...step.removals]) {
    name('cells', cell)
    name('digits', digit)
  }
  // of a board on which every open cell is exchangeable, not each cell is named
  const isWhole = step.pattern.shape === 'exchange' && step.pattern.cells.length === openCount(step.before)
  if (!isWhole && step.pattern.shape !== 'single')
    for (const premise of step.premises) {
      if (premise.kind === 'cell') name('cells', premise.cell)
      else {
        name('digits', premise.digit)
        const isHeard =
          heard.houses.has(premise.house) || premise.cells.every((cell) => heard.cells.has(cell))
        if (!isHeard) unnamed.push(`houses ${premise.house}`)
      }
    }
  return { strange, unnamed }
}

const CELLS_TOGETHER =
  '(?<!(?:of|[Ii]n|[Vv]on|from|sees?|see|sehen|sieht) (?:both |all )?)(?<!, )(?<!⟧ )⟦⟧(?:, ⟦⟧)* (?:and|und) ⟦⟧'

/** Faults of grammar, by rules that a program can apply. */
const RULES: readonly (readonly [name: string, languages: string, fault: RegExp])[] = [
  ['a before a vowel', 'en', /\ba (?:8|11|18|A|E|F)\b/],
  ['an before a consonant', 'en', /\ban (?:[1-79]|1[02-79])\b/],
  ['article of a digit', 'de', /\b(?:ein|einen|das|den) \d/],
  ['two spaces', 'en de', / {2}/],
  ['space before a stop', 'en de', / [,.;:]/],
  ['stops in a row', 'en de', /[,.;:][,.;:]/],
  ['word twice', 'en de', /\b(\p{L}+) \1\b/u],
  ['line twice', 'en de', /\bin ((?:row|column|Zeile|Spalte) \d+),?(?: haben)? \1\b(?! ha[st])/i],
  ['one of one', 'en', /\b(?:see|sees) ⟦⟧, (?:one of which|and in every case one)/],
  ['one of one', 'de', /\b(?:sieht|sehen) ⟦⟧, und (?:in jedem Fall ist )?eine davon\b/],
  ['two of several', 'en', /\bone of ⟦⟧[^.]*, and the two see/],
  ['one thing of several', 'de', /\bentfällt die \S+ und die/],
  ['neither of three', 'en', /neither of ⟦⟧(?:, ⟦⟧)+ and/],
  ['both of three', 'en', /\bboth ⟦⟧, ⟦⟧/],
  ['both of three', 'de', /⟦⟧, ⟦⟧ und ⟦⟧(?: haben| liegen)? beide/],
  ['small letter at the start', 'en de', /^\p{Ll}/u],
  ['no full stop', 'en de', /[^.]$/],
  ['several cells with is', 'en', new RegExp(`${CELLS_TOGETHER} (?:is|has|takes|needs|sees)\\b`)],
  ['one cell with are', 'en', /^⟦⟧ (?:are|have|take|need|see)\b/],
  ['several cells with ist', 'de', new RegExp(`${CELLS_TOGETHER} (?:ist|hat|nimmt|braucht)\\b`)],
  ['several houses with has', 'en', /^(?:Rows|Columns|Boxes)[\d, ]+(?:and \d+ )?(?:has|needs|gets|is)\b/],
  [
    'several houses with hat',
    'de',
    /^Die (?:Zeilen|Spalten|Blöcke)[\d, ]+(?:und \d+ )?(?:hat|braucht|ist)\b/,
  ],
  ['one house with have', 'en', /^(?:Row|Column|Box) \d+ (?:have|need|get|are)\b/],
  ['one house with haben', 'de', /^(?:Zeile|Spalte|Block) \d+ (?:haben|brauchen|sind)\b/],
  [
    'count and noun',
    'en',
    /(?<!-)\b(?:one|1) (?:cells|digits|houses)\b|\b(?:two|three|four|five) (?:cell|digit)\b/,
  ],
  ['count and noun', 'de', /\beine (?:Zellen|Ziffern)\b|\b(?:zwei|drei|vier) (?:Zelle|Ziffer)\b/],
  ['old words', 'en', /cover house|comes back to it|base house/],
  ['hole', 'en de', /undefined|NaN|\[object|null/],
]

/** The rules that the sentences break, by name; cells are to be named as `hear` has them. */
export function grammarFaults(sentences: readonly string[], language: string): string[] {
  return sentences.flatMap((sentence) => {
    const plain = sentence.replace(CELL, '⟦⟧')
    return RULES.filter(([, languages, fault]) => languages.includes(language) && fault.test(plain)).map(
      ([name]) => `${name}: ${sentence}`,
    )
  })
}
