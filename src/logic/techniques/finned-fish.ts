import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry, House } from '../../grid/geometry.js'
import { removalNeedsEach } from '../minimal.js'
import { housePremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'
import { FISH_SIZES, type FishName } from './fish.js'
import { DigitView } from './hall-violations.js'

/**
 * Fish beyond the plain ones, found from the candidate they remove: if it were true, the base houses would have to put
 * the digit into fewer covering houses than there are bases. The house through which the candidate meets the pattern is
 * the last cover; base places outside all covers are fins, and the candidate sees them all.
 *
 * `lines`: rows against columns; only finned and sashimi forms are told here. `franken`: boxes take part on either side.
 * `mutant`: rows, columns and boxes mixed as they come.
 */
type Make = 'lines' | 'franken' | 'mutant'

/** Finned fish that lose their fins are plain fish; sashimi ones would fall apart (a base keeps one place or none). */
type Finish = 'plain' | 'finned' | 'sashimi'

interface Kind {
  readonly name: string
  readonly size: number
  readonly make: Make
  readonly finish: Finish
}

interface Fish {
  readonly base: readonly number[]
  readonly cover: readonly number[]
  readonly fins: readonly number[]
  readonly cells: readonly number[]
  readonly removals: Candidate[]
}

const isRow = (house: House): boolean => house.kind === 'row'
const isColumn = (house: House): boolean => house.kind === 'column'
const isBlock = (house: House): boolean => house.kind === 'box' || house.kind === 'region'

/** The pairs of base and cover houses that a make allows. */
function sidesOf(geometry: Geometry, make: Make): readonly (readonly [number[], number[]])[] {
  const pick = (test: (house: House) => boolean): number[] =>
    geometry.houses.filter(test).map((house) => house.index)
  const withBlocks = (test: (house: House) => boolean) => (house: House) => test(house) || isBlock(house)
  switch (make) {
    case 'lines':
      return [
        [pick(isRow), pick(isColumn)],
        [pick(isColumn), pick(isRow)],
      ]
    case 'franken':
      return [
        [pick(withBlocks(isRow)), pick(withBlocks(isColumn))],
        [pick(withBlocks(isColumn)), pick(withBlocks(isRow))],
      ]
    case 'mutant':
      return [[pick(() => true), pick(() => true)]]
  }
}

/** The plainest make that these houses fit. */
function makeOf(geometry: Geometry, base: readonly number[], cover: readonly number[]): Make {
  const all = (side: readonly number[], test: (house: House) => boolean): boolean =>
    side.every((house) => test(geometry.houses[house]!))
  const facing = (a: (house: House) => boolean, b: (house: House) => boolean): boolean =>
    (all(base, a) && all(cover, b)) || (all(base, b) && all(cover, a))
  if (facing(isRow, isColumn)) return 'lines'
  if (
    facing(
      (h) => isRow(h) || isBlock(h),
      (h) => isColumn(h) || isBlock(h),
    )
  )
    return 'franken'
  return 'mutant'
}

function findFish(board: Board, kind: Kind, report: (step: Step) => boolean): void {
  const { geometry } = board
  const sides = sidesOf(geometry, kind.make)
  for (let digit = 1; digit <= geometry.order; digit++) {
    const view = new DigitView(board, digit)
    const fishes = new Map<string, Fish>()
    for (let victim = 0; victim < view.cells.length; victim++) {
      const cell = view.cells[victim]!
      for (const [bases, covers] of sides) {
        view.visitViolations(victim, kind.size, bases, covers, ({ base, cover }) => {
          const fish = completed(board, digit, cell, base, cover, kind, covers)
          if (!fish) return
          const key = `${fish.base}|${fish.cover}`
          const known = fishes.get(key)
          if (!known) fishes.set(key, fish)
          else if (!known.removals.some((removal) => removal.cell === cell))
            known.removals.push({ cell, digit })
        })
      }
    }
    for (const fish of fishes.values()) if (report(stepOf(board, digit, kind, fish))) return
  }
}

/** The violation with its last cover, if that is a fish of the kind asked for and the removal needs all its bases. */
function completed(
  board: Board,
  digit: number,
  cell: number,
  base: readonly number[],
  cover: readonly number[],
  kind: Kind,
  allowed: readonly number[],
): Fish | undefined {
  const { geometry } = board
  const premises = base.map((house) => housePremise(board, house, digit))
  const places = new Set(premises.flatMap((premise) => (premise.kind === 'house' ? premise.cells : [])))
  let best: { last: number; fins: number[] } | undefined
  for (const last of geometry.housesOf[cell]!) {
    if (!allowed.includes(last)) continue
    const covers = [...cover, last]
    const fins = [...places].filter((place) => !isCovered(geometry, place, base, covers))
    if (!best || fins.length < best.fins.length) best = { last, fins }
  }
  if (!best) return undefined
  const covers = [...cover, best.last].sort((a, b) => a - b)
  const { fins } = best
  if (makeOf(geometry, base, covers) !== kind.make) return undefined
  const body = (house: number): number =>
    geometry.houses[house]!.cells.filter((place) => places.has(place) && !fins.includes(place)).length
  const finish: Finish =
    fins.length === 0 ? 'plain' : base.some((house) => body(house) < 2) ? 'sashimi' : 'finned'
  // Sashimi is a word for fish of lines; with boxes every fish with fins is called finned.
  if (kind.make !== 'lines' && finish !== 'plain' ? kind.finish !== 'finned' : kind.finish !== finish)
    return undefined
  if (!removalNeedsEach(geometry, premises, { cell, digit })) return undefined
  return {
    base,
    cover: covers,
    fins: fins.sort((a, b) => a - b),
    cells: [...places].filter((place) => !fins.includes(place)).sort((a, b) => a - b),
    removals: [{ cell, digit }],
  }
}

/** Is a place covered at least as often as it is counted? */
function isCovered(
  geometry: Geometry,
  place: number,
  base: readonly number[],
  cover: readonly number[],
): boolean {
  const times = (side: readonly number[]): number =>
    side.filter((house) => geometry.positionIn(house, place) >= 0).length
  return times(cover) >= times(base)
}

function stepOf(board: Board, digit: number, kind: Kind, fish: Fish): Step {
  const { base, cover, cells, fins, removals } = fish
  return {
    technique: kind.name,
    level: kind.make === 'lines' ? 'pattern' : 'chain',
    placements: [],
    removals,
    premises: base.map((house) => housePremise(board, house, digit)),
    pattern: { shape: 'fish', digit, base, cover, cells, fins },
  }
}

function technique(prefix: string, fishName: FishName, make: Make, finish: Finish): Technique {
  const kind: Kind = { name: `${prefix}-${fishName}`, size: FISH_SIZES[fishName], make, finish }
  return {
    name: kind.name,
    level: kind.make === 'lines' ? 'pattern' : 'chain',
    find: (board, report) => findFish(board, kind, report),
  }
}

const fishNames = Object.keys(FISH_SIZES) as FishName[]

/** Finned and sashimi X-wings, swordfish and jellyfish. */
export const finnedFish: readonly Technique[] = fishNames.flatMap((name) => [
  technique('finned', name, 'lines', 'finned'),
  technique('sashimi', name, 'lines', 'sashimi'),
])

/** Franken fish, plain and finned. */
export const frankenFish: readonly Technique[] = fishNames.flatMap((name) => [
  technique('franken', name, 'franken', 'plain'),
  technique('finned-franken', name, 'franken', 'finned'),
])

/** Mutant fish, plain and finned. */
export const mutantFish: readonly Technique[] = fishNames.flatMap((name) => [
  technique('mutant', name, 'mutant', 'plain'),
  technique('finned-mutant', name, 'mutant', 'finned'),
])
