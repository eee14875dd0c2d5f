import { hasCandidate } from '../../grid/board/ask.js'
import type { Board } from '../../grid/board.js'
import { type DigitSet, digitCount, firstDigit, lowestBit, onlyDigit } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { strongInCell, strongInHouse, weakLink } from '../chains/link.js'
import { candidatesSeenByAll, cellsAt, type Facts } from '../facts/facts.js'
import { missCache, patternByPlace, stampsAround } from '../facts/path-memory.js'
import { cellPremise } from '../proof/premise-holds.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/** The step of a wing: all its cells are premises; `removals` lose the digit that the wing holds somewhere. */
function wingStep(
  board: Board,
  technique: TechniqueName,
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

/** A technique that looks at the wings of one pivot at a time; a pivot sees all its pincers. */
function pivotByPivot(
  name: TechniqueName,
  find: (facts: Facts, pivot: number, report: (step: Step) => boolean) => boolean,
  pivotsOf: (facts: Facts) => readonly number[] = ({ openCells }) => openCells,
): Technique {
  return patternByPlace(name, pivotsOf, (facts, cell) => stampsAround(facts)[cell]!, find)
}

/** Peers of a cell with two candidates, ascending. */
function bivaluePeers(facts: Facts, cell: number): number[] {
  const { board, bivalue } = facts
  const peers: number[] = []
  for (let i = 0; i < bivalue.length; i++)
    if (layoutOf(board.geometry).arePeers(cell, bivalue[i]!)) peers.push(bivalue[i]!)
  return peers
}

/**
 * XY-wing: a pivot with candidates x and y sees a pincer with x and z and one with y and z. Whichever the pivot takes,
 * one pincer takes z: cells that see both pincers lose it.
 */
export const xyWing = pivotByPivot(
  'xy-wing',
  (facts, pivot, report) => reportXyWings(facts, pivot, report),
  ({ bivalue }) => bivalue,
)

function reportXyWings(facts: Facts, pivot: number, report: (step: Step) => boolean): boolean {
  const { board } = facts
  const { candidates } = board
  const digits = candidates[pivot]!
  const pincers = bivaluePeers(facts, pivot)
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
      if (report(wingStep(board, 'xy-wing', pivot, pair, onlyDigit(z), removals))) return true
    }
  }
  return false
}

/**
 * XYZ-wing: a pivot with candidates x, y and z sees a pincer with x and z and one with y and z. One of the three takes
 * z: cells that see all three lose it.
 */
export const xyzWing = pivotByPivot('xyz-wing', (facts, pivot, report) => {
  const { board } = facts
  const { candidates } = board
  const digits = candidates[pivot]!
  if (digitCount(digits) !== 3) return false
  const pincers = bivaluePeers(facts, pivot).filter((cell) => (candidates[cell]! & ~digits) === 0)
  for (let i = 0; i < pincers.length; i++) {
    for (let j = i + 1; j < pincers.length; j++) {
      const shared = candidates[pincers[i]!]! & candidates[pincers[j]!]!
      if (digitCount(shared) !== 1) continue
      const z = onlyDigit(shared)
      const pair = [pincers[i]!, pincers[j]!]
      const removals = candidatesSeenByAll(board, z, [pivot, ...pair])
      if (removals.length === 0) continue
      if (report(wingStep(board, 'xyz-wing', pivot, pair, z, removals))) return true
    }
  }
  return false
})

/**
 * WXYZ-wing: a pivot and three cells it sees hold four digits between them, and all of these but one, z, can stand in
 * only one of the four cells, since the cells that have them see each other. Four cells need four digits, so z is among
 * them: cells that see every place of z there lose it.
 */
export const wxyzWing = pivotByPivot('wxyz-wing', ({ board, context }, pivot, report) => {
  const { candidates, geometry } = board
  if (digitCount(candidates[pivot]!) > 4) return false
  const peers = layoutOf(geometry).peersOf[pivot]!
  const others = context.of(besidePivot)
  let count = 0
  for (let i = 0; i < peers.length; i++) {
    const set = candidates[peers[i]!]!
    if (set !== 0 && digitCount(set | candidates[pivot]!) <= 4) others[count++] = peers[i]!
  }
  for (let i = 0; i < count; i++) {
    const two = candidates[pivot]! | candidates[others[i]!]!
    for (let j = i + 1; j < count; j++) {
      const three = two | candidates[others[j]!]!
      if (digitCount(three) > 4) continue
      const shared = unconfined(board, others[i]!, others[j]!)
      if ((shared & (shared - 1)) !== 0) continue
      for (let k = j + 1; k < count; k++) {
        if (digitCount(three | candidates[others[k]!]!) !== 4) continue
        const free =
          shared | unconfined(board, others[i]!, others[k]!) | unconfined(board, others[j]!, others[k]!)
        const z = onlyDigit(free)
        if (z === 0) continue
        const cells = [pivot, others[i]!, others[j]!, others[k]!]
        if (isReportedBefore(geometry, cells) || !needsAll(board, cells, free)) continue
        const places = cells.filter((cell) => hasCandidate(board, cell, z))
        const removals = candidatesSeenByAll(board, z, places)
        if (removals.length === 0) continue
        if (report(wingStep(board, 'wxyz-wing', pivot, cells.slice(1), z, removals))) return true
      }
    }
  }
  return false
})

