import type { Board } from '../grid/board.js'
import { layoutOf } from '../grid/layout.js'
import type { Task, Watch } from '../limits.js'
import { type Facts, factsOf, type Stamps } from './facts.js'
import type { Step } from './step.js'
import type { Technique } from './technique.js'
import type { TechniqueName } from './technique-names.js'

type Report = (step: Step) => boolean

/**
 * Where a technique looked in vain. Along a path candidates only go. So where every premise of a step would have to
 * come from certain cells, houses or digits, and none of these has changed since, looking again would be in vain again.
 *
 * A place is any number the technique chooses; its stamp is the greatest of what the premises come from (`Stamps`).
 */
export class LookedInVain {
  private readonly stamps: number[] = []

  at(place: number, stamp: number): boolean {
    return this.stamps[place] === stamp
  }

  note(place: number, stamp: number): void {
    this.stamps[place] = stamp
  }

  /** Looks at a place unless that would be in vain. `look`, and so this, is true when the report stopped it. */
  look(place: number, stamp: number, report: Report, look: (tell: Report) => boolean): boolean {
    if (this.at(place, stamp)) return false
    let found = false
    const stopped = look((step) => {
      found = true
      return report(step)
    })
    if (!found) this.note(place, stamp)
    return stopped
  }
}

/** What was worked out for each place from its cells, houses or digits alone; kept until one of these changes. */
export class KeptAnswers<Answer> {
  private readonly stamps: number[] = []
  private readonly answers: Answer[] = []

  of(place: number, stamp: number, work: () => Answer): Answer {
    if (this.stamps[place] !== stamp) {
      this.answers[place] = work()
      this.stamps[place] = stamp
    }
    return this.answers[place]!
  }
}

export function stampOfHouses({ ofHouse }: Stamps, houses: readonly number[]): number {
  let greatest = 0
  for (let i = 0; i < houses.length; i++) greatest = Math.max(greatest, ofHouse[houses[i]!]!)
  return greatest
}

export function stampOfCells({ ofCell }: Stamps, cells: readonly number[]): number {
  let greatest = 0
  for (let i = 0; i < cells.length; i++) greatest = Math.max(greatest, ofCell[cells[i]!]!)
  return greatest
}

/** cell -> the stamp of all that it sees. */
export const stampsAround = oncePerBoard((board): readonly number[] => {
  const { stamps } = factsOf(board)
  return layoutOf(board.geometry).housesOf.map((houses) => stampOfHouses(stamps, houses))
})

/** Remembers a function's answer for the latest board: what several techniques ask is worked out once. */
export function oncePerBoard<Answer>(work: (board: Board) => Answer): (board: Board) => Answer {
  let latestBoard: Board | undefined
  let latestAnswer: Answer
  return (board) => {
    if (board !== latestBoard) {
      latestAnswer = work(board)
      latestBoard = board
    }
    return latestAnswer
  }
}

/** `oncePerBoard` for work that may pause. */
export function oncePerBoardTask<Answer>(
  work: (board: Board, watch: Watch) => Task<Answer>,
): (board: Board, watch: Watch) => Task<Answer> {
  let latestBoard: Board | undefined
  let latestAnswer: Answer
  return function* (board, watch) {
    if (board !== latestBoard) {
      latestAnswer = yield* work(board, watch)
      latestBoard = board
    }
    return latestAnswer
  }
}

/**
 * Remembers what a function found for each digit for as long as the digit's places stay the same: along a path most
 * steps leave most digits alone. The answer must depend on the geometry and the digit's places only.
 */
export function oncePerPlaces<Answer>(
  work: (board: Board, digit: number) => Answer,
): (board: Board, digit: number) => Answer {
  const latestAnswers: { stamp: number; answer: Answer }[] = []
  return (board, digit) => {
    const stamp = factsOf(board).stamps.ofDigit[digit]!
    const last = latestAnswers[digit]
    if (last?.stamp === stamp) return last.answer
    const answer = work(board, digit)
    latestAnswers[digit] = { stamp, answer }
    return answer
  }
}

/** `oncePerPlaces` for work that may pause. */
export function oncePerPlacesTask<Answer>(
  work: (board: Board, digit: number, watch: Watch) => Task<Answer>,
): (board: Board, digit: number, watch: Watch) => Task<Answer> {
  const latestAnswers: { stamp: number; answer: Answer }[] = []
  return function* (board, digit, watch) {
    const stamp = factsOf(board).stamps.ofDigit[digit]!
    const last = latestAnswers[digit]
    if (last?.stamp === stamp) return last.answer
    const answer = yield* work(board, digit, watch)
    latestAnswers[digit] = { stamp, answer }
    return answer
  }
}

/**
 * A pattern that is looked for place by place, and again only where something has changed since a vain look. `find`
 * looks at one place and is true when the report stopped it.
 */
export function patternByPlace(
  name: TechniqueName,
  placesOf: (facts: Facts) => readonly number[],
  stampOf: (facts: Facts, place: number) => number,
  find: (board: Board, place: number, report: Report) => boolean,
): Technique {
  const places: Places = { placesOf, stampOf, find, vain: new LookedInVain() }
  return { name, level: 'pattern', find: (board, report) => tellByPlace(places, board, report) }
}

interface Places {
  readonly placesOf: (facts: Facts) => readonly number[]
  readonly stampOf: (facts: Facts, place: number) => number
  readonly find: (board: Board, place: number, report: Report) => boolean
  readonly vain: LookedInVain
}

// One function for all such techniques, so that it is compiled once and not for each of them.
function tellByPlace({ placesOf, stampOf, find, vain }: Places, board: Board, report: Report): void {
  const facts = factsOf(board)
  const places = placesOf(facts)
  let found = false
  const tell: Report = (step) => {
    found = true
    return report(step)
  }
  for (let i = 0; i < places.length; i++) {
    const place = places[i]!
    const stamp = stampOf(facts, place)
    if (vain.at(place, stamp)) continue
    found = false
    if (find(board, place, tell)) return
    if (!found) vain.note(place, stamp)
  }
}

/**
 * A pattern of one digit whose steps are found digit by digit, maybe with those of others: it tells those of its name.
 */
export function patternByDigit(
  name: TechniqueName,
  stepsOf: (board: Board, digit: number) => readonly Step[],
): Technique {
  return { name, level: 'pattern', find: (board, report) => tellByDigit(name, stepsOf, board, report) }
}

function tellByDigit(
  name: TechniqueName,
  stepsOf: (board: Board, digit: number) => readonly Step[],
  board: Board,
  report: Report,
): void {
  for (let digit = 1; digit <= board.geometry.order; digit++) {
    const steps = stepsOf(board, digit)
    for (let i = 0; i < steps.length; i++) if (steps[i]!.technique === name && report(steps[i]!)) return
  }
}
