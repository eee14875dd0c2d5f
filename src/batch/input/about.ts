/** What a page or a file says of a puzzle. */
export interface About {
  /** Its number, digits only: `1234` of `No. 1,234`. */
  readonly number?: string
  /** Words of its heading that are none of the others. */
  readonly title?: string
  readonly setter?: string
  /** `2026-11-30`; left out where day and month might be exchanged. */
  readonly date?: string
}

/**
 * What headings and comments say, the nearest to the puzzle first. Each kind of fact is taken from the first that has
 * it, and a title from the heading alone. What is not surely a number, a date or a name stays in the title.
 */
export function aboutPuzzle(heading: string | undefined, comments: readonly string[]): About {
  const said = facts(heading ?? '')
  const title = tidy(said.rest)
  const about: { -readonly [K in keyof About]: About[K] } = {}
  for (const { number, setter, date } of [said, ...comments.map((comment) => facts(comment))]) {
    if (number !== undefined) about.number ??= number
    if (setter !== undefined) about.setter ??= setter
    if (date !== undefined) about.date ??= date
  }
  const { number, setter, date } = about
  return {
    ...(number !== undefined && { number }),
    ...(title !== '' && { title }),
    ...(setter !== undefined && { setter }),
    ...(date !== undefined && { date }),
  }
}

interface Facts {
  readonly number: string | undefined
  readonly setter: string | undefined
  readonly date: string | undefined
  readonly rest: string
}

function facts(words: string): Facts {
  let rest = words.normalize('NFC').replace(/\s+/g, ' ').trim()
  const take = <T>(find: (text: string) => { value: T; from: number; to: number } | undefined) => {
    const found = find(rest)
    if (!found) return undefined
    rest = `${rest.slice(0, found.from)} ${rest.slice(found.to)}`
    return found.value
  }
  // the date first: it has numbers of its own, and a comma before it may end a name
  const date = take(dateIn)
  const setter = take(setterIn)
  const number = take(numberIn)
  return { number, setter, date, rest }
}

/** Words with what parted them from what was taken out cut off. */
function tidy(words: string): string {
  const edge = /^[\s,;:|/·•–—-]+|[\s,;:|/·•–—-]+$/gu
  return words
    .replace(/\(\s*\)/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(edge, '')
}

const MONTHS = [
  ['january', 'jan', 'januar', 'jänner'],
  ['february', 'feb', 'februar', 'feber'],
  ['march', 'mar', 'märz', 'mrz'],
  ['april', 'apr'],
  ['may', 'mai'],
  ['june', 'jun', 'juni'],
  ['july', 'jul', 'juli'],
  ['august', 'aug'],
  ['september', 'sep', 'sept'],
  ['october', 'oct', 'oktober', 'okt'],
  ['november', 'nov'],
  ['december', 'dec', 'dezember', 'dez'],
] as const

const MONTH = MONTHS.flat()
  .sort((a, b) => b.length - a.length)
  .join('|')
const WEEKDAY =
  '(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|sonnabend)'
const DAY = '(\\d{1,2})(?:st|nd|rd|th|\\.)?'
const YEAR = '((?:19|20)\\d\\d)'
const BEFORE = `(?<![\\p{L}\\p{N}])(?:${WEEKDAY}\\.?,? (?:the )?)?`
const AFTER = '(?![\\p{L}\\p{N}])'
const DATES: readonly (readonly [
  RegExp,
  (parts: readonly string[]) => readonly [string, number, string] | undefined,
])[] = [
  [dated(`${YEAR}-(\\d\\d)-(\\d\\d)`), ([y, m, d]) => [y!, Number(m), d!]],
  [dated(`${DAY} (?:of )?(${MONTH})\\.?,? ${YEAR}`), ([d, m, y]) => [y!, monthNumber(m!), d!]],
  [dated(`(${MONTH})\\.? ${DAY},? ${YEAR}`), ([m, d, y]) => [y!, monthNumber(m!), d!]],
  [dated(`(\\d{1,2})\\. ?(\\d{1,2})\\. ?${YEAR}`), ([d, m, y]) => [y!, Number(m), d!]],
  [dated(`(\\d{1,2})/(\\d{1,2})/${YEAR}`), ([a, b, y]) => slashed(Number(a), Number(b), y!)],
]

function dated(pattern: string): RegExp {
  return new RegExp(`${BEFORE}${pattern}${AFTER}`, 'iu')
}

function monthNumber(name: string): number {
  return 1 + MONTHS.findIndex((names) => (names as readonly string[]).includes(name.toLowerCase()))
}

/** Day and month in the order that only one of the two can have. */
function slashed(a: number, b: number, year: string): readonly [string, number, string] | undefined {
  if (a > 12 || a === b) return [year, b, String(a)]
  return b > 12 ? [year, a, String(b)] : undefined
}

function dateIn(text: string): { value: string; from: number; to: number } | undefined {
  for (const [pattern, read] of DATES) {
    const match = pattern.exec(text)
    const parts = match && read(match.slice(1))
    if (!match || !parts) continue
    const [year, month, day] = parts
    const value = `${year}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`
    // the calendar has no 31 April: a day that it moves is none
    const time = Date.parse(`${value}T00:00:00Z`)
    if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== value) continue
    return { value, from: match.index, to: match.index + match[0].length }
  }
  return undefined
}

/** One to four names, each a capital and letters or an initial, and small words that names have in them. */
const NAME =
  "(?:\\p{Lu}\\.|\\p{Lu}[\\p{L}'’-]+)(?: (?:(?:de|der|den|di|da|du|la|le|van|von|of|the|zu|zum) ){0,2}(?:\\p{Lu}\\.|\\p{Lu}[\\p{L}'’-]+)){0,3}"
const SETTER = new RegExp(
  `(?<![\\p{L}\\p{N}])(?:(?:[Ss]et|[Cc]ompiled|[Mm]ade|[Cc]onstructed) by|[Bb]y|[Ss]etter:?|[Cc]ompiler:?|[Vv]on|[Gg]estellt von|[Aa]utor(?:in)?:?) (${NAME})(?=$|[\\s]*[,;:|/()·•–—]| -)`,
  'u',
)

function setterIn(text: string): { value: string; from: number; to: number } | undefined {
  const match = SETTER.exec(text)
  if (!match) return undefined
  // `Set by A (Monday to Thursday) and B (Friday to Sunday)` does not say which
  if (/\p{L}/u.test(text.slice(match.index + match[0].length)) && /^set by/i.test(match[0])) return undefined
  return { value: match[1]!, from: match.index, to: match.index + match[0].length }
}

const NUMBER =
  /(?<![\p{L}\p{N}])(?:no\.?|nr\.?|n°|№|#|number|nummer|puzzle|grid|sudoku|rätsel|gitter) ?(?:no\.?|nr\.?|#)? ?(\d{1,3}(?:[,.' ]\d{3})+|\d{1,7})(?![\p{L}\p{N}]|[.,/]\d)/iu
/** A number with nothing after it, or parted from the words after it: `12 Angry Foxes` has none. */
const ALONE = /^\(?(\d{1,7})(?:[.:)]+(?=\s|$)|\s*$)/u

function numberIn(text: string): { value: string; from: number; to: number } | undefined {
  const match = NUMBER.exec(text) ?? ALONE.exec(text)
  if (!match) return undefined
  return { value: match[1]!.replace(/\D/g, ''), from: match.index, to: match.index + match[0].length }
}
