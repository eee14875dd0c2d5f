import { openCount } from '../grid/board/ask.js'
import { applyTo } from '../grid/board/edit.js'
import type { Board, Candidate, Conclusion } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import { findTask } from '../logic/solving/find.js'
import { candidatesGone } from '../logic/solving/rank.js'
import { runToRestTask } from '../logic/solving/solve.js'
import type { FoundStep } from '../logic/steps/step.js'
import { choiceFor, type Lesson } from './known.js'
import { isFinished } from './needs-technique.js'

/** What follows from a step by what the class knows. */
export interface Opened {
  /** Digits placed by the step and by what the class knows. */
  readonly placed: number
  /** Candidates gone by then, those of cells filled not counted. */
  readonly removed: number
  /** Does the class finish the puzzle after it without the technique? */
  readonly finishes: boolean
}

/** A board on which the technique is the next thing needed. */
export interface Position {
  /** The step to be found: of several the one with the fewest premises that opens something. */
  readonly answer: FoundStep
  /** Steps of the technique on the board. */
  readonly instances: number
  readonly opens: Opened
}

export interface Wanted {
  /** Most steps of the technique that the board may have. */
  readonly instances: number
  /** Only puzzles that the class can finish with the technique? */
  readonly needed: boolean
  /** Only steps after which the class finishes the puzzle without the technique? */
  readonly finishes: boolean
}

/**
 * The positions on the way of a class through a puzzle, each time with the first technique that finds something: those
 * where the new technique comes next, in few places, and a digit falls after it.
 *
 * A step that an easier technique would give as well, known or not, is no example of the technique and no answer.
 */
export function* positionsOf(start: Board, lesson: Lesson, wanted: Wanted, watch: Watch): Task<Position[]> {
  const { known, technique } = lesson
  const path = yield* runToRestTask(start, choiceFor(lesson, [...known, technique]), watch)
  if (wanted.needed && !isFinished(path.board)) return []
  const positions: Position[] = []
  for (const step of path.steps) {
    if (step.technique !== technique) continue
    const position = yield* positionAt(step.before, lesson, wanted, watch)
    // where another step was taken, an answer may still be there on the next board
    if (position && !positions.some(({ answer }) => includes(answer, position.answer)))
      positions.push(position)
  }
  return positions
}

/** The position of a board on which nothing that the class knows gives anything. */
function* positionAt(board: Board, lesson: Lesson, wanted: Wanted, watch: Watch): Task<Position | undefined> {
  const steps = yield* instancesOn(board, lesson, wanted.instances + 1, watch)
  if (steps.length > wanted.instances) return undefined
  const opening: Position[] = []
  for (const answer of steps) {
    const after = yield* runToRestTask(applyTo(board, answer), choiceFor(lesson, lesson.known), watch)
    const opens = openedBy(board, after.board)
    if (opens.placed > 0 && (opens.finishes || !wanted.finishes))
      opening.push({ answer, instances: steps.length, opens })
  }
  const easy = yield* givenByEasier(opening, lesson, watch)
  return opening.find(({ answer }) => !easy.has(answer))
}

/** Steps of the technique, `most` at most, shortest first. All chains count, not one for each conclusion. */
function* instancesOn(board: Board, lesson: Lesson, most: number, watch: Watch): Task<FoundStep[]> {
  const choice = choiceFor(lesson, [lesson.technique])
  const steps = yield* findTask(board, { ...choice, allLengths: true, limit: most }, watch)
  return steps.sort((a, b) => a.premises.length - b.premises.length)
}

function openedBy(before: Board, after: Board): Opened {
  return {
    placed: openCount(before) - openCount(after),
    removed: candidatesGone(before, after),
    finishes: isFinished(after),
  }
}

/** Those of the answers on a board whose conclusion an easier technique that the class does not know gives as well. */
function* givenByEasier(
  positions: readonly Position[],
  lesson: Lesson,
  watch: Watch,
): Task<ReadonlySet<FoundStep>> {
  const given = new Set<FoundStep>()
  for (const technique of lesson.easier) {
    if (given.size === positions.length) break
    if (lesson.known.includes(technique)) continue
    const others = yield* findTask(positions[0]!.answer.before, choiceFor(lesson, [technique]), watch)
    for (const { answer } of positions) if (others.some((other) => includes(other, answer))) given.add(answer)
  }
  return given
}

/** Does one conclude all that the other does? */
function includes(one: Conclusion, other: Conclusion): boolean {
  return (
    other.placements.every((candidate) => has(one.placements, candidate)) &&
    other.removals.every((candidate) => has(one.removals, candidate))
  )
}

function has(list: readonly Candidate[], { cell, digit }: Candidate): boolean {
  return list.some((other) => other.cell === cell && other.digit === digit)
}
