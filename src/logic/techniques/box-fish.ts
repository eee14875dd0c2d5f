import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { House } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Task, Watch } from '../../limits.js'
import { misplaced } from '../facts/digit-placements.js'
import type { Facts } from '../facts/facts.js'
import { oncePerPlacesTask } from '../facts/path-memory.js'
import { removalNeedsEach } from '../proof/minimal.js'
import { housePremise } from '../proof/premise-holds.js'
import type { Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import { FISH_SIZES, type FishName } from './fish.js'
import { DigitView } from './hall-violations.js'

/**
 * Fish that boxes take part in, found from the candidate they remove: if it were true, the base houses would have to
 * put the digit into fewer covering houses than there are bases. The house through which the candidate meets the
 * pattern is the last cover; base places outside all covers are fins, and the candidate sees them all.
 *
 * `franken`: boxes take part along with the rows on one side or the columns on the other. `mutant`: rows, columns and
 * boxes mixed as they come.
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

/** What fish tell houses apart by, each a bit, so that the kinds of a side are a set. */
const ROW = 1
const COLUMN = 2
const BLOCK = 4
const OTHER = 8

/** house -> its bit. */
const sideBits = perLayout(({ houses }): readonly number[] =>
  houses.map((house) => (isRow(house) ? ROW : isColumn(house) ? COLUMN : isBlock(house) ? BLOCK : OTHER)),
)

function sideOf(bits: readonly number[], houses: readonly number[]): number {
  let side = 0
  for (let i = 0; i < houses.length; i++) side |= bits[houses[i]!]!
  return side
}

/** The plainest make that houses of these kinds fit, by its number. */
function makeOf(base: number, cover: number): number {
  if ((base === ROW && cover === COLUMN) || (base === COLUMN && cover === ROW)) return MAKES.indexOf('lines')
  const isFacing = (a: number, b: number) => ((base & ~(a | BLOCK)) | (cover & ~(b | BLOCK))) === 0
  return MAKES.indexOf(isFacing(ROW, COLUMN) || isFacing(COLUMN, ROW) ? 'franken' : 'mutant')
}

/** All fish of a size and make, plain and finned. */
function* findFish(
  facts: Facts,
  digit: number,
  size: number,
  make: Make,
  watch: Watch,
): Task<readonly Fish[]> {
  const { board } = facts
  const victims = misplaced(facts, digit)
  if (victims.length === 0) return []
  const view = new DigitView(facts, digit)
  const fishes = new Map<string, Fish>()
  for (const cell of victims) {
    for (const [bases, covers] of sidesOf(board.geometry, make)) {
      if (watch.isDue()) yield
      view.visitViolations(cell, size, bases, covers, (base, cover) => {
        const fish = completed(view, cell, base, cover, make, covers)
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
  view: DigitView,
  cell: number,
  base: readonly number[],
  cover: readonly number[],
  make: Make,
  allowed: readonly number[],
): Fish | undefined {
  const { board, digit } = view
  const { geometry } = board
  const layout = layoutOf(geometry)
  const bits = sideBits(geometry)
  const baseSide = sideOf(bits, base)
  const coverSide = sideOf(bits, cover)
  let last = -1
  let fins: readonly number[] = []
  let own = 0
  for (const house of layout.housesOf[cell]!) {
    if (!allowed.includes(house)) continue
    const fewer = view.finsOf(base, cover, house)
    const plainer = makeOf(baseSide, coverSide | bits[house]!)
    // of covers that leave as many fins the plainest, so that it does not depend on which comes first
    if (last >= 0 && (fins.length - fewer.length || own - plainer) <= 0) continue
    last = house
    fins = fewer
    own = plainer
  }
  if (last < 0 || MAKES[own] !== make) return undefined
  const premises = base.map((house) => housePremise(board, house, digit))
  if (!removalNeedsEach(geometry, premises, { cell, digit })) return undefined
  const places = new Set(premises.flatMap((premise) => (premise.kind === 'house' ? premise.cells : [])))
  return {
    base: [...base],
    cover: [...cover, last].sort((a, b) => a - b),
    fins,
    cells: [...places].filter((place) => !fins.includes(place)).sort((a, b) => a - b),
    removals: [{ cell, digit }],
  }
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
  const found = oncePerPlacesTask((facts, digit, watch) =>
    findFish(facts, digit, FISH_SIZES[fishName], make, watch),
  )
  return [false, true].map((finned): Technique => {
    const name = `${finned ? 'finned-' : ''}${make}-${fishName}` as const
    return slowTechnique({
      name,
      level: 'chain',
      *search(facts, report, _, watch) {
        const { board } = facts
        for (let digit = 1; digit <= board.geometry.order; digit++)
          for (const fish of yield* found(facts, digit, watch))
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
