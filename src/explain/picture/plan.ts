import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { alternativesOf } from '../../logic/premise-search.js'
import type { ChainLink, ChainNode, FoundStep, Pattern } from '../../logic/step.js'
import { extrasSubset } from '../argument/argue-exchange.js'
import { argueSets } from '../argument/argue-sets.js'
import { argueSingle } from '../argument/argue-singles.js'
import { placesIn } from '../argument/sight.js'
import { sameNode } from '../notation.js'
import { planCases } from './plan-cases.js'
import type { Role } from './roles.js'

/** A line from one candidate, or group of them, to another. */
export interface PlannedLink {
  readonly from: ChainNode
  readonly to: ChainNode
  /** `then`: what is true at one end makes what is at the other true. */
  readonly kind: ChainLink['kind'] | 'then'
  /** Its place in the order told, from 1; links without one have no direction. */
  readonly number?: number
}

/** Cells that belong together. */
export interface Area {
  readonly cells: readonly number[]
  readonly role: Role
  /** The set's position among the sets of the step: it goes by a letter. */
  readonly set?: number
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

/** The parts of a step. Placements come first and removals are kept apart from all pattern roles. */
export function planPicture(step: FoundStep): PicturePlan {
  const plan = new PlanBuilder(step)
  for (const { cell, digit } of step.placements) plan.candidates.push({ cell, digit, role: 'placed' })
  for (const { cell, digit } of step.removals) plan.candidates.push({ cell, digit, role: 'removed' })
  planShape(plan, step, step.pattern)
  if (plan.cells.size === 0 && plan.candidates.every(({ role }) => role === 'placed' || role === 'removed')) {
    for (const premise of step.premises)
      for (const { cell, digit } of alternativesOf(premise)) plan.mark([cell], [digit], 'pattern')
  }
  return plan.finish()
}

function setRole(index: number): Role {
  return (['set-one', 'set-two'] as const)[index] ?? 'set-more'
}

function planShape(plan: PlanBuilder, step: FoundStep, pattern: Pattern): void {
  const digitsIn = (cell: number) => digitsOf(step.before.candidates[cell]!)
  switch (pattern.shape) {
    case 'single':
      planSingle(plan, step, pattern)
      return
    case 'locked':
      plan.house([pattern.from], 'house')
      plan.house([pattern.to], 'target')
      plan.cell(pattern.cells, 'pattern')
      plan.mark(pattern.cells, [pattern.digit], 'pattern')
      return
    case 'subset':
      plan.house([pattern.house], 'house')
      plan.cell(pattern.cells, 'pattern')
      plan.mark(pattern.cells, pattern.digits, 'pattern')
      return
    case 'fish':
      plan.house(pattern.base, 'base')
      plan.house(pattern.cover, 'cover')
      plan.cell(pattern.fins, 'fin')
      plan.mark(pattern.fins, [pattern.digit], 'fin')
      plan.cell(pattern.cells, 'pattern')
      plan.mark(pattern.cells, [pattern.digit], 'pattern')
      return
    case 'wing':
      planWing(plan, step, pattern)
      return
    case 'chain':
      planChain(plan, pattern)
      return
    case 'colouring':
      pattern.clusters.forEach(({ one, other }, index) => {
        const roles: readonly [Role, Role] =
          index === 0 ? ['colour-one', 'colour-other'] : ['second-one', 'second-other']
        for (const { cell, digit } of one) plan.mark([cell], [digit], roles[0])
        for (const { cell, digit } of other) plan.mark([cell], [digit], roles[1])
      })
      plan.links.push(...pattern.links.map(({ from, to, kind }) => ({ from, to, kind })))
      return
    case 'sets':
      planSets(plan, step, pattern)
      return
    case 'exchange':
      planExchange(plan, step, pattern)
      return
    case 'exclusion': {
      plan.cell(pattern.cells, 'to-fill')
      for (const cell of pattern.cells) plan.mark([cell], digitsIn(cell), 'pattern')
      const sets = new Map(pattern.excluded.map(({ by }) => [by.join(), by]))
      for (const [index, cells] of [...sets.values()].filter(({ length }) => length > 0).entries()) {
        const role = setRole(index)
        plan.area(cells, role, index)
        for (const cell of cells) plan.mark([cell], digitsIn(cell), role)
      }
      return
    }
    case 'exocet':
      plan.house(pattern.lines, 'cover')
      plan.cell(pattern.base, 'base-cell')
      plan.mark(pattern.base, pattern.digits, 'pattern')
      plan.cell(pattern.targets, 'target-cell')
      plan.mark(pattern.targets, pattern.digits, 'pattern')
      return
    case 'sectors':
      plan.house(
        pattern.houses.map(({ house }) => house),
        'cover',
      )
      plan.cell(pattern.cells, 'pattern')
      for (const cell of pattern.cells) plan.mark([cell], digitsIn(cell), 'pattern')
      return
    case 'premises':
      return
    case 'cases':
      planCases(plan, step, pattern.tree)
      return
    default:
      pattern satisfies never
  }
}

function planSingle(
  plan: PlanBuilder,
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'single' }>,
): void {
  if (pattern.house !== undefined) plan.house([pattern.house], 'house')
  const { geometry, digits } = step.before
  const layout = layoutOf(geometry)
  for (const fact of argueSingle(step, pattern)) {
    if (fact.kind === 'only-place') plan.cell(fact.blockers, 'blocker')
    if (fact.kind === 'only-candidate') {
      for (const { house, digits: seen } of fact.seen) {
        plan.cell(
          layout.houses[house]!.cells.filter((cell) => seen.includes(digits[cell]!)),
          'blocker',
        )
      }
    }
  }
}

