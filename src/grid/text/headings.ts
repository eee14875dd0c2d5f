/** A number on its own, as puzzles are counted: `12`, `12.`, `12)`, `(12)`; or a letter. */
const COUNT_LINE = /^\s*(\(\d{1,4}\)|\d{1,4}[):]|\d{1,2}\.|\d{1,3}|[a-z][.):]?)\s*$/i

/** A word of letters that are digits above nine, such as `Cabbage`: grids with such digits have longer rows. */
const SHORT_WORD_LINE = /^\s*[a-g]{2,9}\s*$/i

/** Is this a heading although it has nothing but symbols that cells may have? */
export function isCountLine(text: string): boolean {
  return COUNT_LINE.test(text) || SHORT_WORD_LINE.test(text)
}

/** What people set around a number: `=== 12 ===`, `- 3 -`, `<7>`, `2024:`. */
const ORNAMENT = '-=~*<>()[]"\'.:#%| '

/** A year, a fraction, a time or a date, and a time after a date: `2024`, `17/100`, `10:30`, `20241130`, `30.11.24`. */
const NUMBERS =
  /^((19|20)\d\d|(19|20)\d\d(0[1-9]|1[0-2])([0-2]\d|3[01])|\d{1,4}([/:])\d{1,4}(\6\d{1,4})?|\d{1,4}([-.])\d{1,2}\8\d{1,4}( \d{1,2}:\d\d(:\d\d)?)?)$/

const LONGEST_REMARK = 40

/**
 * Is this a number as people write it beside a puzzle? Cells may look the same, so the rows around have to show that it
 * is none of them.
 */
export function isNumberRemark(text: string): boolean {
  if (text.length > LONGEST_REMARK) return false
  const bare = withoutEnds(text, ORNAMENT)
  if (NUMBERS.test(bare)) return true
  // as much before it as after it; dots are cells
  const [before, after] = text.split(bare).map((part) => part.trim())
  return /^\d{1,4}$/.test(bare) && before !== '' && before!.length === after?.length && !before!.includes('.')
}

/** Without these characters at its beginning and at its end. */
export function withoutEnds(text: string, characters: string): string {
  let from = 0
  let to = text.length
  while (from < to && characters.includes(text[from]!)) from++
  while (to > from && characters.includes(text[to - 1]!)) to--
  return text.slice(from, to)
}

const WORDS = /[a-z\u00c0-\u024f]{2,}/gi

/** A letter that is no digit symbol of any order. */
const PROSE_LETTER = /[h-z\u00c0-\u024f]/i

/** Are there words that no row of cells has? */
export function hasProse(text: string): boolean {
  const prose = (text.match(WORDS) ?? []).filter((word) => PROSE_LETTER.test(word) && !areMarks(word))
  if (prose.length !== 1 || prose[0]!.length > 2 || !/^\s*[0-9._*-]/.test(text)) return prose.length > 0
  // Two wrong letters do not make a heading of a row.
  const others = text.replace(/\s+/g, '').length - 2
  return (text.match(/[0-9._*-]/g)?.length ?? 0) < others
}

/** `xxx`, `ooAo`: empty cells, and perhaps digits above nine. */
function areMarks(word: string): boolean {
  return /^([a-gx]+|[a-go]+)$/i.test(word) && (word.match(/[xo]/gi)?.length ?? 0) * 2 > word.length
}

/** What a cell may hold between separators: nothing, one symbol, or a number. */
const VALUE = /^("?)([0-9a-g._*xo?+-]|1[0-6]|)\1$/i

/**
 * Values with separators that are cells for the most part, or that are one word again and again where they are not, as
 * in `5,NaN,NaN,3`: a row, whatever the words mean.
 */
export function isRowOfValues(text: string): boolean {
  for (const separator of [',', ';', '\t', /\s+/]) {
    const values = text.trim().split(separator)
    if (values.length < 4) continue
    const words = values.map((value) => value.trim().toLowerCase()).filter((value) => !VALUE.test(value))
    const cells = values.length - words.length
    if (typeof separator === 'string' && cells * 2 >= values.length && /\d/.test(text)) return true
    if (words.length > 1 && words.every((word) => word === words[0])) return true
  }
  return false
}

/** `"id","puzzle"`: names of columns, each in quotes. */
export function areQuotedNames(text: string): boolean {
  if (!/^\s*"[^"]*"([,;\t]\s*"[^"]*")*\s*$/.test(text)) return false
  return (text.match(/"[^"]*"/g) ?? []).every((name) => hasProse(name) && !/\d{3}/.test(name))
}

/** Does a line name the columns of the line below it? As many values, parted in the same way. */
export function areColumnNames(names: string, below: string): boolean {
  return [',', ';', '\t', '|'].some((separator) => {
    const count = names.split(separator).length
    return count > 1 && below.trim().split(separator).length === count
  })
}

/**
 * The number of cells at the end of a line that begins with words, as in `Row one: 003020600`; 0 where there are none.
 */
export function cellsAfterWords(text: string): number {
  // no row is longer, so that time does not grow with the line
  const words = text.trimEnd().slice(-LONGEST_REMARK).split(/\s+/)
  const last = words.at(-1)!
  if (/^[0-9a-g._*-]{4,16}$/i.test(last) && /\d/.test(last)) return last.length
  const cells = words.length - 1 - words.findLastIndex((word) => !/^[0-9a-g._*-]$/i.test(word))
  return cells >= 4 && cells <= 16 ? cells : 0
}
