import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount, digitsOf } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { conclusionsFrom, type Way } from '../exchange/conclusions.js'
import { type ExchangePattern, exchangeStep, extrasOf } from '../exchange/pattern.js'
import { factsOf, oncePerBoard } from '../facts.js'
import { KeptAnswers, LookedInVain, stampOfHouses } from '../path-memory.js'
import { cellPremise, housePremise } from '../premise-holds.js'
import type { Premise, Step } from '../step.js'
import type { Technique } from '../technique.js'

/** 0 and 1 share a line, 2 and 3 its opposite, 0 and 2 the other way; 0 and 3 are diagonal. */
type Corners = readonly [number, number, number, number]

interface Rectangle {
  /** Position in the list of the geometry. */
  readonly index: number
  readonly corners: Corners
  /** The houses of its corners: what is said about a rectangle follows from what they hold. */
  readonly houses: readonly number[]
}

const rectangleLists = new WeakMap<Geometry, readonly Rectangle[]>()

/**
 * Four cells, at the crossings of two rows and two columns, in which two digits could be swapped: every house that has
 * any of them has two neighbours of the rectangle.
 */
function rectanglesOf(geometry: Geometry): readonly Rectangle[] {
  let list = rectangleLists.get(geometry)
  if (!list) {
    const { order } = geometry
    const made: Rectangle[] = []
    for (let top = 0; top < order; top++) {
      for (let bottom = top + 1; bottom < order; bottom++) {
        for (let left = 0; left < order; left++) {
          for (let right = left + 1; right < order; right++) {
            const corners: Corners = [
              top * order + left,
              top * order + right,
              bottom * order + left,
              bottom * order + right,
            ]
            if (!isExchangeable(geometry, corners)) continue
            const houses = new Set(corners.flatMap((corner) => geometry.housesOf[corner]!))
            made.push({ index: made.length, corners, houses: [...houses] })
          }
        }
      }
    }
    list = made
    rectangleLists.set(geometry, list)
  }
  return list
}

function isExchangeable(geometry: Geometry, corners: Corners): boolean {
  return corners.every((corner) =>
    geometry.housesOf[corner]!.every((house) => {
      const inside = corners.filter((other) => geometry.positionIn(house, other) >= 0)
      if (inside.length !== 2) return false
      const [a, b] = inside.map((other) => corners.indexOf(other))
      return a! + b! !== 3
    }),
  )
}

/** A rectangle of open cells that share two digits; one value for as long as its houses stay the same. */
interface OpenRectangle {
  readonly corners: Corners
  readonly a: number
  readonly b: number
  readonly pattern: ExchangePattern
  /** Corners with extras. */
  readonly holders: readonly number[]
  /** The types that are not there, as bits. */
  vainTypes: number
  /** Steps of forced fillings, once they are worked out. */
  forced?: readonly Step[]
}

const kept = new KeptAnswers<readonly OpenRectangle[]>()

/** Rectangles whose four cells are open and share two digits. */
const openRectangles = oncePerBoard((board): readonly OpenRectangle[] => {
  const { candidates } = board
  const { stamps } = factsOf(board)
  const found: OpenRectangle[] = []
  for (const { index, corners, houses } of rectanglesOf(board.geometry)) {
    const shared =
      candidates[corners[0]]! & candidates[corners[1]]! & candidates[corners[2]]! & candidates[corners[3]]!
    if ((shared & (shared - 1)) === 0) continue
    found.push(...kept.of(index, stampOfHouses(stamps, houses), () => openRectangle(board, corners, shared)))
  }
  return found
})

/** The rectangle with each pair of the digits that its corners share. */
function openRectangle(board: Board, corners: Corners, shared: DigitSet): OpenRectangle[] {
  const found: OpenRectangle[] = []
  const digits = digitsOf(shared)
  for (let i = 0; i < digits.length; i++)
    for (let j = i + 1; j < digits.length; j++) {
      const [a, b] = [digits[i]!, digits[j]!]
      const pattern = patternOf(board, corners, a, b)
      const holders = corners.filter((corner, at) => board.candidates[corner]! & ~pattern.allowed[at]!)
      found.push({ corners, a, b, pattern, holders, vainTypes: 0 })
    }
  return found
}

