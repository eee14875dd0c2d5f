/**
 * Is a grid exactly what a text says, whatever was meant? Written without a look at the library: it knows a few plain ways
 * to write a grid and wants every cell in its place.
 */
export function isWritten(
  lines: readonly string[],
  at: number,
  cells: readonly number[],
  isAlone: boolean,
): boolean {
  const order = Math.sqrt(cells.length)
  return (
    isOnLine(lines[at]!, cells, order) ||
    isInJson(lines, at, cells, order) ||
    isInRows(lines, at, cells, order, isAlone)
  )
}

/** `!` is a cell with no candidate left, `+5` a digit that a solver placed: neither is a given. */
const MARKS = new Set(['', '.', '0', '_', '*', 'x', 'X', 'o', 'O', '-', '?', '!'])
const SYMBOLS = '123456789ABCDEFG'

function digitOf(text: string, order: number): number | undefined {
  const bare = text
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .trim()
  if (MARKS.has(bare) || /^\+[1-9A-G]$/i.test(bare)) return 0
  // pencil marks
  if (order <= 9 && /^[1-9]{2,}$/.test(bare)) return 0
  const digit =
    bare.length === 1 ? SYMBOLS.indexOf(bare.toUpperCase()) + 1 : /^1[0-6]$/.test(bare) ? Number(bare) : 0
  return digit > 0 && digit <= order ? digit : undefined
}

function same(texts: readonly string[], cells: readonly number[], order: number): boolean {
  return texts.length === cells.length && texts.every((text, i) => digitOf(text, order) === cells[i])
}

