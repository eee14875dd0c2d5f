import type { Candidate } from '../grid/board.js'
import type { Geometry } from '../grid/geometry.js'
import { layoutOf } from '../grid/layout.js'
import type { Task, Watch } from '../limits.js'
import { zeros } from './number-lists.js'
import type { Premise } from './step.js'

/** The candidates of which a premise says that one is true. */
export function alternativesOf(premise: Premise): Candidate[] {
  return premise.kind === 'cell'
    ? premise.digits.map((digit) => ({ cell: premise.cell, digit }))
    : premise.cells.map((cell) => ({ cell, digit: premise.digit }))
}

/** A candidate taken to be true or false before the search begins. */
export interface Assumption {
  readonly candidate: Candidate
  readonly value: boolean
}

/** How many alternatives may still be tried for a verdict that takes several searches. */
export interface ProofBudget {
  left: number
}

/** How a search ended: every assignment was ruled out, a visitor stopped it, or the budget ran out first. */
export type SearchEnd = 'exhausted' | 'stopped' | 'budget-spent'

/** Why a search came back: it found a way to satisfy all premises, there are no more, or it may try no more for now. */
export type SearchEvent = 'found' | 'exhausted' | 'paused'

/** Alternatives tried between two looks at the clock. */
const STRETCH = 16

const OPEN = 0
const TRUE = 1
const FALSE = 2

// What a search does next: split a premise that is open, try the next alternative of the innermost split, or give up
// the one it tried there.
const SPLIT = 0
const TRY = 1
const GIVE_UP = 2
const OVER = 3

/**
 * The ways to make every premise true at once, where a cell holds at most one digit and no house holds a digit twice.
 * Nothing else is known here: no technique, and no candidate that the premises do not mention.
 *
 * An exact search with unit propagation: a premise with one alternative left forces it; otherwise the premise with the
 * fewest alternatives is split. One value serves many searches over the same premises, one after another; a search can
 * be paused between any two alternatives.
 */
export class PremiseSearch {
  private readonly geometry: Geometry
  private readonly candidates: Candidate[] = []
  private readonly idOf = new Map<number, number>()
  private readonly alternatives: number[][] = []
  private readonly premisesOf: number[][] = []
  private readonly excludedBy: number[][]

  private readonly value: number[]
  private readonly alive: number[]
  private readonly trues: number[]
  private readonly trail: number[] = []
  private readonly units: number[] = []
  /** premise -> 1 where it is left out of account, see `leaveOut`. */
  private readonly leftOut: number[]
  /**
   * Splits within splits, innermost last: the premise, the place of the alternative in hand, and the trail before it.
   */
  private readonly splitOf: number[] = []
  private readonly triedIn: number[] = []
  private readonly trailBefore: number[] = []
  private depth = 0
  private next = OVER
  /** Alternatives tried since the search began. */
  private tried = 0

  /** @param extras candidates that assumptions will name though no premise does */
  constructor(geometry: Geometry, premises: readonly Premise[], extras: readonly Candidate[] = []) {
    this.geometry = geometry
    for (let p = 0; p < premises.length; p++) {
      const ids: number[] = []
      this.alternatives.push(ids)
      this.addAlternatives(premises[p]!, p, ids)
    }
    for (let i = 0; i < extras.length; i++) this.intern(extras[i]!)
    this.excludedBy = this.exclusions()
    this.value = zeros(this.candidates.length)
    this.alive = zeros(premises.length)
    this.trues = zeros(premises.length)
    this.leftOut = zeros(premises.length)
  }

  /** From now on searches go on as if there were no such premise, or again as if there were. */
  leaveOut(premise: number, out: boolean): void {
    this.leftOut[premise] = out ? 1 : 0
  }

  /**
   * Visits every way to satisfy all premises under the assumptions, as the candidates that are true in it, until the
   * visitor returns true. The ways are disjoint and together cover every full assignment.
   */
  visit(
    assumptions: readonly Assumption[],
    budget: number,
    visitor: (trues: readonly Candidate[]) => boolean,
  ): SearchEnd {
    this.begin(assumptions)
    for (;;) {
      const event = this.advance(budget - this.tried)
      if (event === 'exhausted') return event
      if (event === 'paused') return 'budget-spent'
      if (visitor(this.found)) return 'stopped'
    }
  }