/** Two fillings swap a and b: the extras are whatever else the corners may hold. */
function patternOf(board: Board, corners: Corners, a: number, b: number): ExchangePattern {
  const both = digitBit(a) | digitBit(b)
  const allowed = [both, both, both, both]
  return { cells: corners, allowed, extras: extrasOf(board, corners, allowed) }
}

/** How many corners have extras, by type. */
const FEWEST = { 1: 1, 2: 2, 3: 2, 4: 2, 5: 2 } as const
const MOST = { 1: 1, 2: 2, 3: 2, 4: 2, 5: 3 } as const

/**
 * The types that solvers number: 1, extras in one corner; 2, one extra digit in two corners of a line; 3, extras that make
 * a subset; 4, a digit confined to the two corners with extras; 5, one extra digit in diagonal or three corners.
 */
function numbered(type: 1 | 2 | 3 | 4 | 5): Technique {
  const name = `unique-rectangle-type-${type}`
  const way: Way = (
    { 1: 'one-cell', 2: 'one-digit', 3: 'subset', 4: 'locked-digit', 5: 'one-digit' } as const
  )[type]
  const bit = 1 << type
  return {
    name,
    level: 'pattern',
    assumes: 'one-solution',
    find(board, report) {
      for (const rectangle of openRectangles(board)) {
        const { corners, pattern, holders, vainTypes } = rectangle
        if (vainTypes & bit || holders.length < FEWEST[type] || holders.length > MOST[type]) continue
        if (way === 'one-digit') {
          const inLine =
            holders.length === 2 && holders.map((corner) => corners.indexOf(corner)).reduce(sum) !== 3
          if (inLine !== (type === 2)) continue
        }
        let found = false
        for (const step of conclusionsFrom(board, pattern, (drawn) => (drawn === way ? name : undefined))) {
          found = true
          if (report(step)) return
        }
        if (!found) rectangle.vainTypes |= bit
      }
    },
  }
}

const sum = (a: number, b: number): number => a + b

/** One corner is supposed to hold one of the digits; what then fills the others with the swapped pair? */
function forcedFillings(board: Board, { corners, a, b, pattern, holders }: OpenRectangle): Step[] {
  const steps: Step[] = []
  // With three plain corners type 1 says it all.
  if (holders.length < 2) return steps
  for (let corner = 0; corner < 4; corner++) {
    for (const digit of [a, b]) {
      const premises = forcing(board, corners, corner, digit, digit === a ? b : a)
      // Corners alone are types 1; the others here need a house that confines a digit.
      if (!premises?.some((premise) => premise.kind === 'house')) continue
      const removals = [{ cell: corners[corner]!, digit }]
      const name = nameOfForced(premises, corners)
      if (!name) continue
      const step = exchangeStep(board, name, pattern, { removals }, premises)
      if (step?.premises.some((premise) => premise.kind === 'house')) steps.push(step)
    }
  }
  return steps
}

/**
 * With `digit` in the corner, its neighbours must hold the other digit and the far corner `digit` again. Each is forced by
 * its two candidates, or by a house that has no other place for what it must hold. The premises, or undefined.
 */
function forcing(
  board: Board,
  corners: Corners,
  corner: number,
  digit: number,
  other: number,
): Premise[] | undefined {
  const opposite = 3 - corner
  const premises: Premise[] = []
  for (let index = 0; index < 4; index++) {
    if (index === corner || index === opposite) continue
    const premise = forcingOf(board, corners[index]!, other, corners[corner]!)
    if (!premise) return undefined
    premises.push(premise)
  }
  for (let index = 0; index < 4; index++) {
    if (index === corner || index === opposite) continue
    const premise = forcingOf(board, corners[opposite]!, digit, corners[index]!)
    if (premise) return [...premises, premise]
  }
  return undefined
}