function isOnLine(line: string, cells: readonly number[], order: number): boolean {
  const body = line.replace(/\s#.*$/, '')
  const words = body.split(/[\s,;:="|]+/).filter((word) => word !== '')
  const fits = (word: string) => same([...word], cells, order)
  if (words.some(fits)) {
    // nothing else on the line may be a grid, or most of one, but the solution
    const rest = words.filter(
      (word) => !fits(word) && /^[0-9._*xXoO?-]+$/.test(word) && word.length * 2 > cells.length,
    )
    return rest.every(
      (word) =>
        word.length === cells.length &&
        [...word].every((symbol, i) => cells[i] === 0 || digitOf(symbol, order) === cells[i]),
    )
  }
  return same(
    [...line],
    cells.map((digit) => digit),
    order,
  ) && /^[1-9 ]+$/.test(line)
    ? true
    : same(
        [...line].map((c) => (c === ' ' ? '' : c)),
        cells,
        order,
      ) ||
        same(body.trim().split(/\s+/), cells, order) ||
        (new Set(words.map((word) => word.length)).size === 1 && same([...words.join('')], cells, order)) ||
        [',', ';', '\t'].some(
          (separator) =>
            same(body.split(separator), cells, order) ||
            same(body.split(separator).slice(0, -1), cells, order),
        )
}

function isInJson(lines: readonly string[], at: number, cells: readonly number[], order: number): boolean {
  if (!/^\s*[[{]/.test(lines[at]!)) return false
  for (let end = at; end < Math.min(lines.length, at + 40); end++) {
    try {
      const data: unknown = JSON.parse(
        lines
          .slice(at, end + 1)
          .join('\n')
          .replace(/,\s*$/, ''),
      )
      return holds(data, cells, order)
    } catch {}
  }
  return false
}

function holds(data: unknown, cells: readonly number[], order: number): boolean {
  if (!Array.isArray(data)) return false
  const text = (value: unknown) => String(value ?? '')
  if (data.length === cells.length && data.every((value) => typeof value !== 'object' || value === null)) {
    return same(data.map(text), cells, order)
  }
  const rows = data.map((row: unknown) => (typeof row === 'string' ? [...row] : row))
  if (rows.length === order && rows.every((row) => Array.isArray(row) && row.length === order)) {
    return same(rows.flat().map(text), cells, order)
  }
  return data.some((item: unknown) => holds(typeof item === 'string' ? [...item] : item, cells, order))
}

const isBreak = (line: string) => line.trim() === '' || /^\s*[#[{]/.test(line) || isHeading(line)

function isHeading(line: string): boolean {
  // four symbols may be a row of a small grid
  if (
    /^\s*(\(\d+\)|\d{1,2}[.):]|\d{3,4}[):]|\d{1,3}|[a-z][.):]?)\s*$/i.test(line) &&
    line.trim().length !== 4
  )
    return true
  return (
    (line.match(/[a-zé]{2,}/gi) ?? []).some((word) => /[h-zé]/i.test(word) && !/^[a-gxo]+$/i.test(word)) &&
    !/[0-9._*x?-]{16}/i.test(line)
  )
}

/** A line of one symbol, or one that only draws. */
function isDrawn(line: string, marks: ReadonlySet<string>, order: number): boolean {
  const bare = line.replace(/\s+/g, '')
  if (/^[-=+~:|]*[-=+~][-=+~:|]*$/.test(bare) && !(/^-+$/.test(bare) && marks.has('-'))) return true
  return (
    bare.length > 1 &&
    bare === bare[0]!.repeat(bare.length) &&
    '*_xo?-~=.0'.includes(bare[0]!.toLowerCase()) &&
    (!marks.has(bare[0]!.toLowerCase()) || bare.length !== order)
  )
}

/** The ways to cut a line into as many cells as the order says. */
function cuts(line: string, order: number): string[][] {
  const body = line.replace(/\s#.*$/, '')
  const bare = body.replace(/[|"]/g, ' ')
  const inBars = body
    .split('|')
    .filter((piece, i, all) => piece.trim() !== '' || (i > 0 && i < all.length - 1))
  const evenly = inBars.flatMap((piece) => {
    const step = piece.length === (order / inBars.length) * 2 + 1 ? 2 : 1
    return step === 2 ? [...piece].filter((_, i) => i % 2 === 1) : [...piece]
  })
  const ways = [
    [...bare.replace(/[\s,;]+/g, '')],
    bare.trim().split(/\s+/),
    ...[',', ';', '\t', '|'].map((separator) => body.split(separator)),
    ...[',', ';', '\t'].map((separator) => body.split(separator).slice(0, -1)),
    [...body].map((c) => (c === ' ' ? '' : c)),
    body.includes('|') ? evenly : [],
  ]
  // a label before the cells
  return ways.flatMap((way) => [way, way.slice(1)]).filter((way) => way.length === order)
}

function isInRows(
  lines: readonly string[],
  at: number,
  cells: readonly number[],
  order: number,
  isAlone: boolean,
): boolean {
  const marks = new Set<string>()
  for (const line of lines.slice(Math.max(0, at - 20), at + 40)) {
    const bare = line.replace(/\s+/g, '').toLowerCase()
    if (bare !== (bare[0] ?? '').repeat(bare.length) && !/^[-=+~:|]*$/.test(bare))
      for (const c of bare) marks.add(c)
  }
  const isRowLike = (line: string) =>
    !isBreak(line) && !isDrawn(line, marks, order) && cuts(line, order).length > 0
  const rows = [...lines.keys()].filter((i) => isRowLike(lines[i]!))
  const from = rows.findIndex((row) => row >= at)
  const isRow = (row: number, r: number) =>
    cuts(lines[row]!, order).some((way) => same(way, cells.slice(r * order, (r + 1) * order), order))
  for (const start of [from, from + 1]) {
    const own = rows.slice(start, start + order)
    if (start < 0 || own.length < order || !own.every(isRow)) continue
    const isRuler = (line: string) => isBreak(line) || isDrawn(line, marks, order)
    if (
      isAlone ||
      isOfOneStyle(lines, own) ||
      [isBreak, isRuler].some((parts) => isWellParted(lines, rows, start, order, parts))
    )
      return true
  }
  return false
}

/**
 * Are these lines one after another and all in one style, of mark and separator, which the lines before and after do not
 * have? Nobody changes the style within a grid, so such lines belong together.
 */
function isOfOneStyle(lines: readonly string[], rows: readonly number[]): boolean {
  const [first, last] = [rows[0]!, rows.at(-1)!]
  if (last - first !== rows.length - 1) return false
  const style = styleOf(rows.map((row) => lines[row]!).join('\n'))
  const isOther = (line: string | undefined) => {
    if (line === undefined || isBreak(line)) return true
    const other = styleOf(line)
    return other !== undefined && other !== style
  }
  return style !== undefined && isOther(lines[first - 1]) && isOther(lines[last + 1])
}

/** The mark for empty cells and the separator of a text, one of each at most; undefined where there are more, or none. */
function styleOf(text: string): string | undefined {
  const marks = new Set([...text.toLowerCase()].filter((symbol) => MARKS.has(symbol)))
  const separators = new Set(text.match(/[,;\t|]/g))
  const isOne = marks.size <= 1 && separators.size <= 1 && marks.size + separators.size > 0
  return isOne ? [...marks, ...separators].join() : undefined
}

/** Do the rows around stand in blocks that come out as whole grids, or in equal bands? */
function isWellParted(
  lines: readonly string[],
  rows: readonly number[],
  start: number,
  order: number,
  parts: (line: string) => boolean,
): boolean {
  const blocks: number[][] = []
  rows.forEach((row, i) => {
    const previous = rows[i - 1]
    const isParted = previous === undefined || lines.slice(previous + 1, row).some(parts)
    if (isParted) blocks.push([])
    blocks.at(-1)!.push(i)
  })
  const at = blocks.findIndex((block) => block.includes(start))
  const block = blocks[at]!
  if (block[0]! <= start && block.at(-1)! >= start + order - 1) {
    // What comes before must come out as whole grids: two rows may be on a line, labels or odd lines may count or not.
    const before = block.filter((i) => i < start).map((i) => lines[rows[i]!]!)
    const isDouble = (line: string) => line.replace(/[\s|,;"]/g, '').length === 2 * order
    const certain = before.filter((line) => cuts(line, order).length > 0).length
    const double = before.filter((line) => cuts(line, order).length === 0 && isDouble(line)).length
    const odd = before.length - certain - double
    return Array.from({ length: odd + 1 }, (_, k) => certain + 2 * double + k).some(
      (count) => count % order <= 1,
    )
  }
  const size = block.length
  const bands = order / size
  if (block[0] !== start || !Number.isInteger(bands)) return false
  return blocks.slice(at, at + bands).every((other) => other.length === size)
}
