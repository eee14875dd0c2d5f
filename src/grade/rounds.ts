import { openCount } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import { boardFrom } from '../grid/board/make.js'
import type { Board, Candidate, Conclusion } from '../grid/board.js'
import { digitCount } from '../grid/digits.js'
import type { Puzzle } from '../grid/puzzle.js'
import type { Task, Watch } from '../limits.js'
import { isWithinLength } from '../logic/chains/chain-length.js'
import { Context } from '../logic/facts/context.js'
import { type Facts, factsOf, moveFacts } from '../logic/facts/facts.js'
import { LEVELS, type Level } from '../logic/level.js'
import { type Choice, techniquesOf } from '../logic/solving/choice.js'
import type { FindOptions, Report, Technique } from '../logic/technique.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../logic/technique-names.js'
import { concludedByCases, isByCases } from './cases.js'
import { isChain, removedByChains } from './chains.js'
import { leastPieces, piecesOf, type SinglesSeen, type StepsSeen } from './ease.js'
import { openSingles } from './open-singles.js'

/** What everybody could do next on a board: all that is open to the easiest kind of step, done at once. */
export interface Round {
  readonly level: Level
  /** The techniques that find it, equally easy ones, in the catalogue's order. */
  readonly techniques: readonly TechniqueName[]
  /** What its steps are found among. */
  readonly seen: SinglesSeen | StepsSeen
  /** Steps that have to be found: every digit of a round of singles, else one. */
  readonly steps: number
}

export interface Rounds {
  readonly rounds: readonly Round[]
  /** The board on which nothing more is found. */
  readonly board: Board
}

/**
 * Solves in rounds. Each takes every step of the easiest kind that is open, so that nothing depends on which of them is
 * found first: symmetric puzzles go through the same rounds. Which kind is easiest, and what it costs, says `ease.ts`.
 *
 * @param isUnique is the puzzle known to have one solution, so that steps may rest on it unless the choice says no?
 */
export function* roundsTask(
  source: Puzzle | Board,
  choice: Choice,
  isUnique: boolean,
  watch: Watch,
): Task<Rounds> {
  const context = new Context()
  let board = boardFrom(source)
  const allowed = new Set(techniquesOf(choice).map(({ name }) => name))
  const classes = easeClasses(choice, isUnique)
  const rounds: Round[] = []
  for (let open = openCount(board); open > 0; open = openCount(board)) {
    if (watch.isDue()) yield
    const facts = factsOf(context, board)
    if (facts.broken) break
    const singles = openSingles(facts, allowed, open)
    if (singles) {
      const { easiest, seenAs, seen } = singles
      rounds.push({ level: 'scan', techniques: seenAs, seen, steps: easiest.length })
      board = moved(context, board, { placements: easiest, removals: [] })
      continue
    }
    const found = yield* easiestSteps(facts, classes, choice.maxLinks, watch)
    if (!found) break
    const { techniques, seen, conclusion } = found
    rounds.push({ level: seen.level, techniques, seen, steps: 1 })
    board = moved(context, board, conclusion)
  }
  return { rounds, board }
}

/** Techniques of a level that are equally easy. */
interface EaseClass {
  readonly level: Level
  readonly finders: readonly { readonly technique: Technique; readonly options: FindOptions }[]
}

/**
 * The techniques beyond singles, by level and by what has to be seen together; their order in the choice is no matter.
 */
function easeClasses(choice: Choice, isUnique: boolean): EaseClass[] {
  const classes = new Map<number, EaseClass & { finders: EaseClass['finders'][number][] }>()
  for (const technique of techniquesOf(choice)) {
    const { name, level, assumes } = technique
    if (level === 'scan' || (assumes && (!isUnique || choice.oneSolution === false))) continue
    if (name === 'forcing-net' && !isUnique) continue
    const rank = LEVELS.indexOf(level) * 100 + leastPieces(name)
    const own = classes.get(rank) ?? { level, finders: [] }
    const { maxLinks } = choice
    const options = { oneSolution: assumes !== undefined, ...(maxLinks !== undefined && { maxLinks }) }
    own.finders.push({ technique, options })
    classes.set(rank, own)
  }
  return [...classes].sort(([a], [b]) => a - b).map(([, own]) => own)
}

interface Found {
  readonly techniques: readonly TechniqueName[]
  readonly seen: StepsSeen
  readonly conclusion: Conclusion
}

function* easiestSteps(
  facts: Facts,
  classes: readonly EaseClass[],
  maxLinks: number | undefined,
  watch: Watch,
): Task<Found | undefined> {
  for (const own of classes) {
    const found = yield* gather(facts, own, maxLinks, watch)
    if (found) return found
  }
  return undefined
}

/** All that the techniques of a class conclude on a board. */
function* gather(
  facts: Facts,
  { level, finders }: EaseClass,
  maxLinks: number | undefined,
  watch: Watch,
): Task<Found | undefined> {
  const techniques = new Set<TechniqueName>()
  const placed = new Map<number, Candidate>()
  const removed = new Map<number, Candidate>()
  const { board } = facts
  const { order } = board.geometry
  let pieces = Number.POSITIVE_INFINITY
  const note = (into: Map<number, Candidate>, list: readonly Candidate[]): void => {
    for (const one of list) into.set(one.cell * (order + 1) + one.digit, one)
  }
  const take: Report = (step) => {
    if (!isWithinLength(step, maxLinks)) return false
    techniques.add(step.technique)
    pieces = Math.min(pieces, piecesOf(step))
    note(placed, step.placements)
    note(removed, step.removals)
    return false
  }
  for (const { technique, options } of finders) {
    if (watch.isDue()) yield
    if (isChain(technique.name)) {
      const most = maxLinks ?? Number.POSITIVE_INFINITY
      const chains = yield* removedByChains(facts, technique.name, most, watch)
      if (!chains) continue
      techniques.add(technique.name)
      pieces = Math.min(pieces, chains.pieces)
      note(removed, chains.removals)
      continue
    }
    if (isByCases(technique.name)) {
      const { placements, removals } = yield* concludedByCases(facts, technique.name, watch)
      if (placements.length + removals.length === 0) continue
      techniques.add(technique.name)
      pieces = Math.min(pieces, leastPieces(technique.name))
      note(placed, placements)
      note(removed, removals)
      continue
    }
    const { search } = technique
    if (search) yield* search(facts, take, options, watch)
    else technique.find(facts, take, options)
  }
  if (techniques.size === 0) return undefined
  return {
    techniques: TECHNIQUE_NAMES.filter((name) => techniques.has(name)),
    seen: { kind: 'steps', marks: marksOn(board), level, pieces, removable: placed.size + removed.size },
    conclusion: { placements: [...placed.values()], removals: [...removed.values()] },
  }
}

function moved(context: Context, board: Board, conclusion: Conclusion): Board {
  const after = applyTo(board, conclusion)
  moveFacts(context, board, after, conclusion)
  return after
}

/** Candidates in the open cells. */
export function marksOn({ candidates }: Board): number {
  let marks = 0
  for (let cell = 0; cell < candidates.length; cell++) marks += digitCount(candidates[cell]!)
  return marks
}
