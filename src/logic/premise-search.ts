import type { Candidate } from '../grid/board.js'
import type { Geometry } from '../grid/geometry.js'
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

const OPEN = 0
const TRUE = 1
const FALSE = 2

/**
 * The ways to make every premise true at once, where a cell holds at most one digit and no house holds a digit twice.
 * Nothing else is known here: no technique, and no candidate that the premises do not mention.
 *
 * An exact search with unit propagation: a premise with one alternative left forces it; otherwise the premise with the
 * fewest alternatives is split. One value serves many searches over the same premises.
 */
export class PremiseSearch {
  private readonly geometry: Geometry
  private readonly candidates: Candidate[] = []
  private readonly idOf = new Map<number, number>()
  private readonly alternatives: number[][] = []
  private readonly premisesOf: number[][] = []
  private readonly excludes: number[][]

  private readonly value: number[]
  private readonly alive: number[]
  private readonly trues: number[]
  private readonly trail: number[] = []
  private readonly units: number[] = []
  /** premise -> 1 where it is left out of account, see `leaveOut`. */
  private readonly leftOut: number[]
  private budget = 0
  private nodesLeft = 0

  /** @param extras candidates that assumptions will name though no premise does */
  constructor(geometry: Geometry, premises: readonly Premise[], extras: readonly Candidate[] = []) {
    this.geometry = geometry
    for (let p = 0; p < premises.length; p++) {
      const ids: number[] = []
      this.alternatives.push(ids)
      this.addAlternatives(premises[p]!, p, ids)
    }
    for (let i = 0; i < extras.length; i++) this.intern(extras[i]!)
    this.excludes = this.exclusions()
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
    this.value.fill(OPEN)
    this.trail.length = 0
    this.units.length = 0
    this.budget = budget
    this.nodesLeft = budget
    for (let p = 0; p < this.alternatives.length; p++) {
      this.alive[p] = this.alternatives[p]!.length
      // what is true already asks for nothing
      this.trues[p] = this.leftOut[p]!
      if (this.leftOut[p]) continue
      if (this.alive[p] === 0) return 'exhausted'
      if (this.alive[p] === 1) this.units.push(p)
    }
    for (const { candidate, value } of assumptions) {
      const id = this.idOf.get(this.keyOf(candidate))
      if (id === undefined) throw new RangeError('An assumption names a candidate unknown to this search.')
      if (!(value ? this.setTrue(id) : this.setFalse(id))) return 'exhausted'
    }
    return this.propagate() ? this.split(visitor) : 'exhausted'
  }

  /** Alternatives tried by the latest search, so far or in all: never more than its budget. */
  get spent(): number {
    return this.budget - Math.max(this.nodesLeft, 0)
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
    const all = this.candidates
    const lists: number[][] = []
    for (let i = 0; i < all.length; i++) lists.push([])
    for (let i = 0; i < all.length; i++) {
      for (let j = i + 1; j < all.length; j++) {
        const a = all[i]!
        const b = all[j]!
        const clash = a.cell === b.cell || (a.digit === b.digit && this.geometry.arePeers(a.cell, b.cell))
        if (clash) {
          lists[i]!.push(j)
          lists[j]!.push(i)
        }
      }
    }
    return lists
  }

  private split(visitor: (trues: readonly Candidate[]) => boolean): SearchEnd {
    let smallest = -1
    for (let p = 0; p < this.alternatives.length; p++) {
      if (this.trues[p] === 0 && (smallest < 0 || this.alive[p]! < this.alive[smallest]!)) smallest = p
    }
    if (smallest < 0) {
      const trues = this.candidates.filter((_, id) => this.value[id] === TRUE)
      return visitor(trues) ? 'stopped' : 'exhausted'
    }
    const ids = this.alternatives[smallest]!
    for (let i = 0; i < ids.length; i++) {
      const id = ids[i]!
      if (this.value[id] !== OPEN) continue
      if (this.nodesLeft-- <= 0) return 'budget-spent'
      const mark = this.trail.length
      if (this.setTrue(id) && this.propagate()) {
        const end = this.split(visitor)
        if (end !== 'exhausted') return end
      }
      this.undo(mark)
      if (!(this.setFalse(id) && this.propagate())) return 'exhausted'
      // the last alternative may have been forced by now: the other premises are still to be split
      if (this.trues[smallest] !== 0) return this.split(visitor)
    }
    return 'exhausted'
  }

  private setTrue(id: number): boolean {
    if (this.value[id] !== OPEN) return this.value[id] === TRUE
    this.value[id] = TRUE
    this.trail.push(id)
    const premises = this.premisesOf[id]!
    for (let i = 0; i < premises.length; i++) this.trues[premises[i]!]!++
    const excluded = this.excludes[id]!
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
