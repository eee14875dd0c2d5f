import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { roomFor } from '../argument/argue-exocet.js'
import type { crossingCount } from '../argument/argue-sets.js'
import { isStarvedBy } from '../argument/exclusion.js'
import { candidatesIn, cellsOfFew, choices, digitsBetween, openCells, placesOf } from './board-facts.js'
import type { LargerMiss } from './clue.js'

type Shape<Name extends Pattern['shape']> = Extract<Pattern, { shape: Name }>

/** A way to fill the cells that takes nothing too much from any others: a candidate of them that stays. */
export function fittingFilling(step: FoundStep, { cells, excluded }: Shape<'exclusion'>): LargerMiss[] {
  const { before, removals } = step
  const struck = (cell: number, digit: number) =>
    removals.some((one) => one.cell === cell && one.digit === digit)
  const fill = (at: number, fits: { cell: number; digit: number }[]): LargerMiss[] => {
    const isStarved = excluded.some(({ by }) => by.length > 0 && isStarvedBy(step, by, fits))
    if (isStarved) return []
    const cell = cells[at]
    if (cell === undefined) return [{ kind: 'goes-together', fits }]
    for (const digit of candidatesIn(before, cell)) {
      const next = { cell, digit }
      if (struck(cell, digit) || fits.some((one) => exclude(before.geometry, one, next))) continue
      const found = fill(at + 1, [...fits, next])
      if (found.length > 0) return found
    }
    return []
  }
  return fill(0, [])
}

/** How many digits a base may have. */
const MOST_IN_BASE = 4
/** Pairs of targets that are gone through for an example. */
const MOST_TRIED = 40

/** Two other cells that look like a base, and a digit of theirs that has room away from the targets. */
export function roomyBase(step: FoundStep, { base: own }: Shape<'exocet'>): LargerMiss[] {
  const { before } = step
  const layout = layoutOf(before.geometry)
  let tried = 0
  for (const box of layout.houses.filter(({ kind }) => kind === 'box'))
    for (const [kind, across] of [
      ['row', 'column'],
      ['column', 'row'],
    ] as const)
      for (const line of layout.houses.filter((house) => house.kind === kind)) {
        const crossing = box.cells.filter((cell) => layout.positionIn(line.index, cell) >= 0)
        const base = crossing.filter((cell) => before.digits[cell] === 0)
        const digits = digitsBetween(before, base)
        if (base.length !== 2 || base.join() === own.join() || digits.length > MOST_IN_BASE) continue
        const lineOf = (cell: number) =>
          layout.housesOf[cell]!.find((house) => layout.houses[house]!.kind === across)!
        const isBand = (other: typeof box) =>
          other.index !== box.index && other.cells.some((cell) => layout.positionIn(line.index, cell) >= 0)
        const places = layout.houses
          .filter((house) => house.kind === 'box' && isBand(house))
          .map(({ cells }) =>
            cells.filter(
              (cell) =>
                before.digits[cell] === 0 &&
                layout.positionIn(line.index, cell) < 0 &&
                candidatesIn(before, cell).some((digit) => digits.includes(digit)),
            ),
          )
        const [third] = crossing.filter((cell) => !base.includes(cell))
        if (places.length !== 2 || third === undefined) continue
        for (const one of places[0]!)
          for (const other of places[1]!) {
            if (tried++ > MOST_TRIED) return []
            const lines = [third, one, other].map(lineOf)
            const targets = [one, other]
            const digit = digits.find((d) => !roomFor(step, { base, targets, lines }, d))
            if (digit !== undefined) return [{ kind: 'has-room', base, targets, digit }]
          }
      }
  return []
}

/** The cells counted but for one: the digits are too many for the rest. */
export function sectorsOneShort({ before }: FoundStep, { cells, houses }: Shape<'sectors'>): LargerMiss[] {
  const layout = layoutOf(before.geometry)
  for (const without of cells) {
    const digits = houses.flatMap(({ house, digits: own }) =>
      own.filter((digit) =>
        cells.some(
          (cell) =>
            cell !== without &&
            layout.positionIn(house, cell) >= 0 &&
            candidatesIn(before, cell).includes(digit),
        ),
      ),
    )
    if (digits.length === cells.length)
      return [{ kind: 'one-short', without, cells: cells.length - 1, digits: digits.length }]
  }
  return []
}

