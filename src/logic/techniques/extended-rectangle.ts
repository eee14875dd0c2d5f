import { type DigitSet, digitCount } from '../../grid/digits.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { keptAnswers, stampOfHouses } from '../facts/path-memory.js'
import type { Technique } from '../technique.js'
import { addPattern, type KeptPattern, MOST_WITH_EXTRAS, reportKept } from '../uniqueness/kept-patterns.js'

/** Longest rows of an extended rectangle; two are a unique rectangle. */
const WIDTHS = [3, 4] as const

/**
 * Two lines side by side in their boxes hold the same n digits in the same n places: exchanging the lines there keeps
 * every house as it was. Extras in a few of the cells keep them from it.
 */
export const extendedRectangle: Technique = {
  name: 'extended-rectangle',
  level: 'chain',
  assumes: 'one-solution',
  find(facts, report) {
    const { board, stamps } = facts
    const kept = facts.context.of(keptExtended)
    const lists = pairedLines(board.geometry)
    for (const width of WIDTHS) {
      for (let i = 0; i < lists.length; i++) {
        const { houses, pairs } = lists[i]!
        const place = width * lists.length + i
        const patterns = kept.of(place, stampOfHouses(stamps, houses), () => extendedIn(facts, pairs, width))
        if (reportKept(facts, 'extended-rectangle', patterns, report)) return
      }
    }
  },
}

const keptExtended = keptAnswers<readonly KeptPattern[]>()

/** The patterns of so many pairs of facing cells. */
function extendedIn(facts: Facts, all: readonly Pair[], width: number): readonly KeptPattern[] {
  const { board } = facts
  const lists = facts.context.of(lineLists)
  const { openPairs, facing } = lists
  let count = 0
  let plain = 0
  for (let i = 0; i < all.length; i++) {
    const one = board.candidates[all[i]![0]]!
    const other = board.candidates[all[i]![1]]!
    if (one === 0 || other === 0) continue
    openPairs[count >> 1] = all[i]!
    facing[count++] = one
    facing[count++] = other
    if (digitCount(one) <= width) plain++
    if (digitCount(other) <= width) plain++
  }
  // most lines have too few cells that could be without extras
  if (count < 2 * width || plain + MOST_WITH_EXTRAS < 2 * width) return NO_PATTERNS
  const unions = unionsOf(lists, count, width)
  if (unions.length === 0) return NO_PATTERNS
  const sets = facing.slice(0, count)
  const pairs = openPairs.slice(0, count >> 1)
  const patterns: KeptPattern[] = []
  for (let u = 0; u < unions.length; u++) {
    const picks = picksOf(sets, width, unions[u]!)
    for (let p = 0; p < picks.length; p++) {
      if (!isSpelt(sets, picks[p]!, unions[u]!)) continue
      const cells: number[] = []
      for (let i = 0; i < picks[p]!.length; i++) cells.push(...pairs[picks[p]![i]!]!)
      addPattern(board, cells, unions[u]!, patterns)
    }
  }
  return patterns
}

const NO_PATTERNS: readonly KeptPattern[] = []
/** What serves pair of lines after pair. */
class LineLists {
  /** The open pairs of the lines that are looked at, and the candidates of their cells, two and two. */
  readonly openPairs: Pair[] = []
  readonly facing: DigitSet[] = []
  readonly plainSets: DigitSet[] = []
}

const lineLists = (): LineLists => new LineLists()

type Pair = readonly [number, number]

/** Two parallel lines and their facing cells that lie within one box or region. */
interface PairedLines {
  readonly houses: readonly number[]
  readonly pairs: readonly Pair[]
}

/** All parallel lines that share boxes or regions. */
const pairedLines = perLayout(({ housesOf, houses }, geometry): readonly PairedLines[] => {
  const { rows, columns, blockOf } = linesOf(geometry)
  // a diagonal would not keep its digits
  const onlyPlain = (cell: number): boolean =>
    housesOf[cell]!.every((house) => houses[house]!.kind !== 'diagonal')
  return [rows, columns]
    .flatMap((lines) =>
      lines.flatMap((one, i) =>
        lines.slice(i + 1).map((other) => ({
          houses: [one.index, other.index],
          pairs: one.cells
            .map((cell, at): Pair => [cell, other.cells[at]!])
            .filter(([a, b]) => blockOf[a] === blockOf[b] && onlyPlain(a) && onlyPlain(b)),
        })),
      ),
    )
    .filter(({ pairs }) => pairs.length >= WIDTHS[0])
})

