import type { Board, Candidate } from '../../grid/board.js'
import { type DigitSet, digitCount, digitsOf } from '../../grid/digits.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { linesOf } from '../facts/lines.js'
import { cellPremise, housePremise } from '../proof/premise-holds.js'
import { isProvenBy, trimPremises } from '../proof/trim.js'
import { once } from '../steps/identity.js'
import type { Premise, Step } from '../steps/step.js'
import type { Technique } from '../technique.js'

/** Two cells where a block and a line cross, and the line across through another cell of that crossing. */
interface Base {
  readonly cells: readonly [number, number]
  readonly digits: DigitSet
  readonly crossLine: House
}

/** A cell off the base's line, in another block that this line runs through. */
interface Target {
  readonly cell: number
  readonly block: number
  readonly crossLine: House
}

/**
 * Junior exocet: two base cells where a block and a line cross, with three or more digits between them, and two target
 * cells that do not see the base, in two other blocks of the band. Look at three lines across: the one through the rest
 * of the base's crossing and those of the targets. A digit of the base that is in neither target must stand in each of
 * them outside the base's block and line; where that leaves these places fewer lines than three, it cannot. So each of
 * the two digits of the base is in a target, and the targets hold nothing else.
 *
 * In the common wording all those places of a digit lie in two lines, and the cells beside a target, in its block and
 * its line across, have no digit of the base: that is how it usually comes about.
 */
export const juniorExocet: Technique = {
  name: 'junior-exocet',
  level: 'chain',
  find(facts, report) {
    const { board } = facts
    const { rows, columns, blocks } = linesOf(board.geometry)
    const places = placesInLines(facts)
    // premises that can be spared may make two of them one
    const reportOnce = once(report)
    for (const [lines, across] of [
      [rows, columns],
      [columns, rows],
    ] as const) {
      for (const line of lines) {
        const targets = targetsBeside(board, line, across)
        for (const block of blocks) {
          for (const base of basesIn(board, line, block, across))
            if (reportExocets(board, base, targets, places, reportOnce)) return
        }
      }
    }
  },
}

/** house × order + digit - 1 -> positions where the digit may go or stands. */
function placesInLines(facts: Facts): readonly DigitSet[] {
  const { board } = facts
  const { geometry, digits } = board
  const layout = layoutOf(geometry)
  const places = [...facts.places]
  digits.forEach((digit, cell) => {
    if (digit === 0) return
    for (const house of layout.housesOf[cell]!)
      places[house * geometry.order + digit - 1] = 1 << layout.positionIn(house, cell)
  })
  return places
}

/** With two digits the base is a naked pair. */
const LEAST_DIGITS = 3
/** With more, the lines across hardly ever hold so many digits down. */
const MOST_DIGITS = 4

function* basesIn(board: Board, line: House, block: House, across: readonly House[]): Generator<Base> {
  const { geometry, candidates } = board
  const crossing = line.cells.filter((cell) => layoutOf(geometry).positionIn(block.index, cell) >= 0)
  for (const [i, first] of crossing.entries()) {
    for (const second of crossing.slice(i + 1)) {
      if (!candidates[first] || !candidates[second]) continue
      const digits = candidates[first]! | candidates[second]!
      const count = digitCount(digits)
      if (count < LEAST_DIGITS || count > MOST_DIGITS) continue
      for (const rest of crossing) {
        if (rest === first || rest === second) continue
        yield { cells: [first, second], digits, crossLine: lineThrough(board, across, rest) }
      }
    }
  }
}

function lineThrough({ geometry }: Board, lines: readonly House[], cell: number): House {
  return lines.find((line) => layoutOf(geometry).positionIn(line.index, cell) >= 0)!
}

function targetsBeside(board: Board, line: House, across: readonly House[]): Target[] {
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const { blockOf } = linesOf(geometry)
  const blocks = [...new Set(line.cells.map((cell) => blockOf[cell]!))]
  return blocks.flatMap((block) =>
    layout.houses[block]!.cells.filter(
      (cell) => candidates[cell] && layout.positionIn(line.index, cell) < 0,
    ).map((cell) => ({ cell, block, crossLine: lineThrough(board, across, cell) })),
  )
}