/** The same of cells where two houses cross, where a digit on both sides counts twice. */
export function crossingOneShort(
  { before }: FoundStep,
  { crossing, sides }: NonNullable<ReturnType<typeof crossingCount>>,
): LargerMiss[] {
  const all = [...crossing, ...sides.flatMap(({ cells }) => cells)]
  for (const without of sides.flatMap(({ cells }) => cells)) {
    const [one, other] = sides.map(({ cells }) =>
      digitsBetween(
        before,
        cells.filter((cell) => cell !== without),
      ),
    )
    const middle = digitsBetween(before, crossing)
    const twice = one!.filter((digit) => other!.includes(digit))
    const digits = new Set([...one!, ...other!, ...middle]).size + twice.length
    if (digits === all.length) return [{ kind: 'one-short', without, cells: all.length - 1, digits }]
  }
  return []
}

/** Another stem with a cell in sight for each of its digits, which have no further digit in common. */
export function petalsApart({ before }: FoundStep, stem: number): LargerMiss[] {
  const layout = layoutOf(before.geometry)
  const pairs = cellsOfFew(before, 2)
  for (const cell of cellsOfFew(before, candidatesIn(before, stem).length)) {
    if (cell === stem) continue
    const petals = candidatesIn(before, cell).map((digit) => ({
      digit,
      cell: pairs.find(
        (other) => layout.arePeers(cell, other) && candidatesIn(before, other).includes(digit),
      ),
    }))
    const known = petals.flatMap((petal) =>
      petal.cell === undefined ? [] : [{ digit: petal.digit, cell: petal.cell }],
    )
    if (known.length < petals.length || new Set(known.map((petal) => petal.cell)).size < known.length)
      continue
    const rest = known.map((petal) => candidatesIn(before, petal.cell).find((digit) => digit !== petal.digit))
    if (new Set(rest).size > 1) return [{ kind: 'petals-apart', stem: cell, petals: known }]
  }
  return []
}

/** Digits of the cell with an extra that have two places in a house, as they should. */
export function noExtras({ before }: FoundStep, { extras }: Shape<'exchange'>): LargerMiss[] {
  const layout = layoutOf(before.geometry)
  for (const { cell } of extras)
    for (const house of layout.housesOf[cell]!) {
      const digits = candidatesIn(before, cell).filter(
        (digit) =>
          placesOf(before, house, digit).length === 2 &&
          !extras.some((extra) => extra.cell === cell && extra.digit === digit),
      )
      if (digits.length > 0) return [{ kind: 'no-extra', cell, house, digits }]
    }
  return []
}

/** Cells with the same two candidates which no house joins by either. */
export function unjoinedPair({ before }: FoundStep, own: readonly number[]): LargerMiss[] {
  const layout = layoutOf(before.geometry)
  for (const [a, b] of choices(cellsOfFew(before, 2), 2) as [number, number][]) {
    const digits = candidatesIn(before, a)
    if (digits.join() !== candidatesIn(before, b).join() || layout.arePeers(a, b)) continue
    if (own.includes(a) && own.includes(b)) continue
    const isJoined = digits.some((digit) =>
      layout.houses.some(({ index }) => {
        const places = placesOf(before, index, digit)
        return (
          places.length > 0 &&
          !places.includes(a) &&
          !places.includes(b) &&
          places.every((cell) => layout.arePeers(cell, a) || layout.arePeers(cell, b))
        )
      }),
    )
    if (!isJoined) return [{ kind: 'unjoined', cells: [a, b], digits }]
  }
  return []
}

/** The empty rectangles of other boxes, or with other pairs, whose ends nothing sees. */
export function crossMisses(
  { before }: FoundStep,
  digit: number,
  crosses: readonly {
    readonly box: number
    readonly row: number
    readonly column: number
    readonly cells: readonly number[]
  }[],
): { readonly kind: 'unseen'; readonly digit: number; readonly cells: readonly number[] }[] {
  const layout = layoutOf(before.geometry)
  const isIn = (house: number, cell: number) => layout.positionIn(house, cell) >= 0
  for (const { box, row, column, cells } of crosses)
    for (const [arm, other] of [
      [row, column],
      [column, row],
    ] as const)
      for (const { index } of layout.houses) {
        const places = placesOf(before, index, digit)
        const [near] = places.filter((cell) => isIn(arm, cell) && !isIn(box, cell))
        const [far] = places.filter((cell) => cell !== near)
        if (places.length !== 2 || near === undefined || far === undefined || isIn(box, far)) continue
        const ends = [far, ...cells.filter((cell) => isIn(other, cell) && !isIn(arm, cell))]
        const isSeen = openCells(before).some(
          (cell) =>
            !ends.includes(cell) &&
            digitsOf(before.candidates[cell]!).includes(digit) &&
            ends.every((end) => layout.arePeers(cell, end)),
        )
        if (!isSeen) return [{ kind: 'unseen', digit, cells: ends }]
      }
  return []
}