/**
 * The sets of so many digits that two of the facing cells have between them, few of the cells of a pattern having
 * others: its plain cells spell its digits.
 */
function unionsOf({ facing, plainSets }: LineLists, count: number, size: number): readonly DigitSet[] {
  let unions = NO_UNIONS
  let plain = 0
  for (let i = 0; i < count; i++)
    if (digitCount(facing[i]!) <= size && !isAmong(plainSets, plain, facing[i]!))
      plainSets[plain++] = facing[i]!
  for (let i = 0; i < plain; i++) {
    for (let j = i; j < plain; j++) {
      const union = plainSets[i]! | plainSets[j]!
      if (digitCount(union) !== size || unions.includes(union)) continue
      let within = 0
      for (let k = 0; k < count; k++) if ((facing[k]! & ~union) === 0) within++
      if (within + MOST_WITH_EXTRAS >= 2 * size) unions = [...unions, union]
    }
  }
  return unions
}

const NO_UNIONS: readonly DigitSet[] = []

function isAmong(list: readonly number[], count: number, value: number): boolean {
  for (let i = 0; i < count; i++) if (list[i] === value) return true
  return false
}

/** Have two cells of these pairs, of no other digits, these digits between them? */
function isSpelt(sets: readonly DigitSet[], pairs: readonly number[], digits: DigitSet): boolean {
  for (let i = 0; i < 2 * pairs.length; i++) {
    const one = sets[2 * pairs[i >> 1]! + (i & 1)]!
    if ((one & ~digits) !== 0) continue
    for (let j = i; j < 2 * pairs.length; j++)
      if ((one | sets[2 * pairs[j >> 1]! + (j & 1)]!) === digits) return true
  }
  return false
}

/** How many cells of a pair have digits beyond these; more than may have them if a cell has none of these. */
function beyond(sets: readonly DigitSet[], pair: number, digits: DigitSet): number {
  const one = sets[2 * pair]!
  const other = sets[2 * pair + 1]!
  if ((one & digits) === 0 || (other & digits) === 0) return MOST_WITH_EXTRAS + 1
  return ((one & ~digits) === 0 ? 0 : 1) + ((other & ~digits) === 0 ? 0 : 1)
}

/** Each choice of `size` pairs, none without these digits and few with others. */
function picksOf(sets: readonly DigitSet[], size: number, digits: DigitSet): number[][] {
  const picks: number[][] = []
  // mostly there are too few pairs with few extras
  let plain = 0
  let withOne = 0
  let withTwo = 0
  for (let pair = 0; 2 * pair < sets.length; pair++) {
    const extras = beyond(sets, pair, digits)
    if (extras === 0) plain++
    else if (extras === 1) withOne++
    else if (extras === 2) withTwo++
  }
  const others = Math.max(0, size - plain)
  const fewest = others + Math.max(0, others - withOne)
  if (plain + withOne + withTwo >= size && fewest <= MOST_WITH_EXTRAS)
    pick(sets, digits, size, MOST_WITH_EXTRAS, 0, [], picks)
  return picks
}

/** Adds each choice of so many more pairs, from one on, that have no more extras than are left. */
function pick(
  sets: readonly DigitSet[],
  digits: DigitSet,
  wanted: number,
  extrasLeft: number,
  from: number,
  picked: number[],
  picks: number[][],
): void {
  if (wanted === 0) {
    picks.push([...picked])
    return
  }
  for (let pair = from; 2 * (pair + wanted) <= sets.length; pair++) {
    const extras = beyond(sets, pair, digits)
    if (extras > extrasLeft) continue
    picked.push(pair)
    pick(sets, digits, wanted - 1, extrasLeft - extras, pair + 1, picked, picks)
    picked.pop()
  }
}