/** The cells that may go with the pivot. */
const besidePivot = (): number[] => []

/**
 * Several of the cells may see the other three: the wing is reported with the smallest of them as its pivot, the first.
 */
function isReportedBefore(geometry: Geometry, cells: readonly number[]): boolean {
  for (let i = 1; i < cells.length; i++)
    if (cells[i]! < cells[0]! && seesAll(geometry, cells[i]!, cells)) return true
  return false
}

function seesAll(geometry: Geometry, cell: number, cells: readonly number[]): boolean {
  const layout = layoutOf(geometry)
  for (let i = 0; i < cells.length; i++)
    if (cells[i] !== cell && !layout.arePeers(cell, cells[i]!)) return false
  return true
}

/** The digits that two cells could both hold. */
function unconfined(board: Board, a: number, b: number): DigitSet {
  return layoutOf(board.geometry).arePeers(a, b) ? 0 : board.candidates[a]! & board.candidates[b]!
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
 * W-wing: two cells with the same two candidates, and a house whose places for one of the digits each see one of the
 * two cells. That digit stands in the house, so one of the cells lacks it and takes the other digit: cells that see
 * both lose that one.
 */
export const wWing: Technique = {
  name: 'w-wing',
  level: 'pattern',
  find(facts, report) {
    const { board, bivalue, stamps } = facts
    const misses = facts.context.of(wWingMisses)
    for (const [digits, cells] of cellsByPair(board, bivalue)) {
      const [low, high] = [firstDigit(digits), onlyDigit(digits & (digits - 1))]
      let stamp = Math.max(stamps.ofDigit[low]!, stamps.ofDigit[high]!)
      for (const cell of cells) stamp = Math.max(stamp, stamps.ofCell[cell]!)
      if (misses.look(digits, stamp, report, (pass) => reportPairs(facts, cells, low, high, pass))) return
    }
  },
}

const wWingMisses = missCache()

/** Cells with two candidates, two or more with the same ones, by these. */
function cellsByPair({ candidates }: Board, bivalue: readonly number[]): Map<DigitSet, number[]> {
  const cellsOf = new Map<DigitSet, number[]>()
  for (const cell of bivalue) {
    const cells = cellsOf.get(candidates[cell]!)
    if (cells) cells.push(cell)
    else cellsOf.set(candidates[cell]!, [cell])
  }
  for (const [digits, cells] of cellsOf) if (cells.length < 2) cellsOf.delete(digits)
  return cellsOf
}

/** Reports the W-wings of cells with the same two candidates. */
function reportPairs(
  facts: Facts,
  cells: readonly number[],
  low: number,
  high: number,
  report: (step: Step) => boolean,
): boolean {
  const { board } = facts
  for (let i = 0; i < cells.length; i++) {
    for (let j = i + 1; j < cells.length; j++) {
      const pair = [cells[i]!, cells[j]!] as const
      if (layoutOf(board.geometry).arePeers(...pair)) continue
      for (const [digit, other] of [
        [low, high],
        [high, low],
      ] as const) {
        const removals = candidatesSeenByAll(board, other, pair)
        if (removals.length > 0 && reportBridges(facts, pair, digit, other, removals, report)) return true
      }
    }
  }
  return false
}

/**
 * Does each of these positions of a house, none of them one of the two cells, see a cell of the two, some only the one
 * and some only the other?
 */
function isBridge(
  geometry: Geometry,
  house: number,
  places: DigitSet,
  first: number,
  second: number,
): boolean {
  const layout = layoutOf(geometry)
  if ((places & (places - 1)) === 0) return false
  const { cells } = layout.houses[house]!
  let onlyFirst = false
  let onlySecond = false
  for (let rest = places; rest !== 0; rest &= rest - 1) {
    const cell = cells[lowestBit(rest)]!
    if (cell === first || cell === second) return false
    const seesFirst = layout.arePeers(cell, first)
    const seesSecond = layout.arePeers(cell, second)
    if (!seesFirst && !seesSecond) return false
    if (!seesSecond) onlyFirst = true
    if (!seesFirst) onlySecond = true
  }
  return onlyFirst && onlySecond
}

/** Reports a W-wing for each house whose places for the digit fall to the two cells, some to each. */
function reportBridges(
  facts: Facts,
  [first, second]: readonly [number, number],
  digit: number,
  other: number,
  removals: readonly number[],
  report: (step: Step) => boolean,
): boolean {
  const { board, places: allPlaces } = facts
  const { geometry } = board
  const layout = layoutOf(geometry)
  for (let house = 0; house < layout.houses.length; house++) {
    const set = allPlaces[house * geometry.order + digit - 1]!
    if (!isBridge(geometry, house, set, first, second)) continue
    const places = cellsAt(geometry, house, set)
    const byFirst = places.filter((cell) => layout.arePeers(cell, first))
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
