import { layoutOf } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'
import type { Part } from './context.js'
import type { Facts, Stamps } from './facts.js'

type Report = (step: Step) => boolean

/**
 * Where a technique looked and found nothing. Along a path candidates only go. So where every premise of a step would
 * have to come from certain cells, houses or digits, and none of these has changed since, looking again would find
 * nothing again.
 *
 * A place is any number the technique chooses; its stamp is the greatest of what the premises come from (`Stamps`).
 */
export class MissCache {
  private readonly stamps: number[] = []
  private readonly before: MissCache | undefined

  constructor(before?: MissCache) {
    this.before = before
  }

  has(place: number, stamp: number): boolean {
    return this.stamps[place] === stamp || this.before?.has(place, stamp) === true
  }

  note(place: number, stamp: number): void {
    // from the first entry on, as a list that is filled with gaps becomes a slow one
    for (let i = this.stamps.length; i < place; i++) this.stamps.push(0)
    this.stamps[place] = stamp
  }

  /** Looks at a place unless nothing was found there. `look`, and so this, is true when the report stopped it. */
  look(place: number, stamp: number, report: Report, look: (pass: Report) => boolean): boolean {
    if (this.has(place, stamp)) return false
    let found = false
    const stopped = look((step) => {
      found = true
      return report(step)
    })
    if (!found) this.note(place, stamp)
    return stopped
  }
}

/** A technique's own miss cache in every context. */
export function missCache(): Part<MissCache> {
  return (before) => new MissCache(before)
}

/** What was worked out for each place from its cells, houses or digits alone; kept until one of these changes. */
export class KeptAnswers<Answer> {
  private readonly stamps: number[] = []
  private readonly answers: Answer[] = []
  private readonly before: KeptAnswers<Answer> | undefined

  constructor(before?: KeptAnswers<Answer>) {
    this.before = before
  }

  of(place: number, stamp: number, work: () => Answer): Answer {
    return this.known(place, stamp) ?? this.keep(place, stamp, work())
  }

  /** What is kept for a place, unless it has changed. */
  known(place: number, stamp: number): Answer | undefined {
    return this.stamps[place] === stamp ? this.answers[place] : this.before?.known(place, stamp)
  }

  keep(place: number, stamp: number, answer: Answer): Answer {
    this.stamps[place] = stamp
    this.answers[place] = answer
    return answer
  }
}

/** Answers of one kind in every context. */
export function keptAnswers<Answer>(): Part<KeptAnswers<Answer>> {
  return (before) => new KeptAnswers(before)
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
export const stampsAround = oncePerBoard(({ board, stamps }): readonly number[] =>
  layoutOf(board.geometry).housesOf.map((houses) => stampOfHouses(stamps, houses)),
)

/** The answer for a context's latest board. */
interface Latest<Answer> {
  facts: Facts | undefined
  answer: Answer | undefined
}

/** Remembers a function's answer for the latest board: what several techniques ask is worked out once. */
export function oncePerBoard<Answer>(work: (facts: Facts) => Answer): (facts: Facts) => Answer {
  const latestAnswer = (): Latest<Answer> => ({ facts: undefined, answer: undefined })
  return (facts) => {
    const latest = facts.context.of(latestAnswer)
    if (latest.facts !== facts) {
      latest.answer = work(facts)
      latest.facts = facts
    }
    return latest.answer!
  }
}

/** `oncePerBoard` for work that may pause. */
export function oncePerBoardTask<Answer>(
  work: (facts: Facts, watch: Watch) => Task<Answer>,
): (facts: Facts, watch: Watch) => Task<Answer> {
  const latestAnswer = (): Latest<Answer> => ({ facts: undefined, answer: undefined })
  return function* (facts, watch) {
    const latest = facts.context.of(latestAnswer)
    if (latest.facts !== facts) {
      latest.answer = yield* work(facts, watch)
      latest.facts = facts
    }
    return latest.answer!
  }
}

/**
 * Remembers what a function found for each digit for as long as the digit's places stay the same: along a path most
 * steps leave most digits alone. The answer must depend on the geometry and the digit's places only, and not be
 * `undefined`.
 */
export function oncePerPlaces<Answer>(
  work: (facts: Facts, digit: number) => Answer,
): (facts: Facts, digit: number) => Answer {
  const answers = keptAnswers<Answer>()
  return (facts, digit) => {
    const kept = facts.context.of(answers)
    const stamp = facts.stamps.ofDigit[digit]!
    return kept.known(digit, stamp) ?? kept.keep(digit, stamp, work(facts, digit))
  }
}

/** `oncePerPlaces` for work that may pause. */
export function oncePerPlacesTask<Answer>(
  work: (facts: Facts, digit: number, watch: Watch) => Task<Answer>,
): (facts: Facts, digit: number, watch: Watch) => Task<Answer> {
  const answers = keptAnswers<Answer>()
  return function* (facts, digit, watch) {
    const kept = facts.context.of(answers)
    const stamp = facts.stamps.ofDigit[digit]!
    return kept.known(digit, stamp) ?? kept.keep(digit, stamp, yield* work(facts, digit, watch))
  }
}

/**
 * A pattern that is looked for place by place, and again only where something has changed since nothing was found.
 * `find` looks at one place and is true when the report stopped it.
 */
export function patternByPlace(
  name: TechniqueName,
  placesOf: (facts: Facts) => readonly number[],
  stampOf: (facts: Facts, place: number) => number,
  find: (facts: Facts, place: number, report: Report) => boolean,
): Technique {
  const places: Places = { placesOf, stampOf, find, misses: missCache() }
  return { name, level: 'pattern', find: (facts, report) => tellByPlace(places, facts, report) }
}

interface Places {
  readonly placesOf: (facts: Facts) => readonly number[]
  readonly stampOf: (facts: Facts, place: number) => number
  readonly find: (facts: Facts, place: number, report: Report) => boolean
  readonly misses: Part<MissCache>
}

// One function for all such techniques, so that it is compiled once and not for each of them.
function tellByPlace({ placesOf, stampOf, find, misses }: Places, facts: Facts, report: Report): void {
  const own = facts.context.of(misses)
  const places = placesOf(facts)
  let found = false
  const pass: Report = (step) => {
    found = true
    return report(step)
  }
  for (let i = 0; i < places.length; i++) {
    const place = places[i]!
    const stamp = stampOf(facts, place)
    if (own.has(place, stamp)) continue
    found = false
    if (find(facts, place, pass)) return
    if (!found) own.note(place, stamp)
  }
}

/**
 * A pattern of one digit whose steps are found digit by digit, maybe with those of others: it reports those of its
 * name.
 */
export function patternByDigit(
  name: TechniqueName,
  stepsOf: (facts: Facts, digit: number) => readonly Step[],
): Technique {
  return { name, level: 'pattern', find: (facts, report) => tellByDigit(name, stepsOf, facts, report) }
}

function tellByDigit(
  name: TechniqueName,
  stepsOf: (facts: Facts, digit: number) => readonly Step[],
  facts: Facts,
  report: Report,
): void {
  for (let digit = 1; digit <= facts.board.geometry.order; digit++) {
    const steps = stepsOf(facts, digit)
    for (let i = 0; i < steps.length; i++) if (steps[i]!.technique === name && report(steps[i]!)) return
  }
}
