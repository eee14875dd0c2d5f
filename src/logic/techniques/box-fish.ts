import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry, House } from '../../grid/geometry.js'
import { removalNeedsEach } from '../minimal.js'
import { housePremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import type { Technique } from '../technique.js'
import { FISH_SIZES, type FishName } from './fish.js'
import { DigitView } from './hall-violations.js'

/**
 * Fish that boxes take part in, found from the candidate they remove: if it were true, the base houses would have to put
 * the digit into fewer covering houses than there are bases. The house through which the candidate meets the pattern is
 * the last cover; base places outside all covers are fins, and the candidate sees them all.
 *
 * `franken`: boxes take part beside the rows on one side or the columns on the other. `mutant`: rows, columns and boxes
 * mixed as they come.
 */
type Make = 'franken' | 'mutant'

interface Kind {
  readonly name: string
  readonly size: number
  readonly make: Make
  readonly finned: boolean
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
function makeOf(geometry: Geometry, base: readonly number[], cover: readonly number[]): Make | 'lines' {
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
  if (fins.length > 0 !== kind.finned) return undefined
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
    level: 'chain',
    placements: [],
    removals,
    premises: base.map((house) => housePremise(board, house, digit)),
    pattern: { shape: 'fish', digit, base, cover, cells, fins },
  }
}

function technique(fishName: FishName, make: Make, finned: boolean): Technique {
  const name = `${finned ? 'finned-' : ''}${make}-${fishName}`
  const kind: Kind = { name, size: FISH_SIZES[fishName], make, finned }
  return { name, level: 'chain', find: (board, report) => findFish(board, kind, report) }
}

const fishNames = Object.keys(FISH_SIZES) as FishName[]

/** Franken fish, plain and finned. */
export const frankenFish: readonly Technique[] = fishNames.flatMap((name) => [
  technique(name, 'franken', false),
  technique(name, 'franken', true),
])

/** Mutant fish, plain and finned. */
export const mutantFish: readonly Technique[] = fishNames.flatMap((name) => [
  technique(name, 'mutant', false),
  technique(name, 'mutant', true),
])
