import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Task, Watch } from '../../limits.js'
import { filled, zeros } from '../facts/number-lists.js'
import type { Premise } from '../steps/step.js'

/** The candidates of which a premise says that one is true. */
export function alternativesOf(premise: Premise): Candidate[] {
  return premise.kind === 'cell'
    ? premise.digits.map((digit) => ({ cell: premise.cell, digit }))
    : premise.cells.map((cell) => ({ cell, digit: premise.digit }))
}

function sizeOf(premise: Premise): number {
  return premise.kind === 'cell' ? premise.digits.length : premise.cells.length
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
  // Searches are made by the thousand, so what they are made of is a few flat lists.
  /** The candidates, by number. */
  private readonly cells: number[] = []
  private readonly digits: number[] = []
  /** Numbers of candidates, at the place that their key leads to or after it. */
  private readonly slots: number[]
  /** The alternatives of premise p: `alternatives[first[p]]` to `alternatives[first[p + 1] - 1]`. */
  private readonly alternatives: number[] = []
  private readonly first: number[] = [0]
  /**
   * candidate -> the last place where it is an alternative, place -> its premise and the place before where the same
   * candidate is one; -1 for none.
   */
  private readonly lastPlace: number[] = []
  private readonly premiseAt: number[] = []
  private readonly placeBefore: number[] = []
  /** candidate -> those that cannot be true with it, once it was true. */
  private readonly excludedBy: (readonly number[] | undefined)[] = []

  private readonly value: number[]
  private readonly alive: number[]
  private readonly trues: number[]
  /** The candidates that are true or false, in the order in which they came to be, and how many they are. */
  private readonly trail: number[]
  private trailLength = 0
  /** The premises with one alternative left that are still to be followed, and how many they are. */
  private readonly units: number[]
  private unitCount = 0
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
    let most = extras.length
    for (let p = 0; p < premises.length; p++) most += sizeOf(premises[p]!)
    // a power of two, and never full
    this.slots = filled(4 << (31 - Math.clz32(most | 1)), -1)
    for (let p = 0; p < premises.length; p++) this.addAlternatives(premises[p]!, p)
    for (let i = 0; i < extras.length; i++) this.intern(extras[i]!.cell, extras[i]!.digit)
    this.value = zeros(this.cells.length)
    this.trail = zeros(this.cells.length)
    this.units = zeros(premises.length)
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
    this.trailLength = 0
    this.unitCount = 0
    this.depth = 0
    this.tried = 0
    this.next = this.mayHold(assumptions) ? SPLIT : OVER
  }

  private mayHold(assumptions: readonly Assumption[]): boolean {
    for (let p = 0; p < this.alive.length; p++) {
      this.alive[p] = this.first[p + 1]! - this.first[p]!
      // what is true already asks for nothing
      this.trues[p] = this.leftOut[p]!
      if (this.leftOut[p]) continue
      if (this.alive[p] === 0) return false
      if (this.alive[p] === 1) this.units[this.unitCount++] = p
    }
    for (const { candidate, value } of assumptions) {
      const id = this.slots[this.slotOf(candidate.cell, candidate.digit)]!
      if (id < 0) throw new RangeError('An assumption names a candidate unknown to this search.')
      if (!(value ? this.setTrue(id) : this.setFalse(id))) return false
    }
    return this.propagate()
  }

  /** The candidates that are true in the way just found. */
  get found(): readonly Candidate[] {
    const found: Candidate[] = []
    for (let id = 0; id < this.cells.length; id++)
      if (this.value[id] === TRUE) found.push({ cell: this.cells[id]!, digit: this.digits[id]! })
    return found
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
        this.triedIn[this.depth++] = this.first[premise]! - 1
        this.next = TRY
      } else if (this.next === TRY) {
        const { alternatives } = this
        const end = this.first[this.splitOf[this.depth - 1]! + 1]!
        let place = this.triedIn[this.depth - 1]! + 1
        while (place < end && this.value[alternatives[place]!] !== OPEN) place++
        if (place === end) {
          this.depth--
          this.next = GIVE_UP
          continue
        }
        if (this.tried >= last) return 'paused'
        this.tried++
        this.triedIn[this.depth - 1] = place
        this.trailBefore[this.depth - 1] = this.trailLength
        this.next = this.setTrue(alternatives[place]!) && this.propagate() ? SPLIT : GIVE_UP
      } else if (this.next === GIVE_UP && this.depth > 0) {
        const split = this.depth - 1
        const premise = this.splitOf[split]!
        this.undo(this.trailBefore[split]!)
        const mayBeAnother = this.setFalse(this.alternatives[this.triedIn[split]!]!) && this.propagate()
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

  private addAlternatives(premise: Premise, number: number): void {
    const { alternatives, premiseAt, placeBefore, lastPlace } = this
    const size = sizeOf(premise)
    for (let i = 0; i < size; i++) {
      const id =
        premise.kind === 'cell'
          ? this.intern(premise.cell, premise.digits[i]!)
          : this.intern(premise.cells[i]!, premise.digit)
      placeBefore.push(lastPlace[id]!)
      premiseAt.push(number)
      lastPlace[id] = alternatives.push(id) - 1
    }
    this.first.push(alternatives.length)
  }

  /** The slot of a candidate, or the one where it would be. */
  private slotOf(cell: number, digit: number): number {
    const { slots, cells, digits } = this
    let slot = (cell * this.geometry.order + digit) & (slots.length - 1)
    for (let id = slots[slot]!; id >= 0; id = slots[slot]!) {
      if (cells[id] === cell && digits[id] === digit) break
      slot = (slot + 1) & (slots.length - 1)
    }
    return slot
  }

  /** The number of a candidate, which is given when it is first met. */
  private intern(cell: number, digit: number): number {
    const slot = this.slotOf(cell, digit)
    if (this.slots[slot]! < 0) {
      this.slots[slot] = this.cells.push(cell) - 1
      this.digits.push(digit)
      this.lastPlace.push(-1)
    }
    return this.slots[slot]!
  }

  /** The candidates that cannot be true together with one. */
  private excluded(id: number): readonly number[] {
    const known = this.excludedBy[id]
    if (known) return known
    const { cells, digits } = this
    const { arePeers } = layoutOf(this.geometry)
    const cell = cells[id]!
    const digit = digits[id]!
    const excluded: number[] = []
    for (let other = 0; other < cells.length; other++)
      if (cells[other] === cell ? other !== id : digits[other] === digit && arePeers(cell, cells[other]!))
        excluded.push(other)
    this.excludedBy[id] = excluded
    return excluded
  }

  private smallestOpen(): number {
    let smallest = -1
    for (let p = 0; p < this.alive.length; p++) {
      if (this.trues[p] === 0 && (smallest < 0 || this.alive[p]! < this.alive[smallest]!)) smallest = p
    }
    return smallest
  }

  private setTrue(id: number): boolean {
    if (this.value[id] !== OPEN) return this.value[id] === TRUE
    this.value[id] = TRUE
    this.trail[this.trailLength++] = id
    const { premiseAt, placeBefore } = this
    for (let at = this.lastPlace[id]!; at >= 0; at = placeBefore[at]!) this.trues[premiseAt[at]!]!++
    const excluded = this.excluded(id)
    for (let i = 0; i < excluded.length; i++) if (!this.setFalse(excluded[i]!)) return false
    return true
  }

  private setFalse(id: number): boolean {
    if (this.value[id] !== OPEN) return this.value[id] === FALSE
    this.value[id] = FALSE
    this.trail[this.trailLength++] = id
    let possible = true
    const { premiseAt, placeBefore } = this
    for (let at = this.lastPlace[id]!; at >= 0; at = placeBefore[at]!) {
      const p = premiseAt[at]!
      const left = --this.alive[p]!
      if (this.trues[p] !== 0) continue
      if (left === 0) possible = false
      else if (left === 1) this.units[this.unitCount++] = p
    }
    return possible
  }

  private propagate(): boolean {
    while (this.unitCount > 0) {
      const p = this.units[--this.unitCount]!
      if (this.trues[p] !== 0) continue
      const id = this.firstOpen(p)
      if (id < 0 || !this.setTrue(id)) return false
    }
    return true
  }

  private firstOpen(premise: number): number {
    const { alternatives, value } = this
    const end = this.first[premise + 1]!
    for (let i = this.first[premise]!; i < end; i++)
      if (value[alternatives[i]!] === OPEN) return alternatives[i]!
    return -1
  }

  private undo(mark: number): void {
    this.unitCount = 0
    while (this.trailLength > mark) {
      const id = this.trail[--this.trailLength]!
      const counts = this.value[id] === TRUE ? this.trues : this.alive
      const by = this.value[id] === TRUE ? -1 : 1
      for (let at = this.lastPlace[id]!; at >= 0; at = this.placeBefore[at]!)
        counts[this.premiseAt[at]!]! += by
      this.value[id] = OPEN
    }
  }
}
