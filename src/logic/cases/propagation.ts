import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import type { Facts } from '../facts/facts.js'
import { cellPremise, housePremise } from '../proof/premise-holds.js'
import { alternativesOf } from '../proof/premise-search.js'
import type { Premise } from '../steps/step.js'

/** A candidate that became true: supposed, or as the last alternative of a premise. */
export interface Consequence {
  readonly candidate: Candidate
  /** Undefined for a supposition. */
  readonly premise: Premise | undefined
  /** Set by `explain` when an argument uses it. */
  needed: boolean
}

/** Where the suppositions leave a premise without alternatives. */
export type Conflict = number

const NONE = -1

/** Every premise that holds on a board: one an open cell, one a house and digit it still lacks. */
export function allPremises(facts: Facts): Premise[] {
  const { board, openCells, places } = facts
  const { geometry } = board
  const premises: Premise[] = openCells.map((cell) => cellPremise(board, cell))
  for (const house of layoutOf(geometry).houses) {
    for (let digit = 1; digit <= geometry.order; digit++) {
      if (places[house.index * geometry.order + digit - 1] !== 0)
        premises.push(housePremise(board, house.index, digit))
    }
  }
  return premises
}

/**
 * Follows suppositions through premises by singles: what is true rules out what it sees, and a premise with one
 * alternative left makes it true. Shortest ways are found first, and every consequence knows its reason.
 */
export class Propagation {
  readonly premises: readonly Premise[]
  readonly candidates: Candidate[] = []
  private readonly geometry: Geometry
  private readonly ids = new Map<number, number>()
  private readonly alternatives: number[][]
  private readonly premisesWith: number[][] = []
  private readonly excludes: number[][] = []

  private readonly consequence: (Consequence | undefined)[] = []
  /** candidate -> the true candidate that rules it out. */
  private readonly ruledOutBy: number[] = []
  private readonly left: number[]
  private readonly settled: number[]
  private readonly trail: number[] = []
  private readonly queue: number[] = []

  constructor(geometry: Geometry, premises: readonly Premise[], extras: readonly Candidate[] = []) {
    const layout = layoutOf(geometry)
    this.geometry = geometry
    this.premises = premises
    this.alternatives = premises.map((premise) => alternativesOf(premise).map((c) => this.intern(c)))
    for (const extra of extras) this.intern(extra)
    this.alternatives.forEach((ids, premise) => {
      for (const id of ids) this.premisesWith[id]!.push(premise)
    })
    this.candidates.forEach(({ cell, digit }) => {
      const others: number[] = []
      for (let other = 1; other <= geometry.order; other++)
        if (other !== digit) this.addId(others, cell, other)
      for (const peer of layout.peersOf[cell]!) this.addId(others, peer, digit)
      this.excludes.push(others)
    })
    this.left = this.alternatives.map((ids) => ids.length)
    this.settled = this.alternatives.map(() => 0)
  }

  idOf({ cell, digit }: Candidate): number | undefined {
    return this.ids.get(cell * this.geometry.order + digit - 1)
  }

  isOpen(id: number): boolean {
    return this.consequence[id] === undefined && this.ruledOutBy[id] === NONE
  }

  isTrue(id: number): boolean {
    return this.consequence[id] !== undefined
  }

  isFalse(id: number): boolean {
    return this.ruledOutBy[id] !== NONE
  }

  /** Position to which `undo` can go back. */
  get mark(): number {
    return this.trail.length
  }

  /** What became true since a mark, in order. */
  consequencesSince(mark: number): Consequence[] {
    const list: Consequence[] = []
    for (let i = mark; i < this.trail.length; i++) {
      const consequence = this.consequence[this.trail[i]!]
      if (consequence) list.push(consequence)
    }
    return list
  }

  /** Candidates ruled out or true since a mark, in order. */
  changedSince(mark: number): number[] {
    return this.trail.slice(mark)
  }