/** From the pivot's digits to the pincers that lose them, and within each pincer to the digit that they share. */
function planWing(plan: PlanBuilder, step: FoundStep, pattern: Extract<Pattern, { shape: 'wing' }>): void {
  const { pivot, pincers, digit } = pattern
  const digitsIn = (cell: number) => digitsOf(step.before.candidates[cell]!)
  plan.cell([pivot], 'pivot')
  plan.cell(pincers, 'pincer')
  plan.mark([pivot, ...pincers], [digit], 'shared')
  for (const cell of [pivot, ...pincers]) plan.mark([cell], digitsIn(cell), 'pattern')
  const node = (cell: number, own: number): ChainNode => ({ digit: own, cells: [cell] })
  let number = 0
  for (const pincer of pincers) {
    const [lost, ...more] = digitsIn(pincer).filter((d) => d !== digit && digitsIn(pivot).includes(d))
    if (lost === undefined || more.length > 0 || digitsIn(pincer).length !== 2) continue
    plan.links.push(
      { from: node(pivot, lost), to: node(pincer, lost), kind: 'weak', number: ++number },
      { from: node(pincer, lost), to: node(pincer, digit), kind: 'strong', number: ++number },
    )
  }
}

function planChain(plan: PlanBuilder, pattern: Extract<Pattern, { shape: 'chain' }>): void {
  const { links, loop } = pattern
  const first = links[0]?.from
  const last = links[links.length - 1]?.to
  if (first) plan.node(first, 'start')
  if (last && !loop) plan.node(last, 'end')
  for (const { fins = [] } of links) for (const { cell, digit } of fins) plan.mark([cell], [digit], 'fin')
  for (const { from, to, by, kind } of links) {
    // what a strong link leads to is true, what a weak one leads to is false
    plan.node(to, kind === 'strong' ? 'link-true' : 'link')
    plan.node(from, kind === 'strong' ? 'link' : 'link-true')
    if (by.kind === 'set') plan.area(by.cells, 'linking-set')
  }
  const [one, joint, other] = links
  const isJoined =
    links.length === 3 &&
    one!.kind === 'strong' &&
    [one, joint, other].every((link) => link!.by.kind === 'house') &&
    new Set(links.flatMap(({ from, to }) => [from.digit, to.digit])).size === 1
  // two houses with two parts each for a digit: they are the pattern
  for (const link of isJoined ? [one, other] : [])
    if (link!.by.kind === 'house') plan.house([link!.by.house], 'house')
  plan.links.push(...links.map(({ from, to, kind }, i) => ({ from, to, kind, number: i + 1 })))
}

/** The digits that join two sets, those that one of them keeps, and the way from set to set as it is told. */
function planSets(plan: PlanBuilder, step: FoundStep, pattern: Extract<Pattern, { shape: 'sets' }>): void {
  const { sets, joins, stem } = pattern
  const removed = new Set(step.removals.map(({ digit }) => digit))
  let number = 0
  const join = (from: ChainNode, to: ChainNode) => {
    // told again for each digit that goes, and drawn once
    const isDrawn = plan.links.some((link) => sameNode(link.from, from) && sameNode(link.to, to))
    if (isDrawn || from.cells.length === 0 || to.cells.length === 0) return
    plan.node(from, 'join')
    plan.node(to, 'join')
    plan.links.push({ from, to, kind: 'weak', number: ++number })
  }
  if (stem !== undefined) plan.cell([stem], 'stem')
  for (const fact of argueSets(step, pattern)) {
    if (fact.kind === 'set-needs' && fact.from !== undefined) {
      const [from, to] = [sets[fact.from]!, sets[fact.index]!]
      join(placesIn(step, from.cells, fact.lacks), placesIn(step, to.cells, fact.lacks))
    } else if (fact.kind === 'petal')
      join({ cells: [fact.stem], digit: fact.digit }, placesIn(step, fact.set.cells, fact.digit))
    else if (fact.kind === 'crossing-count')
      plan.house(
        fact.sides.map(({ house }) => house),
        'house',
      )
    else if (fact.kind === 'set-ring')
      for (const { digit, between } of joins) {
        const [a, b] = between.map((i) => placesIn(step, sets[i]!.cells, digit))
        join(a!, b!)
      }
  }
  sets.forEach(({ cells, digits }, index) => {
    const role = setRole(index)
    plan.area(cells, role, index)
    plan.mark(
      cells,
      digits.filter((digit) => removed.has(digit)),
      'keeps',
    )
    plan.mark(cells, digits, role)
  })
  if (stem !== undefined) plan.mark([stem], digitsOf(step.before.candidates[stem]!), 'pattern')
}

/** The cells, what keeps them from being exchanged, and the houses that the conclusion comes from. */
function planExchange(
  plan: PlanBuilder,
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'exchange' }>,
): void {
  const { cells, digits, extras, links } = pattern
  for (const { cell, digit } of extras) plan.mark([cell], [digit], 'extra')
  plan.cell(cells, 'exchange')
  plan.mark(cells, digits, 'exchange')
  for (const premise of step.premises) {
    if (premise.kind !== 'house') continue
    plan.house([premise.house], 'house')
    plan.mark(premise.cells, [premise.digit], 'pattern')
  }
  const subset = extrasSubset(step, pattern)
  if (subset) {
    plan.house([subset.house], 'house')
    plan.cell(subset.others, 'pattern')
    plan.mark(subset.others, subset.digits, 'pattern')
  }
  plan.links.push(...links.map(({ from, to, kind }) => ({ from, to, kind })))
}
