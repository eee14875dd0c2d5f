import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { candidatesIn, cellsAlike, cellsOfFew, housesOfFew, openCells } from './board-facts.js'
import type { Clue, FartherMiss, NearMiss, Way } from './clue.js'
import { noExtras } from './larger-misses.js'
import { type Quarry, works } from './quarry.js'
import { sharedHouses } from './why-here.js'

type Exchange = Extract<Pattern, { shape: 'exchange' }>

export function huntExchange(step: FoundStep, pattern: Exchange): Quarry {
  const { cells, digits, extras } = pattern
  const { before } = step
  const isFilled = cells.some((cell) => before.digits[cell] !== 0)
  const isWhole = cells.length === openCells(before).length
  const way: Way = isWhole
    ? 'last-extras'
    : isFilled
      ? 'filled-rectangle'
      : cells.length === 4
        ? 'rectangle'
        : 'loop'
  const look: Clue[] = isWhole
    ? [
        {
          kind: 'more-than-two',
          open: openCells(before).length,
          cells: openCells(before).filter((cell) => candidatesIn(before, cell).length > 2),
        },
      ]
    : isFilled
      ? digits.map((digit): Clue => {
          const stand = Array.from(before.digits.keys()).filter((cell) => before.digits[cell] === digit)
          return { kind: 'stands', digit, cells: stand }
        })
      : openLook(step, digits)
  return {
    digit: undefined,
    houses: isWhole ? [] : sharedHouses(before, cells),
    clues: [
      ...look.filter((clue) => clue.kind !== 'stands' || clue.cells.length > 0),
      { kind: 'try', way, size: cells.length },
      // a rectangle is the smallest loop, and the easiest to see
      ...(isWhole
        ? noExtras(step, pattern)
        : rectangleMisses(step, cells).slice(0, way === 'rectangle' ? 2 : 1)),
      isWhole
        ? works(step, way, {
            cells: extras.map(({ cell }) => cell),
            digits: extras.map(({ digit }) => digit),
          })
        : works(step, way, { cells, digits }),
    ],
  }
}

/**
 * The cells with just the two digits, or, where there are none, the houses that one of the digits has two places in.
 */
function openLook({ before }: FoundStep, digits: readonly number[]): Clue[] {
  if (digits.length > 2) return [{ kind: 'cells-of-few', most: 2, cells: cellsOfFew(before, 2) }]
  const cells = cellsAlike(before, digits)
  if (cells.length > 0) return [{ kind: 'alike', digits, cells }]
  return digits.map((digit): Clue => {
    const houses = housesOfFew(before, digit, 'any', 2)
    return { kind: 'houses-of-few', digit, within: 'any', most: 2, houses }
  })
}

/** Four cells at the crossings of two rows and two columns, one of them with just a pair that the others could take. */
function rectangleMisses({ before }: FoundStep, own: readonly number[]): (NearMiss | FartherMiss)[] {
  const { order } = before.geometry
  const layout = layoutOf(before.geometry)
  const boxOf = (cell: number) =>
    layout.housesOf[cell]!.find((house) => ['box', 'region'].includes(layout.houses[house]!.kind))
  const given: NearMiss[] = []
  const lacking: FartherMiss[] = []
  const boxes: NearMiss[] = []
  const pairs = cellsOfFew(before, 2)
  const near = pairs.flatMap((a) =>
    openCells(before)
      .filter((b) => a !== b)
      .map((b) => [a, b] as const),
  )
  for (const [a, b] of near) {
    const digits = candidatesIn(before, a)
    if (!digits.every((digit) => candidatesIn(before, b).includes(digit))) continue
    const sameRow = Math.floor(a / order) === Math.floor(b / order)
    if (!sameRow && a % order !== b % order) continue
    for (let line = 0; line < order; line++) {
      const far = (cell: number) =>
        sameRow ? line * order + (cell % order) : Math.floor(cell / order) * order + line
      const [c, d] = [far(a), far(b)]
      if (c === a || (own.includes(a) && own.includes(b))) continue
      const has = (cell: number) =>
        before.digits[cell] === 0 && digits.every((digit) => candidatesIn(before, cell).includes(digit))
      const cells = [a, b, c, d].sort((p, q) => p - q)
      const count = new Set(cells.map(boxOf)).size
      if (has(c) && has(d) && count === 4) boxes.push({ kind: 'four-boxes', cells, digits })
      const [without] = [c, d].filter((cell) => !has(cell))
      const missing =
        without === undefined ? [] : digits.filter((digit) => !candidatesIn(before, without).includes(digit))
      const isOne = without !== undefined && before.digits[without] === 0 && missing.length === 1
      if (isOne && (has(c) || has(d)) && count === 2)
        lacking.push({ kind: 'lacking-corner', cells, digits, cell: without, digit: missing[0]! })
      const blocked = [c, d].filter(
        (cell) => before.given[cell] === 1 && digits.includes(before.digits[cell]!),
      )
      const [rest] = [c, d].filter((cell) => !blocked.includes(cell))
      if (blocked.length === 1 && rest !== undefined && has(rest) && count === 2)
        given.push({ kind: 'given-corner', cells, given: blocked[0]!, digits })
    }
  }
  return [...given.slice(0, 1), ...lacking.slice(0, 1), ...boxes.slice(0, 1)]
}
