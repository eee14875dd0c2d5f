import type { Board } from '../../grid/board.js'
import { digitCount } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { isPlainFish } from '../argument/fish.js'
import {
  choices,
  digitsBetween,
  housesOfFew,
  housesWith,
  openIn,
  placesOf,
  seenByAll,
} from './board-facts.js'
import type { Clue, FartherMiss, NearMiss, Way } from './clue.js'
import { type Quarry, works } from './quarry.js'

type Shape<Name extends Pattern['shape']> = Extract<Pattern, { shape: Name }>

/** Locked candidates: a digit confined to where two houses cross. */
export function huntLocked(step: FoundStep, { digit, from, to, cells }: Shape<'locked'>): Quarry {
  const { before } = step
  const layout = layoutOf(before.geometry)
  const kind = layout.houses[from]!.kind
  const found = layout.houses.flatMap(({ index, kind: own }) => {
    if (own !== kind) return []
    const places = placesOf(before, index, digit)
    if (places.length < 2) return []
    const others = layout.housesOf[places[0]!]!.filter(
      (house) => house !== index && places.every((cell) => layout.positionIn(house, cell) >= 0),
    )
    return others.map((house) => ({ from: index, to: house, cells: places }))
  })
  const misses = found.flatMap((one): NearMiss[] => {
    const more = placesOf(before, one.to, digit).length > one.cells.length
    return more ? [] : [{ kind: 'nothing-to-strike', digit, ...one }]
  })
  return {
    digit,
    houses: [from, to],
    clues: [
      { kind: 'one-line', digit, found },
      { kind: 'try', way: 'one-line', size: cells.length },
      ...misses.slice(0, 2),
      works(step, 'one-line', { cells, digits: [digit], houses: [from, to] }),
    ],
  }
}

/** Cells and digits of one house that belong together. */
export function huntSubset(step: FoundStep, pattern: Shape<'subset'>): Quarry {
  const { hidden, house, cells, digits } = pattern
  const way = hidden ? 'hidden-group' : 'naked-group'
  return {
    digit: undefined,
    houses: [house],
    clues: [
      hidden ? digitsOfFewPlaces(step, pattern) : cellsOfFewCandidates(step, pattern),
      { kind: 'try', way, size: cells.length },
      ...(hidden ? hiddenMisses(step, pattern) : nakedMisses(step, pattern)).slice(0, 2),
      works(step, way, { cells, digits, houses: [house] }),
    ],
  }
}

function cellsOfFewCandidates({ before }: FoundStep, { house, digits }: Shape<'subset'>): Clue {
  const cells = openIn(before, house).filter((cell) => digitCount(before.candidates[cell]!) <= digits.length)
  return { kind: 'few-in-house', house, most: digits.length, cells }
}

function digitsOfFewPlaces({ before }: FoundStep, { house, cells }: Shape<'subset'>): Clue {
  const digits = digitsBetween(before, openIn(before, house))
    .map((digit) => ({ digit, cells: placesOf(before, house, digit) }))
    .filter((one) => one.cells.length <= cells.length)
  return { kind: 'few-places', house, most: cells.length, digits }
}

/** The other houses of the same kind. */
function othersLike(board: Board, house: number): number[] {
  const { houses } = layoutOf(board.geometry)
  return houses
    .filter(({ index, kind }) => index !== house && kind === houses[house]!.kind)
    .map(({ index }) => index)
}

const fewIn = (board: Board, house: number, most: number) =>
  openIn(board, house).filter((cell) => digitCount(board.candidates[cell]!) <= most)

/** As many cells with one digit too many, those first that share the most with the subset. */
function nakedMisses({ before }: FoundStep, { house, cells, digits }: Shape<'subset'>): NearMiss[] {
  const size = cells.length
  const houses = [house, ...othersLike(before, house)]
  return houses
    .flatMap((own) => choices(fewIn(before, own, size + 1), size))
    .map((some) => ({ cells: some, digits: digitsBetween(before, some) }))
    .filter((one) => one.digits.length === size + 1)
    .sort(
      (a, b) =>
        shared(b.digits, digits) + shared(b.cells, cells) - shared(a.digits, digits) - shared(a.cells, cells),
    )
    .map((one): NearMiss => ({ kind: 'one-digit-too-many', ...one }))
}

function hiddenMisses(step: FoundStep, pattern: Shape<'subset'>): NearMiss[] {
  const { house } = pattern
  return [house, ...othersLike(step.before, house)].flatMap((own) =>
    hiddenMissesIn(step, { ...pattern, house: own }),
  )
}

function hiddenMissesIn({ before }: FoundStep, { house, digits }: Shape<'subset'>): NearMiss[] {
  const size = digits.length
  const all = digitsBetween(before, openIn(before, house))
  return choices(all, size)
    .map((some) => ({
      digits: some,
      cells: openIn(before, house).filter((cell) =>
        some.some((digit) => placesOf(before, house, digit).includes(cell)),
      ),
    }))
    .filter((one) => one.cells.length === size + 1)
    .sort((a, b) => shared(b.digits, digits) - shared(a.digits, digits))
    .map((one): NearMiss => ({ kind: 'one-cell-too-many', house, ...one }))
}

function shared(some: readonly number[], others: readonly number[]): number {
  return some.filter((one) => others.includes(one)).length
}

