import { applyTo } from '../grid/board/edit.js'
import type { Board, Candidate } from '../grid/board.js'
import { layoutOf } from '../grid/layout.js'
import type { Task, Watch } from '../limits.js'
import { Dependencies } from '../logic/solving/dependencies.js'
import type { PathStep, Step } from '../logic/steps/step.js'
import { asSeen } from './as-seen.js'
import { isDone, restated } from './replay.js'
import { isSingle, restWithin, SINGLES } from './workaday.js'

/** A part of a route: the set-up of a key and the key, or what follows the last key. */
export interface Chapter {
  /** The first step of the chapter and the one after its last, as indices of the route's steps. */
  readonly from: number
  readonly to: number
  /** Index of the key, the chapter's last step; absent where the chapter is the follow-through. */
  readonly key?: number
}

export interface LaidOut {
  readonly steps: readonly PathStep[]
  readonly chapters: readonly Chapter[]
}

/** A path as it grows: each step restated on the board it has come to, with what it rests on. */
class Path {
  readonly steps: PathStep[] = []
  private readonly dependencies: Dependencies

  constructor(public board: Board) {
    this.dependencies = new Dependencies(board)
  }

  /** Adds a step unless it has nothing left to do. */
  *add(step: Step, watch: Watch): Task<void> {
    if (watch.isDue()) yield
    const before = this.board
    const now = yield* restated(before, step, watch)
    if (!now) {
      if (isDone(before, step)) return
      throw new Error(`A ${step.technique} of a route is not proven where its turn comes.`)
    }
    const after = applyTo(before, now)
    this.steps.push({ ...now, before, restsOn: this.dependencies.of(now.premises) })
    this.dependencies.record(this.steps.length - 1, now, before, after)
    this.board = after
  }

  *addSingles(watch: Watch): Task<void> {
    const { steps } = yield* restWithin(watch, this.board, SINGLES)
    for (const step of steps) yield* this.add(step, watch)
  }
}

/**
 * Sets the steps of a route in the order in which they are best followed. Each key comes as soon as it can: before it
 * only what it rests on, every such step right before the first that rests on it; all else follows the last key.
 *
 * @param steps the steps beyond singles, in an order in which they are proven
 */
export function* layOut(
  start: Board,
  steps: readonly Step[],
  isKey: (step: Step) => boolean,
  watch: Watch,
): Task<LaidOut> {
  const plain = new Path(start)
  yield* plain.addSingles(watch)
  for (const step of steps) {
    yield* plain.add(step, watch)
    yield* plain.addSingles(watch)
  }
  let { steps: ordered } = plain
  // Where a step stands decides which single shows a digit and who removed a candidate first, and so what it rests on:
  // the order is worked out anew until it stays.
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const order = inStory(ordered, isKey)
    if (order.every((index, place) => index === place)) break
    const story = new Path(start)
    for (const index of order) {
      const step = ordered[index]!
      yield* story.add(isSingle(step) ? yield* asSeen(story.board, step, watch) : step, watch)
    }
    ordered = story.steps
  }
  return { steps: ordered, chapters: chaptersOf(ordered, isKey) }
}

const MOST_PASSES = 8

/** The chapters of steps in their order: each ends with a key, and what follows the last one is the last. */
export function chaptersOf(steps: readonly PathStep[], isKey: (step: Step) => boolean): Chapter[] {
  const chapters: Chapter[] = []
  let from = 0
  steps.forEach((step, index) => {
    if (!isKey(step)) return
    chapters.push({ from, to: index + 1, key: index })
    from = index + 1
  })
  if (from < steps.length || chapters.length === 0) chapters.push({ from, to: steps.length })
  return chapters
}

function inStory(steps: readonly PathStep[], isKey: (step: Step) => boolean): readonly number[] {
  const order: number[] = []
  const done = new Set<number>()
  const bring = (index: number) => {
    if (done.has(index)) return
    done.add(index)
    const waiting = steps[index]!.restsOn.filter((earlier) => !done.has(earlier))
    while (waiting.length > 0) bring(nearest(steps, waiting, order.at(-1)))
    order.push(index)
  }
  for (let index = 0; index < steps.length; index++) if (isKey(steps[index]!)) bring(index)
  for (let index = 0; index < steps.length; index++) bring(index)
  return order
}

/** Takes out of the list the step that is easiest to come to from the last one. */
function nearest(steps: readonly PathStep[], waiting: number[], last: number | undefined): number {
  let best = 0
  let bestScore = Number.NEGATIVE_INFINITY
  for (const [i, index] of waiting.entries()) {
    const score = last === undefined ? 0 : kinship(steps[last]!, steps[index]!)
    if (score <= bestScore) continue
    best = i
    bestScore = score
  }
  return waiting.splice(best, 1)[0]!
}

/**
 * What two steps have in common, for eyes that go from one to the other: 2 for a digit, 1 for cells that see each
 * other.
 */
function kinship(one: PathStep, other: PathStep): number {
  const { arePeers } = layoutOf(one.before.geometry)
  let sharesDigit = false
  let areClose = false
  for (const a of concluded(one))
    for (const b of concluded(other)) {
      sharesDigit ||= a.digit === b.digit
      areClose ||= a.cell === b.cell || arePeers(a.cell, b.cell)
    }
  return 2 * Number(sharesDigit) + Number(areClose)
}

function concluded({ placements, removals }: Step): readonly Candidate[] {
  return [...placements, ...removals]
}