  /** Begins a search that `advance` goes on with. */
  begin(assumptions: readonly Assumption[]): void {
    this.value.fill(OPEN)
    this.trail.length = 0
    this.units.length = 0
    this.depth = 0
    this.tried = 0
    this.next = this.mayHold(assumptions) ? SPLIT : OVER
  }

  private mayHold(assumptions: readonly Assumption[]): boolean {
    for (let p = 0; p < this.alternatives.length; p++) {
      this.alive[p] = this.alternatives[p]!.length
      // what is true already asks for nothing
      this.trues[p] = this.leftOut[p]!
      if (this.leftOut[p]) continue
      if (this.alive[p] === 0) return false
      if (this.alive[p] === 1) this.units.push(p)
    }
    for (const { candidate, value } of assumptions) {
      const id = this.idOf.get(this.keyOf(candidate))
      if (id === undefined) throw new RangeError('An assumption names a candidate unknown to this search.')
      if (!(value ? this.setTrue(id) : this.setFalse(id))) return false
    }
    return this.propagate()
  }

  /** The candidates that are true in the way just found. */
  get found(): readonly Candidate[] {
    return this.candidates.filter((_, id) => this.value[id] === TRUE)
  }

  /** Goes on to the next way, trying at most so many alternatives; after a pause it goes on from there. */
  advance(atMost: number): SearchEvent {
    const last = this.tried + atMost
    for (;;) {
      if (this.next === SPLIT) {
        const premise = this.smallestOpen()
        if (premise < 0) {
          this.next = GIVE_UP
          return 'found'
        }
        this.splitOf[this.depth] = premise
        this.triedIn[this.depth++] = -1
        this.next = TRY
      } else if (this.next === TRY) {
        const ids = this.alternatives[this.splitOf[this.depth - 1]!]!
        let place = this.triedIn[this.depth - 1]! + 1
        while (place < ids.length && this.value[ids[place]!] !== OPEN) place++
        if (place === ids.length) {
          this.depth--
          this.next = GIVE_UP
          continue
        }
        if (this.tried >= last) return 'paused'
        this.tried++
        this.triedIn[this.depth - 1] = place
        this.trailBefore[this.depth - 1] = this.trail.length
        this.next = this.setTrue(ids[place]!) && this.propagate() ? SPLIT : GIVE_UP
      } else if (this.next === GIVE_UP && this.depth > 0) {
        const split = this.depth - 1
        const premise = this.splitOf[split]!
        this.undo(this.trailBefore[split]!)
        const mayBeAnother =
          this.setFalse(this.alternatives[premise]![this.triedIn[split]!]!) && this.propagate()
        if (!mayBeAnother) this.depth--
        else if (this.trues[premise] === 0) this.next = TRY
        else {
          // the last alternative has been forced: the other premises are still to be split
          this.depth--
          this.next = SPLIT
        }
      } else {
        this.next = OVER
        return 'exhausted'
      }
    }
  }

  /** Alternatives tried by the latest search, so far or in all: never more than its budget. */
  get spent(): number {
    return this.tried
  }

  /** One way to satisfy all premises under the assumptions, or how the search for one ended. */
  find(assumptions: readonly Assumption[], budget: number): readonly Candidate[] | 'none' | 'budget-spent' {
    let found: readonly Candidate[] = []
    const end = this.visit(assumptions, budget, (trues) => {
      found = trues
      return true
    })
    return end === 'stopped' ? found : end === 'exhausted' ? 'none' : end
  }

  /** Does no way to satisfy all premises agree with the assumption? False where the budget was not enough to say so. */
  excludes(candidate: Candidate, value: boolean, budget: number): boolean {
    this.begin([{ candidate, value }])
    return this.advance(budget) === 'exhausted'
  }

  /** `find` as a task, within the time of a watch. */
  *findWithin(
    watch: Watch,
    assumptions: readonly Assumption[],
    budget: number,
  ): Task<readonly Candidate[] | 'none' | 'budget-spent'> {
    let found: readonly Candidate[] = []
    const end = yield* this.visitWithin(watch, assumptions, budget, (trues) => {
      found = trues
      return true
    })
    return end === 'stopped' ? found : end === 'exhausted' ? 'none' : end
  }

