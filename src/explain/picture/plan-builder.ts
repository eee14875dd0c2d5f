import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import type { ChainLink, ChainNode, FoundStep } from '../../logic/steps/step.js'
import { sameNode } from '../notation.js'
import type { Role } from './roles.js'

/** A line from one candidate, or group of them, to another. */
export interface PlannedLink {
  readonly from: ChainNode
  readonly to: ChainNode
  /** `then`: what is true at one end makes what is at the other true. */
  readonly kind: ChainLink['kind'] | 'then'
  /** Its place in the explanation, from 1. */
  readonly number?: number
  /** Does the argument go from the one end to the other? */
  readonly directed?: boolean
}

/** Cells that belong together. */
export interface Area {
  readonly cells: readonly number[]
  readonly role: Role
  /** The set's position among the sets of the step: it goes by a letter. */
  readonly set?: number
  /** The house that they are all of. */
  readonly house?: number
}

/** Who plays which part in a step: what a picture shows, before it is decided how. */
export interface PicturePlan {
  readonly cells: ReadonlyMap<number, readonly Role[]>
  readonly areas: readonly Area[]
  readonly candidates: readonly (Candidate & { readonly role: Role })[]
  readonly houses: readonly { readonly house: number; readonly role: Role }[]
  readonly links: readonly PlannedLink[]
  /** Nodes of more than one cell, to be bound together. */
  readonly groups: readonly ChainNode[]
  /** Numbers of cases, each beside what is supposed in it. */
  readonly badges: readonly (Candidate & { readonly label: string })[]
}

export const NO_PLAN: PicturePlan = {
  cells: new Map(),
  areas: [],
  candidates: [],
  houses: [],
  links: [],
  groups: [],
  badges: [],
}

export class PlanBuilder {
  readonly cells = new Map<number, Role[]>()
  readonly areas: Area[] = []
  readonly candidates: (Candidate & { role: Role })[] = []
  readonly houses: { house: number; role: Role }[] = []
  readonly links: PlannedLink[] = []
  readonly badges: (Candidate & { label: string })[] = []

  constructor(readonly step: Pick<FoundStep, 'before'>) {}

  /** Cells get the first role that is given to them. */
  cell(cells: readonly number[], role: Role): void {
    for (const cell of cells) if (!this.cells.has(cell)) this.cells.set(cell, [role])
  }

  /** Cells that belong together; a cell can be in several such areas, and shows all of them. */
  area(cells: readonly number[], role: Role, set?: number): void {
    this.areas.push(set === undefined ? { cells, role } : { cells, role, set })
    for (const cell of cells) {
      const roles = this.cells.get(cell)
      if (!roles) this.cells.set(cell, [role])
      else if (!roles.includes(role)) roles.push(role)
    }
  }

  /** An outline alone. */
  frame(area: Area): void {
    this.areas.push(area)
  }

  house(houses: readonly number[], role: Role): void {
    for (const house of houses)
      if (!this.houses.some((known) => known.house === house)) this.houses.push({ house, role })
  }

  /**
   * Gives the role to those of the digits that the cells still have. The first role a candidate gets stays, as well as
   * being removed.
   */
  mark(cells: readonly number[], digits: readonly number[], role: Role): void {
    for (const cell of cells) {
      for (const digit of digits) {
        const known = this.candidates.some(
          (mark) => mark.cell === cell && mark.digit === digit && mark.role !== 'removed',
        )
        if (!known && hasCandidate(this.step.before, cell, digit)) this.candidates.push({ cell, digit, role })
      }
    }
  }

  /** The next link of a way that is explained from end to end. */
  nextLink(from: ChainNode, to: ChainNode, kind: PlannedLink['kind']): void {
    this.links.push({ from, to, kind, number: this.links.length + 1, directed: true })
  }

  node({ cells, digit }: ChainNode, role: Role): void {
    this.mark(cells, [digit], role)
  }

  finish(): PicturePlan {
    const groups: ChainNode[] = []
    for (const { from, to } of this.links) {
      for (const node of [from, to]) {
        if (node.cells.length > 1 && !groups.some((group) => sameNode(group, node))) groups.push(node)
      }
    }
    const { cells, areas, candidates, houses, links, badges } = this
    return { cells, areas, candidates, houses, links, groups, badges }
  }
}