/** Lines whose places for a digit lie in as many lines across, or other houses in the same way. */
export function huntFish(step: FoundStep, pattern: Shape<'fish'>): Quarry {
  const { digit, base, cover, cells, fins } = pattern
  const { before } = step
  const layout = layoutOf(before.geometry)
  const plain = isPlainFish(step, pattern)
  const kind = layout.houses[base[0]!]!.kind
  const within = plain && (kind === 'row' || kind === 'column') ? kind : 'any'
  const most = Math.max(...base.map((house) => placesOf(before, house, digit).length))
  const way: Way = !plain ? 'houses-alike' : fins.length > 0 ? 'lines-but-for-fins' : 'lines-alike'
  return {
    digit,
    houses: base,
    clues: [
      { kind: 'houses-of-few', digit, within, most, houses: housesOfFew(before, digit, within, most) },
      { kind: 'try', way, size: base.length },
      ...(!plain
        ? houseMisses(step, pattern)
        : fins.length > 0
          ? finMisses(step, pattern).slice(0, 1)
          : fishMisses(step, pattern).slice(0, 2)),
      works(step, way, {
        cells: plain && fins.length === 0 ? cells : fins,
        digits: [digit],
        houses: [...base, ...cover],
      }),
    ],
  }
}

/** As many lines of the digit, that meet one line across too many. */
function fishMisses(step: FoundStep, pattern: Shape<'fish'>): NearMiss[] {
  const own = fishMissesOf(step, pattern, pattern.digit)
  if (own.length > 0) return own
  for (let digit = 1; digit <= step.before.geometry.order; digit++) {
    const others = digit === pattern.digit ? [] : fishMissesOf(step, pattern, digit)
    if (others.length > 0) return others.slice(0, 1)
  }
  return []
}

function fishMissesOf({ before }: FoundStep, { base }: Shape<'fish'>, digit: number): NearMiss[] {
  const layout = layoutOf(before.geometry)
  const kind = layout.houses[base[0]!]!.kind
  const across = kind === 'row' ? 'column' : 'row'
  const coverOf = (lines: readonly number[]) => {
    const places = lines.flatMap((line) => placesOf(before, line, digit))
    const houses = places.flatMap((cell) =>
      layout.housesOf[cell]!.filter((house) => layout.houses[house]!.kind === across),
    )
    return [...new Set(houses)].sort((a, b) => a - b)
  }
  const lines = layout.houses
    .filter((house) => house.kind === kind && placesOf(before, house.index, digit).length >= 2)
    .map(({ index }) => index)
  return choices(lines, base.length)
    .map((some) => ({ base: some, cover: coverOf(some) }))
    .filter((one) => one.cover.length === one.base.length + 1)
    .sort((a, b) => shared(b.base, base) - shared(a.base, base))
    .map((one): NearMiss => ({ kind: 'one-line-too-many', digit, ...one }))
}

/** Other lines of the digit whose places but for a few in one box lie in as many lines across, for nothing. */
function finMisses({ before }: FoundStep, { digit, base }: Shape<'fish'>): FartherMiss[] {
  const layout = layoutOf(before.geometry)
  const kind = layout.houses[base[0]!]!.kind
  const across = layout.houses.filter((house) => house.kind === (kind === 'row' ? 'column' : 'row'))
  const lines = layout.houses
    .filter((house) => house.kind === kind && placesOf(before, house.index, digit).length >= 2)
    .map(({ index }) => index)
  for (const some of choices(lines, base.length).slice(0, MOST_TRIED)) {
    if (shared(some, base) === base.length) continue
    const places = some.flatMap((line) => placesOf(before, line, digit))
    const crossed = across
      .filter(({ cells }) => places.some((cell) => cells.includes(cell)))
      .map(({ index }) => index)
    for (const cover of choices(crossed, base.length)) {
      const inCover = (cell: number) => cover.some((house) => layout.positionIn(house, cell) >= 0)
      const cells = places.filter((cell) => !inCover(cell))
      const inOneBox = housesWith(before, cells).some(
        (house) => !['row', 'column'].includes(layout.houses[house]!.kind),
      )
      if (cells.length === 0 || cells.length > 2 || !inOneBox) continue
      const seen = seenByAll(before, digit, cells).filter((cell) => inCover(cell) && !places.includes(cell))
      if (seen.length === 0) return [{ kind: 'fins-unseen', digit, base: some, cover, cells }]
    }
  }
  return []
}

/**
 * Houses of the digit, boxes among them, one of which differs from those of the pattern: but for a place or two they
 * lie in as many others, for nothing.
 */
function houseMisses({ before }: FoundStep, { digit, base, cover: own }: Shape<'fish'>): FartherMiss[] {
  const layout = layoutOf(before.geometry)
  const inAny = (houses: readonly number[], cell: number) =>
    houses.some((house) => layout.positionIn(house, cell) >= 0)
  const others = housesOfFew(before, digit, 'any', MOST_PLACES).map(({ house }) => house)
  for (const left of base)
    for (const next of others) {
      const some = [...base.filter((house) => house !== left), next]
      const places = some.flatMap((house) => placesOf(before, house, digit))
      // a place that two of the houses share is one of its own kind
      if (base.includes(next) || own.includes(next) || new Set(places).size < places.length) continue
      for (const gone of own)
        for (const { index } of layout.houses) {
          const cover = [...own.filter((house) => house !== gone), index].sort((a, b) => a - b)
          if (some.includes(index) || new Set(cover).size < own.length) continue
          const cells = places.filter((cell) => !inAny(cover, cell))
          if (cells.length === 0 || cells.length > 2) continue
          const seen = seenByAll(before, digit, cells).filter(
            (cell) => inAny(cover, cell) && !places.includes(cell),
          )
          if (seen.length === 0)
            return [{ kind: 'fins-unseen', digit, base: some.sort((a, b) => a - b), cover, cells }]
        }
    }
  return []
}

/** Houses with more places than these are no example. */
const MOST_PLACES = 4

/** Choices of lines that are gone through for an example. */
const MOST_TRIED = 60
