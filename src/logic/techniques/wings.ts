import type { Board } from '../../grid/board.js'
import { type DigitSet, digitCount, firstDigit, onlyDigit } from '../../grid/digits.js'
import { candidatesSeenByAll, factsOf } from '../facts.js'
import { strongInCell, strongInHouse, weakLink } from '../links/link.js'
import { cellPremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'

/** The step of a wing: all its cells are premises; `removals` lose the digit that the wing holds somewhere. */
function wingStep(
  board: Board,
  technique: string,
  pivot: number,
  pincers: readonly number[],
  digit: number,
  removals: readonly number[],
): Step {
  return {
    technique,
    level: 'pattern',
    placements: [],
    removals: removals.map((cell) => ({ cell, digit })),
    premises: [pivot, ...pincers].map((cell) => cellPremise(board, cell)),
    pattern: { shape: 'wing', pivot, pincers, digit },
  }
}

/** Peers of a cell with two candidates, ascending. */
function bivaluePeers(board: Board, cell: number): number[] {
  return factsOf(board).bivalue.filter((other) => board.geometry.arePeers(cell, other))
}

/**
 * XY-wing: a pivot with candidates x and y sees a pincer with x and z and one with y and z. Whichever the pivot takes, one
 * pincer takes z: cells that see both pincers lose it.
 */
export const xyWing: Technique = {
  name: 'xy-wing',
  level: 'pattern',
  find(board, report) {
    const { candidates } = board
    for (const pivot of factsOf(board).bivalue) {
      const digits = candidates[pivot]!
      const pincers = bivaluePeers(board, pivot)
      for (let i = 0; i < pincers.length; i++) {
        const first = candidates[pincers[i]!]!
        const z = first & ~digits
        if (first === digits || digitCount(z) !== 1) continue
        // the pivot's digit that the first pincer lacks, and z: what the second must be
        const wanted = (digits & ~first) | z
        for (let j = i + 1; j < pincers.length; j++) {
          if (candidates[pincers[j]!] !== wanted) continue
          const pair = [pincers[i]!, pincers[j]!]
          const removals = candidatesSeenByAll(board, onlyDigit(z), pair)
          if (removals.length === 0) continue
          if (report(wingStep(board, 'xy-wing', pivot, pair, onlyDigit(z), removals))) return
        }
      }
    }
  },
}

/**
 * XYZ-wing: a pivot with candidates x, y and z sees a pincer with x and z and one with y and z. One of the three takes z:
 * cells that see all three lose it.
 */
export const xyzWing: Technique = {
  name: 'xyz-wing',
  level: 'pattern',
  find(board, report) {
    const { candidates } = board
    for (const pivot of factsOf(board).openCells) {
      const digits = candidates[pivot]!
      if (digitCount(digits) !== 3) continue
      const pincers = bivaluePeers(board, pivot).filter((cell) => (candidates[cell]! & ~digits) === 0)
      for (let i = 0; i < pincers.length; i++) {
        for (let j = i + 1; j < pincers.length; j++) {
          const shared = candidates[pincers[i]!]! & candidates[pincers[j]!]!
          if (digitCount(shared) !== 1) continue
          const z = onlyDigit(shared)
          const pair = [pincers[i]!, pincers[j]!]
          const removals = candidatesSeenByAll(board, z, [pivot, ...pair])
          if (removals.length === 0) continue
          if (report(wingStep(board, 'xyz-wing', pivot, pair, z, removals))) return
        }
      }
    }
  },
}

/**
 * WXYZ-wing: a pivot and three cells it sees hold four digits between them, and all of these but one, z, can stand in only one
 * of the four cells, since the cells that have them see each other. Four cells need four digits, so z is among them:
 * cells that see every place of z there lose it.
 */
export const wxyzWing: Technique = {
  name: 'wxyz-wing',
  level: 'pattern',
  find(board, report) {
    const { candidates, geometry } = board
    const small = factsOf(board).openCells.filter((cell) => digitCount(candidates[cell]!) <= 4)
    const seen = new Set<string>()
    for (const pivot of small) {
      const others = small.filter((cell) => geometry.arePeers(pivot, cell))
      for (let i = 0; i < others.length; i++) {
        const two = candidates[pivot]! | candidates[others[i]!]!
        if (digitCount(two) > 4) continue
        for (let j = i + 1; j < others.length; j++) {
          const three = two | candidates[others[j]!]!
          if (digitCount(three) > 4) continue
          const shared = unconfined(board, others[i]!, others[j]!)
          if ((shared & (shared - 1)) !== 0) continue
          for (let k = j + 1; k < others.length; k++) {
            if (digitCount(three | candidates[others[k]!]!) !== 4) continue
            const free =
              shared | unconfined(board, others[i]!, others[k]!) | unconfined(board, others[j]!, others[k]!)
            const z = onlyDigit(free)
            const cells = [pivot, others[i]!, others[j]!, others[k]!]
            if (z === 0 || !needsAll(board, cells, free)) continue
            const places = cells.filter((cell) => board.hasCandidate(cell, z))
            const removals = candidatesSeenByAll(board, z, places)
            if (removals.length === 0) continue
            // four cells may have several that see the other three
            const key = [...cells].sort((a, b) => a - b).join()
            if (seen.has(key)) continue
            seen.add(key)
            if (report(wingStep(board, 'wxyz-wing', pivot, cells.slice(1), z, removals))) return
          }
        }
      }
    }
  },
}

/** The digits that two cells could both hold. */
function unconfined(board: Board, a: number, b: number): DigitSet {
  return board.geometry.arePeers(a, b) ? 0 : board.candidates[a]! & board.candidates[b]!
}

/** Without the digit z, could any fewer of the cells all be filled? If not, those few have z by themselves. */
function needsAll({ candidates }: Board, cells: readonly number[], z: DigitSet): boolean {
  for (let part = 1; part < (1 << cells.length) - 1; part++) {
    let digits = 0
    for (let i = 0; i < cells.length; i++) if (part & (1 << i)) digits |= candidates[cells[i]!]!
    if (digitCount(digits & ~z) < digitCount(part)) return false
  }
  return true
}

/**
 * W-wing: two cells with the same two candidates, and a house whose places for one of the digits each see one of the two
 * cells. That digit stands in the house, so one of the cells lacks it and takes the other digit: cells that see both
 * lose that one.
 */
export const wWing: Technique = {
  name: 'w-wing',
  level: 'pattern',
  find(board, report) {
    const { candidates, geometry } = board
    const { bivalue } = factsOf(board)
    for (let i = 0; i < bivalue.length; i++) {
      for (let j = i + 1; j < bivalue.length; j++) {
        const pair = [bivalue[i]!, bivalue[j]!] as const
        const digits = candidates[pair[0]]!
        if (candidates[pair[1]] !== digits || geometry.arePeers(...pair)) continue
        const [low, high] = [firstDigit(digits), onlyDigit(digits & (digits - 1))]
        for (const [digit, other] of [
          [low, high],
          [high, low],
        ] as const) {
          const removals = candidatesSeenByAll(board, other, pair)
          if (removals.length > 0 && reportBridges(board, pair, digit, other, removals, report)) return
        }
      }
    }
  },
}

/** Reports a W-wing for each house whose places for the digit fall to the two cells, some to each. */
function reportBridges(
  board: Board,
  [first, second]: readonly [number, number],
  digit: number,
  other: number,
  removals: readonly number[],
  report: (step: Step) => boolean,
): boolean {
  const { geometry } = board
  for (const { index: house, cells } of geometry.houses) {
    const places = cells.filter((cell) => board.hasCandidate(cell, digit))
    if (places.length < 2 || places.includes(first) || places.includes(second)) continue
    const byFirst = places.filter((cell) => geometry.arePeers(cell, first))
    const bySecond = places.filter((cell) => geometry.arePeers(cell, second))
    const onlyFirst = places.filter((cell) => !bySecond.includes(cell))
    const onlySecond = places.filter((cell) => !byFirst.includes(cell))
    if (onlyFirst.length === 0 || onlySecond.length === 0) continue
    if (places.some((cell) => !byFirst.includes(cell) && !bySecond.includes(cell))) continue
    const near = { digit, cells: byFirst }
    const far = { digit, cells: places.filter((cell) => !byFirst.includes(cell)) }
    const step: Step = {
      technique: 'w-wing',
      level: 'pattern',
      placements: [],
      removals: removals.map((cell) => ({ cell, digit: other })),
      premises: [
        cellPremise(board, first),
        { kind: 'house', house, digit, cells: places },
        cellPremise(board, second),
      ],
      pattern: {
        shape: 'chain',
        loop: false,
        links: [
          strongInCell(first, other, digit),
          weakLink(geometry, { digit, cells: [first] }, near),
          strongInHouse(house, near, far),
          weakLink(geometry, far, { digit, cells: [second] }),
          strongInCell(second, digit, other),
        ],
      },
    }
    if (report(step)) return true
  }
  return false
}