  /**
   * `visit` as a task, within the time of a watch.
   *
   * @throws StoppedError `time-limit`
   */
  *visitWithin(
    watch: Watch,
    assumptions: readonly Assumption[],
    budget: number,
    visitor: (trues: readonly Candidate[]) => boolean,
  ): Task<SearchEnd> {
    const stretch = watch.isTimed ? STRETCH : Number.POSITIVE_INFINITY
    this.begin(assumptions)
    for (;;) {
      const event = this.advance(Math.min(stretch, budget - this.tried))
      if (event === 'exhausted') return event
      if (event === 'found' && visitor(this.found)) return 'stopped'
      if (event === 'paused' && this.tried >= budget) return 'budget-spent'
      if (watch.isDue()) yield
    }
  }

  private addAlternatives(premise: Premise, place: number, ids: number[]): void {
    const count = premise.kind === 'cell' ? premise.digits.length : premise.cells.length
    for (let i = 0; i < count; i++) {
      const cell = premise.kind === 'cell' ? premise.cell : premise.cells[i]!
      const digit = premise.kind === 'cell' ? premise.digits[i]! : premise.digit
      const id = this.intern({ cell, digit })
      ids.push(id)
      this.premisesOf[id]!.push(place)
    }
  }

  private keyOf({ cell, digit }: Candidate): number {
    return cell * this.geometry.order + digit - 1
  }

  private intern(candidate: Candidate): number {
    const key = this.keyOf(candidate)
    let id = this.idOf.get(key)
    if (id === undefined) {
      id = this.candidates.length
      this.idOf.set(key, id)
      this.candidates.push(candidate)
      this.premisesOf.push([])
    }
    return id
  }

  /** candidate -> those that cannot be true beside it. */
  private exclusions(): number[][] {
    // every pair is looked at, and there are millions of pairs on a large board
    const layout = layoutOf(this.geometry)
    const cells = this.candidates.map(({ cell }) => cell)
    const digits = this.candidates.map(({ digit }) => digit)
    const lists: number[][] = []
    for (let i = 0; i < cells.length; i++) lists.push([])
    for (let i = 0; i < cells.length; i++) {
      const cell = cells[i]!
      const digit = digits[i]!
      for (let j = i + 1; j < cells.length; j++) {
        if (cells[j] === cell || (digits[j] === digit && layout.arePeers(cell, cells[j]!))) {
          lists[i]!.push(j)
          lists[j]!.push(i)
        }
      }
    }
    return lists
  }

  private smallestOpen(): number {
    let smallest = -1
    for (let p = 0; p < this.alternatives.length; p++) {
      if (this.trues[p] === 0 && (smallest < 0 || this.alive[p]! < this.alive[smallest]!)) smallest = p
    }
    return smallest
  }

  private setTrue(id: number): boolean {
    if (this.value[id] !== OPEN) return this.value[id] === TRUE
    this.value[id] = TRUE
    this.trail.push(id)
    const premises = this.premisesOf[id]!
    for (let i = 0; i < premises.length; i++) this.trues[premises[i]!]!++
    const excluded = this.excludedBy[id]!
    for (let i = 0; i < excluded.length; i++) if (!this.setFalse(excluded[i]!)) return false
    return true
  }

  private setFalse(id: number): boolean {
    if (this.value[id] !== OPEN) return this.value[id] === FALSE
    this.value[id] = FALSE
    this.trail.push(id)
    let possible = true
    const premises = this.premisesOf[id]!
    for (let i = 0; i < premises.length; i++) {
      const p = premises[i]!
      const left = --this.alive[p]!
      if (this.trues[p] !== 0) continue
      if (left === 0) possible = false
      else if (left === 1) this.units.push(p)
    }
    return possible
  }

  private propagate(): boolean {
    for (let p = this.units.pop(); p !== undefined; p = this.units.pop()) {
      if (this.trues[p] !== 0) continue
      const id = this.firstOpen(this.alternatives[p]!)
      if (id < 0 || !this.setTrue(id)) return false
    }
    return true
  }

  private firstOpen(ids: readonly number[]): number {
    for (let i = 0; i < ids.length; i++) if (this.value[ids[i]!] === OPEN) return ids[i]!
    return -1
  }

  private undo(mark: number): void {
    this.units.length = 0
    while (this.trail.length > mark) {
      const id = this.trail.pop()!
      const counts = this.value[id] === TRUE ? this.trues : this.alive
      const by = this.value[id] === TRUE ? -1 : 1
      const premises = this.premisesOf[id]!
      for (let i = 0; i < premises.length; i++) counts[premises[i]!]! += by
      this.value[id] = OPEN
    }
  }
}