  /** Takes an open candidate to be true and follows it; a conflict ends the following. */
  suppose(id: number): Conflict | undefined {
    this.queue.length = 0
    let conflict = this.makeTrue(id, undefined)
    for (let next = 0; conflict === undefined && next < this.queue.length; next++) {
      const premise = this.queue[next]!
      if (this.settled[premise] !== 0) continue
      const last = this.alternatives[premise]!.find((alternative) => this.ruledOutBy[alternative] === NONE)
      conflict = last === undefined ? premise : this.makeTrue(last, this.premises[premise])
    }
    return conflict
  }

  undo(mark: number): void {
    while (this.trail.length > mark) {
      const id = this.trail.pop()!
      if (this.consequence[id]) {
        this.consequence[id] = undefined
        for (const premise of this.premisesWith[id]!) this.settled[premise]!--
      } else {
        this.ruledOutBy[id] = NONE
        for (const premise of this.premisesWith[id]!) this.left[premise]!++
      }
    }
  }

  /** The premise with the fewest open alternatives that nothing has made true yet, or undefined when all are. */
  smallestOpen(): number | undefined {
    let smallest: number | undefined
    for (let premise = 0; premise < this.alternatives.length; premise++) {
      if (
        this.settled[premise] === 0 &&
        (smallest === undefined || this.left[premise]! < this.left[smallest]!)
      )
        smallest = premise
    }
    return smallest
  }

  alternativesIn(premise: number): readonly number[] {
    return this.alternatives[premise]!
  }

  openIn(premise: number): number[] {
    return this.alternatives[premise]!.filter((id) => this.isOpen(id))
  }

  /** Marks the consequences behind these ruled out candidates as needed, and adds the premises used. */
  explainRuledOut(ids: readonly number[], used: Set<Premise>): void {
    const stack = ids.filter((id) => this.ruledOutBy[id] !== NONE).map((id) => this.ruledOutBy[id]!)
    this.explain(stack, used)
  }

  explainConflict(conflict: Conflict, used: Set<Premise>): void {
    used.add(this.premises[conflict]!)
    this.explainRuledOut(this.alternatives[conflict]!, used)
  }

  explainTrue(id: number, used: Set<Premise>): void {
    this.explain([id], used)
  }

  private explain(stack: number[], used: Set<Premise>): void {
    const seen = new Set<number>()
    for (let id = stack.pop(); id !== undefined; id = stack.pop()) {
      if (seen.has(id)) continue
      seen.add(id)
      const consequence = this.consequence[id]!
      consequence.needed = true
      const { premise } = consequence
      if (!premise) continue
      used.add(premise)
      for (const { cell, digit } of alternativesOf(premise)) {
        const other = this.ids.get(cell * this.geometry.order + digit - 1)!
        if (other !== id) stack.push(this.ruledOutBy[other]!)
      }
    }
  }

  private intern(candidate: Candidate): number {
    const key = candidate.cell * this.geometry.order + candidate.digit - 1
    let id = this.ids.get(key)
    if (id === undefined) {
      id = this.candidates.length
      this.ids.set(key, id)
      this.candidates.push(candidate)
      this.premisesWith.push([])
      this.consequence.push(undefined)
      this.ruledOutBy.push(NONE)
    }
    return id
  }

  private addId(list: number[], cell: number, digit: number): void {
    const id = this.ids.get(cell * this.geometry.order + digit - 1)
    if (id !== undefined) list.push(id)
  }

  private makeTrue(id: number, premise: Premise | undefined): Conflict | undefined {
    if (this.consequence[id]) return undefined
    this.consequence[id] = { candidate: this.candidates[id]!, premise, needed: false }
    this.trail.push(id)
    for (const with_ of this.premisesWith[id]!) this.settled[with_]!++
    for (const other of this.excludes[id]!) {
      if (this.ruledOutBy[other] !== NONE) continue
      this.ruledOutBy[other] = id
      this.trail.push(other)
      let conflict: Conflict | undefined
      for (const holder of this.premisesWith[other]!) {
        const left = --this.left[holder]!
        if (this.settled[holder] !== 0) continue
        if (left === 0) conflict ??= holder
        else if (left === 1) this.queue.push(holder)
      }
      if (conflict !== undefined) return conflict
    }
    return undefined
  }
}
