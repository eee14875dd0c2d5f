import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import { misplaced } from '../digit-placements.js'
import { removalNeedsEach } from '../minimal.js'
import { oncePerPlacesTask } from '../path-memory.js'
import { housePremise } from '../premise-holds.js'
import type { Step } from '../step.js'
import { slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { FISH_SIZES, type FishName } from './fish.js'
import { DigitView } from './hall-violations.js'

/**
 * Fish that boxes take part in, found from the candidate they remove: if it were true, the base houses would have to
 * put the digit into fewer covering houses than there are bases. The house through which the candidate meets the
 * pattern is the last cover; base places outside all covers are fins, and the candidate sees them all.
 *
 * `franken`: boxes take part beside the rows on one side or the columns on the other. `mutant`: rows, columns and boxes
 * mixed as they come.
 */
type Make = 'franken' | 'mutant'

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
  const layout = layoutOf(geometry)
  const pick = (test: (house: House) => boolean): number[] =>
    layout.houses.filter(test).map((house) => house.index)
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

const MAKES = ['lines', 'franken', 'mutant'] as const

/** The plainest make that these houses fit. */
function makeOf(
  geometry: Geometry,
  base: readonly number[],
  cover: readonly number[],
): (typeof MAKES)[number] {
  const layout = layoutOf(geometry)
  const all = (side: readonly number[], test: (house: House) => boolean): boolean =>
    side.every((house) => test(layout.houses[house]!))
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

/** All fish of a size and make, plain and finned. */
function* findFish(
  board: Board,
  digit: number,
  size: number,
  make: Make,
  watch: Watch,
): Task<readonly Fish[]> {
  const victims = misplaced(board, digit)
  if (victims.length === 0) return []
  const view = new DigitView(board, digit)
  const fishes = new Map<string, Fish>()
  for (const cell of victims) {
    for (const [bases, covers] of sidesOf(board.geometry, make)) {
      if (watch.isDue()) yield
      view.visitViolations(cell, size, bases, covers, ({ base, cover }) => {
        const fish = completed(board, digit, cell, base, cover, make, covers)
        if (!fish) return
        const key = `${fish.base}|${fish.cover}|${fish.fins.length > 0}`
        const known = fishes.get(key)
        if (!known) fishes.set(key, fish)
        else if (!known.removals.some((removal) => removal.cell === cell))
          known.removals.push({ cell, digit })
      })
    }
  }
  return [...fishes.values()]
}

/** The violation with its last cover, if that is a fish of the kind asked for and the removal needs all its bases. */
function completed(
  board: Board,
  digit: number,
  cell: number,
  base: readonly number[],
  cover: readonly number[],
  make: Make,
  allowed: readonly number[],
): Fish | undefined {
  const { geometry } = board
  const premises = base.map((house) => housePremise(board, house, digit))
  const places = new Set(premises.flatMap((premise) => (premise.kind === 'house' ? premise.cells : [])))
  let best: { covers: number[]; fins: number[]; make: (typeof MAKES)[number] } | undefined
  for (const last of layoutOf(geometry).housesOf[cell]!) {
    if (!allowed.includes(last)) continue
    const covers = [...cover, last].sort((a, b) => a - b)
    const fins = [...places].filter((place) => !isCovered(geometry, place, base, covers))
    const own = makeOf(geometry, base, covers)
    // of covers that leave as many fins the plainest, so that it does not depend on which comes first
    const fewer = best ? best.fins.length - fins.length || MAKES.indexOf(best.make) - MAKES.indexOf(own) : 1
    if (fewer > 0) best = { covers, fins, make: own }
  }
  if (best?.make !== make) return undefined
  const { covers, fins } = best
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
  const layout = layoutOf(geometry)
  const times = (side: readonly number[]): number =>
    side.filter((house) => layout.positionIn(house, place) >= 0).length
  return times(cover) >= times(base)
}

function stepOf(board: Board, digit: number, name: TechniqueName, fish: Fish): Step {
  const { base, cover, cells, fins, removals } = fish
  return {
    technique: name,
    level: 'chain',
    placements: [],
    removals,
    premises: base.map((house) => housePremise(board, house, digit)),
    pattern: { shape: 'fish', digit, base, cover, cells, fins },
  }
}

/** Plain and finned fish of a size and make: found together, since telling them apart is the last thing done. */
function techniquesFor(fishName: FishName, make: Make): Technique[] {
  const found = oncePerPlacesTask((board, digit, watch) =>
    findFish(board, digit, FISH_SIZES[fishName], make, watch),
  )
  return [false, true].map((finned): Technique => {
    const name = `${finned ? 'finned-' : ''}${make}-${fishName}` as const
    return slowTechnique({
      name,
      level: 'chain',
      *search(board, report, _, watch) {
        for (let digit = 1; digit <= board.geometry.order; digit++)
          for (const fish of yield* found(board, digit, watch))
            if (fish.fins.length > 0 === finned && report(stepOf(board, digit, name, fish))) return
      },
    })
  })
}

const fishNames = Object.keys(FISH_SIZES) as FishName[]

/** Franken fish, plain and finned. */
export const frankenFish: readonly Technique[] = fishNames.flatMap((name) => techniquesFor(name, 'franken'))

/** Mutant fish, plain and finned. */
export const mutantFish: readonly Technique[] = fishNames.flatMap((name) => techniquesFor(name, 'mutant'))