function reportExocets(
  board: Board,
  base: Base,
  all: readonly Target[],
  places: readonly DigitSet[],
  report: (step: Step) => boolean,
): boolean {
  const { geometry, candidates } = board
  const layout = layoutOf(geometry)
  const own = linesOf(geometry).blockOf[base.cells[0]]!
  const digits = digitsOf(base.digits)
  /** The positions for each digit of the base in a line across, off the target, when the digit is in the base. */
  const positionsIn = ({ index, cells }: House, target: number): DigitSet[] => {
    let free = 0
    cells.forEach((cell, i) => {
      const seen = base.cells.every((other) => layout.arePeers(cell, other))
      if (cell !== target && !seen) free |= 1 << i
    })
    return digits.map((digit) => places[index * geometry.order + digit - 1]! & free)
  }
  const first = positionsIn(base.crossLine, -1)
  const targets = all
    .filter(
      ({ cell, block, crossLine }) =>
        block !== own &&
        crossLine !== base.crossLine &&
        (candidates[cell]! & base.digits) !== 0 &&
        !base.cells.some((other) => layout.arePeers(other, cell)),
    )
    .map((target) => ({ target, positions: positionsIn(target.crossLine, target.cell) }))
  for (const [i, { target: one, positions: second }] of targets.entries()) {
    for (const { target: other, positions: third } of targets.slice(i + 1)) {
      if (one.block === other.block || one.crossLine === other.crossLine) continue
      if (digits.some((_, d) => fitApart(first[d]!, second[d]!, third[d]!))) continue
      const step = exocetStep(board, base, [one, other])
      if (step && report(step)) return true
    }
  }
  return false
}

/**
 * Can one position be taken from each set so that the three differ? If not, two of the sets or all three are too small.
 */
function fitApart(a: DigitSet, b: DigitSet, c: DigitSet): boolean {
  const several = (set: DigitSet) => (set & (set - 1)) !== 0
  return (
    a !== 0 &&
    b !== 0 &&
    c !== 0 &&
    several(a | b) &&
    several(a | c) &&
    several(b | c) &&
    digitCount(a | b | c) > 2
  )
}

function exocetStep(board: Board, base: Base, targets: readonly [Target, Target]): Step | undefined {
  const { geometry } = board
  const impossible = impossibleIn(board, base, targets)
  if (impossible.length === 0) return undefined
  const digits = digitsOf(base.digits)
  const crossLines = [base.crossLine, ...targets.map(({ crossLine }) => crossLine)]
  const basePremises = base.cells.map((cell) => cellPremise(board, cell))
  const premises: Premise[] = [
    ...basePremises,
    ...digits.flatMap((digit) => crossLines.map((line) => housePremise(board, line.index, digit))),
  ]
  // what the targets lose without one of the base cells, or without both, is due to a smaller pattern
  const removals = impossible.filter(
    (candidate) =>
      base.cells.includes(candidate.cell) ||
      basePremises.every((dropped) => {
        const fewer = premises.filter((premise) => premise !== dropped)
        return !isProvenBy(geometry, fewer, { placements: [], removals: [candidate] })
      }),
  )
  if (removals.length === 0) return undefined
  const needed = trimPremises(geometry, premises, { placements: [], removals })
  if (!basePremises.every((premise) => needed.includes(premise))) return undefined
  return {
    technique: 'junior-exocet',
    level: 'chain',
    placements: [],
    removals,
    premises: needed,
    pattern: {
      shape: 'exocet',
      base: base.cells,
      targets: targets.map(({ cell }) => cell),
      digits,
      lines: crossLines.map((line) => line.index),
    },
  }
}

/**
 * The candidates of base and targets that have no part in any way for the targets to take the two digits of the base.
 */
function impossibleIn(
  { candidates }: Board,
  base: Base,
  [one, other]: readonly [Target, Target],
): Candidate[] {
  const cells = [...base.cells, one.cell, other.cell]
  const possible = cells.map(() => 0)
  const has = (cell: number, digit: number) => (candidates[cell]! & (1 << (digit - 1))) !== 0
  for (const first of digitsOf(candidates[base.cells[0]]!)) {
    for (const second of digitsOf(candidates[base.cells[1]]!)) {
      if (first === second) continue
      for (const [a, b] of [
        [first, second],
        [second, first],
      ] as const) {
        if (!has(one.cell, a) || !has(other.cell, b)) continue
        for (const [i, digit] of [first, second, a, b].entries()) possible[i]! |= 1 << (digit - 1)
      }
    }
  }
  return cells.flatMap((cell, i) =>
    digitsOf(candidates[cell]! & ~possible[i]!).map((digit) => ({ cell, digit })),
  )
}
