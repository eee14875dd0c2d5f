import { hasCandidate } from '../../grid/board/ask.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { alternativesOf } from '../../logic/premise-search.js'
import type { CaseTree, ChainLink, ChainNode, FoundStep, Pattern } from '../../logic/step.js'
import { argueSingle } from '../argument/argue-singles.js'
import { sameNode } from '../notation.js'
import type { Role } from './roles.js'

/** Who plays which part in a step: what a picture shows, before it is decided how. */
export interface PicturePlan {
  readonly cells: ReadonlyMap<number, Role>
  readonly candidates: readonly { readonly cell: number; readonly digit: number; readonly role: Role }[]
  readonly houses: readonly { readonly house: number; readonly role: Role }[]
  readonly links: readonly ChainLink[]
  /** Nodes of more than one cell, to be bound together. */
  readonly groups: readonly ChainNode[]
}

class PlanBuilder {
  readonly cells = new Map<number, Role>()
  readonly candidates: { cell: number; digit: number; role: Role }[] = []
  readonly houses: { house: number; role: Role }[] = []
  links: readonly ChainLink[] = []

  constructor(readonly step: FoundStep) {}

  cell(cells: readonly number[], role: Role): void {
    for (const cell of cells) if (!this.cells.has(cell)) this.cells.set(cell, role)
  }

  house(houses: readonly number[], role: Role): void {
    for (const house of houses) this.houses.push({ house, role })
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

  finish(): PicturePlan {
    const groups: ChainNode[] = []
    for (const { from, to } of this.links) {
      for (const node of [from, to]) {
        if (node.cells.length > 1 && !groups.some((group) => sameNode(group, node))) groups.push(node)
      }
    }
    return {
      cells: this.cells,
      candidates: this.candidates,
      houses: this.houses,
      links: this.links,
      groups,
    }
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
      plan.cell([pattern.pivot], 'pivot')
      plan.cell(pattern.pincers, 'pincer')
      for (const cell of [pattern.pivot, ...pattern.pincers]) plan.mark([cell], digitsIn(cell), 'pattern')
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
      plan.links = pattern.links
      return
    case 'sets': {
      if (pattern.stem !== undefined) {
        plan.cell([pattern.stem], 'stem')
        plan.mark([pattern.stem], digitsIn(pattern.stem), 'pattern')
      }
      pattern.sets.forEach(({ cells, digits }, index) => {
        const role = setRole(index)
        plan.cell(cells, role)
        plan.mark(cells, digits, role)
      })
      return
    }
    case 'exchange':
      for (const { cell, digit } of pattern.extras) plan.mark([cell], [digit], 'extra')
      plan.cell(pattern.cells, 'exchange')
      plan.mark(pattern.cells, pattern.digits, 'exchange')
      plan.links = pattern.links
      return
    case 'exclusion': {
      plan.cell(pattern.cells, 'to-fill')
      for (const cell of pattern.cells) plan.mark([cell], digitsIn(cell), 'pattern')
      const sets = new Map(pattern.excluded.map(({ by }) => [by.join(), by]))
      for (const [index, cells] of [...sets.values()].filter(({ length }) => length > 0).entries()) {
        const role = setRole(index)
        plan.cell(cells, role)
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
      planCases(plan, pattern.tree)
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

function planChain(plan: PlanBuilder, pattern: Extract<Pattern, { shape: 'chain' }>): void {
  const { links, loop } = pattern
  const first = links[0]?.from
  const last = links[links.length - 1]?.to
  for (const end of loop ? [] : [first, last]) if (end) plan.mark(end.cells, [end.digit], 'end')
  for (const { fins = [] } of links) for (const { cell, digit } of fins) plan.mark([cell], [digit], 'fin')
  for (const { from, to, by } of links) {
    for (const node of [from, to]) plan.mark(node.cells, [node.digit], 'link')
    if (by.kind === 'set') plan.cell(by.cells, 'linking-set')
  }
  plan.links = links
}

function planCases(plan: PlanBuilder, tree: CaseTree): void {
  for (const { assume } of tree.branches) plan.mark([assume.cell], [assume.digit], 'case')
  tree.branches.forEach(({ follows }, index) => {
    const role = (['forced-one', 'forced-two'] as const)[index] ?? 'forced-more'
    for (const { candidate } of follows) plan.mark([candidate.cell], [candidate.digit], role)
  })
  if (tree.split.kind === 'house') plan.house([tree.split.house], 'house')
  else if (tree.split.kind === 'cell') plan.cell([tree.split.cell], 'split')
}