/** What makes a corner hold a digit once its neighbour does not: its own two candidates, or a house. */
function forcingOf(board: Board, cell: number, wanted: number, neighbour: number): Premise | undefined {
  if (digitCount(board.candidates[cell]!) === 2) return cellPremise(board, cell)
  const { geometry } = board
  const { places } = factsOf(board)
  const houses = geometry.housesOf[cell]!
  for (let i = 0; i < houses.length; i++) {
    const house = houses[i]!
    if (geometry.positionIn(house, neighbour) < 0) continue
    // Both cells have the digit, so two places are these two.
    if (digitCount(places[house * geometry.order + wanted - 1]!) === 2)
      return housePremise(board, house, wanted)
  }
  return undefined
}

/**
 * Two diagonal corners without extras make type 6; one such corner or none, a hidden rectangle. Two in a line are type 4,
 * told by its own finder, which removes from both other corners at once.
 */
function nameOfForced(premises: readonly Premise[], corners: Corners): string | undefined {
  const plain = premises.flatMap((premise) =>
    premise.kind === 'cell' ? [corners.indexOf(premise.cell)] : [],
  )
  if (plain.length < 2) return 'hidden-rectangle'
  return plain[0]! + plain[1]! === 3 ? 'unique-rectangle-type-6' : undefined
}

function forced(name: string): Technique {
  return {
    name,
    level: 'pattern',
    assumes: 'one-solution',
    find(board, report) {
      for (const rectangle of openRectangles(board)) {
        rectangle.forced ??= forcedFillings(board, rectangle)
        for (const step of rectangle.forced) if (step.technique === name && report(step)) return
      }
    },
  }
}

const avoidableVain = new LookedInVain()

/**
 * Some corners hold digits that were placed, not printed. They could be exchanged with the open corners just as well, so
 * the open ones must not complete the pattern.
 */
export const avoidableRectangle: Technique = {
  name: 'avoidable-rectangle',
  level: 'pattern',
  assumes: 'one-solution',
  find(board, report) {
    const { stamps } = factsOf(board)
    for (const { index, corners, houses } of rectanglesOf(board.geometry)) {
      if (!isHalfPlaced(board, corners)) continue
      const stamp = stampOfHouses(stamps, houses)
      if (avoidableVain.look(index, stamp, report, (tell) => reportAvoidable(board, corners, tell))) return
    }
  },
}

function reportAvoidable(board: Board, corners: Corners, report: (step: Step) => boolean): boolean {
  for (const pattern of avoidablePatterns(board, corners)) {
    const steps = conclusionsFrom(board, pattern, (way) =>
      way === 'locked-digit' ? undefined : 'avoidable-rectangle',
    )
    for (const step of steps) if (report(step)) return true
  }
  return false
}

/** At least one corner is placed and one open, and none is printed. */
function isHalfPlaced({ digits, given }: Board, corners: Corners): boolean {
  let placed = 0
  for (let i = 0; i < 4; i++) {
    if (given[corners[i]!]) return false
    if (digits[corners[i]!]) placed++
  }
  return placed > 0 && placed < 4
}

/** The fillings of a rectangle that its placed corners allow. */
function* avoidablePatterns(board: Board, corners: Corners): Generator<ExchangePattern> {
  const { digits, candidates } = board
  const may = (corner: number, digit: number): boolean =>
    digits[corner] === digit || (candidates[corner]! & digitBit(digit)) !== 0
  const { order } = board.geometry
  for (let a = 1; a <= order; a++) {
    if (!may(corners[0], a) || !may(corners[3], a)) continue
    for (let b = 1; b <= order; b++) {
      if (a === b || !may(corners[1], b) || !may(corners[2], b)) continue
      const allowed = [digitBit(a), digitBit(b), digitBit(b), digitBit(a)]
      const extras = extrasOf(board, corners, allowed)
      if (extras.length > 0) yield { cells: corners, allowed, extras }
    }
  }
}

export const uniqueRectangles: readonly Technique[] = [
  numbered(1),
  numbered(2),
  numbered(3),
  numbered(4),
  numbered(5),
  forced('unique-rectangle-type-6'),
]
export const hiddenRectangle = forced('hidden-rectangle')
