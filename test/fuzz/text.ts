import { InputError } from '../../src/errors.js'
import { safeParseBoard, safeParsePuzzle } from '../../src/grid/text/parse.js'
import { readPuzzles } from '../../src/grid/text/stream.js'
import { type Counts, type Fuzzer, FuzzFault } from './fuzzer.js'
import { below, pick, type Random } from './random-choice.js'
import { damage } from './text-damage.js'
import { type Meant, someDocument } from './text-documents.js'
import { MAY_BE_REFUSED } from './text-layouts.js'
import { type Found, TextOracle } from './text-oracle.js'

/** No input under 100 KB may take longer, in any parser, in milliseconds of the processor. */
const LONGEST = 1000

/**
 * Writes grids in many layouts, damages the text in known ways, and looks at every grid that comes out: it must be one
 * that was meant, or the text must be exactly another legal writing (`excused`; the oracle says when). Grids that no
 * damage came near and that do not come out are counted.
 */
export const textFuzzer: Fuzzer = {
  name: 'text',

  async runCase(random) {
    if (random() < 0.002) return hostile(random)
    const document = someDocument(random)
    const isSound = random() < 0.08
    const { lines, touched, kinds } = isSound
      ? { lines: document.lines, touched: new Set<number>(), kinds: [] }
      : damage(document, random)
    const text = lines.map((line) => line.text).join(pick(['\n', '\n', '\n', '\r\n'], random))
    const options = document.given ? { geometry: document.given } : {}
    const fault = (what: string, more = '') =>
      new FuzzFault(
        `${what} ${more}\nlayouts: ${document.meant.map(({ layout, geometry }) => `${layout} ${geometry.name}`).join(', ')}\ndamage: ${kinds.join(', ')}\ngeometry: ${document.given?.name}\n${JSON.stringify(text)}`,
      )

    const began = process.cpuUsage()
    const chunk = random() < 0.8 ? text.length || 1 : 1 + below(100, random)
    const pieces = Array.from({ length: Math.ceil(text.length / chunk) }, (_, i) =>
      text.slice(i * chunk, (i + 1) * chunk),
    )
    let grids = 0
    let errors = 0
    let excused = 0
    // An error where there need be none, and no grid that is wrong: counted, to be brought down.
    let lostNeighbours = 0
    let refusedSound = 0
    const seen = new Set<number>()
    const all: Found[] = []
    const others: Found[] = []
    for await (const entry of readPuzzles(pieces, options)) {
      const cells = entry.ok ? entry.puzzle.givens : undefined
      all.push({ line: entry.line, cells })
      if (entry.ok) {
        grids++
        const which = meantBy(document.meant, entry.puzzle.givens)
        for (const i of which) seen.add(i)
        if (which.length === 0) others.push(all.at(-1)!)
      } else if (!(entry.error instanceof InputError))
        throw fault('An error without a code:', String(entry.error))
      else errors++
    }
    const oracle = new TextOracle(document.meant, lines)
    for (const found of others) {
      if (!oracle.isWritten(all, found))
        throw fault('A grid that nobody wrote:', `line ${found.line} ${found.cells!.join('')}`)
      excused++
    }
    // a line that says the geometry of a grid that is gone says it of the next
    const isOrphaned = (i: number) =>
      touched.has(i - 1) && lines.some(({ text, owner }) => owner === i - 1 && /^# geometry/.test(text))
    const lost = new Set(document.groups.filter((_, i) => touched.has(i) || isOrphaned(i)))
    document.meant.forEach(({ layout }, i) => {
      // nothing shows where one ends and the other begins
      const group = document.meant.filter((_, other) => document.groups[other] === document.groups[i])
      const isHard = (each: Meant) =>
        lines.some(({ text, owner }) => owner < 0 && /^([-_*])\1+$/.test(text)) ||
        each.layout === 'banded rows' ||
        each.geometry.order === 4 ||
        MAY_BE_REFUSED.has(each.layout)
      if (group.length > 1 && group.some(isHard)) return
      if (seen.has(i) || lost.has(document.groups[i]!) || MAY_BE_REFUSED.has(layout)) return
      if (isSound) refusedSound++
      else lostNeighbours++
    })
    const alone = safeParsePuzzle(text, options)
    const took = sinceThen(began)
    if (alone.ok && meantBy(document.meant, alone.puzzle.givens).length === 0) {
      const { givens } = alone.puzzle
      const isRecord = others.some(({ cells }) => cells!.join() === givens.join())
      if (!isRecord && !oracle.isOnlyWriting(givens))
        throw fault('The only grid is one that nobody wrote:', givens.join(''))
      excused++
    }
    return {
      texts: 1,
      grids,
      errors,
      excused,
      lostNeighbours,
      refusedSound,
      only: alone.ok ? 1 : 0,
      worstMilliseconds: Math.round(took),
    }
  },
}

/** Milliseconds of the processor, which other programs on the machine do not lengthen. */
function sinceThen(began: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(began)
  return (user + system) / 1000
}

async function processorTime(run: () => unknown): Promise<number> {
  const began = process.cpuUsage()
  await run()
  return sinceThen(began)
}

function meantBy(meant: readonly Meant[], givens: readonly number[]): number[] {
  return meant.flatMap(({ cells }, i) =>
    cells.length === givens.length && cells.every((digit, cell) => digit === givens[cell]) ? [i] : [],
  )
}

const UNITS = [
  ...[
    '1',
    '1 ',
    '1,',
    '| ',
    '-+',
    '\n',
    '[',
    '{"a":',
    ' #',
    'x',
    'a',
    'ab',
    'é',
    '|',
    '+-',
    '. ',
    '"',
    '",',
    '\t',
    '0;',
    ':',
  ],
  ...[
    '[]',
    '[[1],',
    '# geometry: ',
    '# geometry: 3x3\n',
    '123456789\n',
    '1234\n',
    '1 2 3 4\n',
    '12 13 14 23\n',
    '| 1 |\n',
    '....|\n',
  ],
  ...[
    '*********\n',
    '_',
    '-',
    '1234341221434321\n',
    '12345678\n',
    '   ',
    ' \n',
    'row 1 ',
    'A ',
    '1:',
    '\u0000',
    '\ufffd',
    '(',
    '1.',
    '!',
    '1?',
  ],
]

/** Long texts of one piece over and over, with another at the end: time must grow with length alone. */
async function hostile(random: Random): Promise<Counts> {
  const unit = pick(UNITS, random) + (random() < 0.4 ? pick(UNITS, random) : '')
  const tail = random() < 0.5 ? pick(UNITS, random) : ''
  const text = unit.repeat(Math.floor((1000 + below(98_000, random)) / unit.length)) + tail
  let worst = 0
  const timed = async (name: string, run: () => unknown) => {
    const took = await processorTime(run)
    worst = Math.max(worst, took)
    if (took > LONGEST) {
      throw new FuzzFault(
        `${name} took ${Math.round(took)} ms for ${text.length} characters of ${JSON.stringify(unit)} and ${JSON.stringify(tail)}`,
      )
    }
  }
  await timed('safeParsePuzzle', () => safeParsePuzzle(text))
  await timed('safeParseBoard', () => safeParseBoard(text))
  await timed('readPuzzles', async () => {
    for await (const _ of readPuzzles([text])) {
      // only the time matters
    }
  })
  return { longTexts: 1, worstLongMilliseconds: Math.round(worst) }
}
