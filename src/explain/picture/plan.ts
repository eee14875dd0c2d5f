import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import { alternativesOf } from '../../logic/proof/premise-search.js'
import type { ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import { argueColouring } from '../argument/argue-colouring.js'
import { argueExchange, extrasSubset } from '../argument/argue-exchange.js'
import { argueSets } from '../argument/argue-sets.js'
import { argueSingle } from '../argument/argue-singles.js'
import { argueWing } from '../argument/argue-wings.js'
import { reasonsFor } from '../argument/reasons.js'
import { placesIn } from '../argument/sight.js'
import { sameNode } from '../notation.js'
import { type PicturePlan, PlanBuilder } from './plan-builder.js'
import { planCases, planDenial } from './plan-cases.js'
import { planChain } from './plan-chain.js'
import type { Role } from './roles.js'

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
      planChain(plan, step, pattern)
      return
    case 'colouring':
      planColouring(plan, step, pattern)
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
      plan.house(pattern.lines, 'house')
      plan.cell(pattern.base, 'base-cell')
      plan.mark(pattern.base, pattern.digits, 'pattern')
      plan.cell(pattern.targets, 'target-cell')
      plan.mark(pattern.targets, pattern.digits, 'pattern')
      return
    case 'sectors':
      plan.house(
        pattern.houses.map(({ house }) => house),
        'house',
      )
      plan.cell(pattern.cells, 'pattern')
      for (const cell of pattern.cells) plan.mark([cell], digitsIn(cell), 'pattern')
      return
    case 'premises':
      planDenial(plan, step)
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
  plan.cell([pivot], 'pivot')
  plan.cell(pincers, 'pincer')
  plan.mark([pivot, ...pincers], [digit], 'shared')
  for (const cell of [pivot, ...pincers])
    plan.mark([cell], digitsOf(step.before.candidates[cell]!), 'pattern')
  for (const fact of argueWing(step, pattern)) {
    if (fact.kind !== 'pincer') continue
    const [lost] = fact.when
    const at: ChainNode = { digit: lost!, cells: [fact.cell] }
    plan.nextLink({ digit: lost!, cells: [pivot] }, at, 'weak')
    plan.nextLink(at, { digit, cells: [fact.cell] }, 'strong')
  }
}

/** The digits that join two sets, those that one of them keeps, and the way from set to set as it is explained. */
function planSets(plan: PlanBuilder, step: FoundStep, pattern: Extract<Pattern, { shape: 'sets' }>): void {
  const { sets, joins, stem } = pattern
  const join = (from: ChainNode, to: ChainNode) => {
    // named again for each digit that goes, and drawn once
    const isDrawn = plan.links.some((link) => sameNode(link.from, from) && sameNode(link.to, to))
    if (isDrawn || from.cells.length === 0 || to.cells.length === 0) return
    plan.node(from, 'join')
    plan.node(to, 'join')
    plan.nextLink(from, to, 'weak')
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
  for (const { digit, reason } of reasonsFor(step)) {
    if (reason.kind === 'excluded-by-each') for (const node of reason.nodes) plan.node(node, 'keeps')
    if (reason.kind === 'set-keeps' || reason.kind === 'kept-by-some-set')
      plan.mark(reason.cells, [digit], 'keeps')
  }
  sets.forEach(({ cells, digits }, index) => {
    const role = setRole(index)
    plan.area(cells, role, index)
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
  // extras that the words pass over stay out of the picture as well
  const facts = argueExchange(step, pattern, reasonsFor(step))
  if (facts.some(({ kind }) => kind === 'extras'))
    for (const { cell, digit } of extras) plan.mark([cell], [digit], 'extra')
  plan.cell(cells, 'exchange')
  plan.mark(cells, digits, 'exchange')
  for (const premise of step.premises) {
    if (premise.kind !== 'house') continue
    plan.house([premise.house], 'house')
    plan.mark(premise.cells, [premise.digit], 'pattern')
    const [one, other, ...more] = premise.cells
    if (one !== undefined && other !== undefined && more.length === 0)
      plan.links.push({
        from: { digit: premise.digit, cells: [one] },
        to: { digit: premise.digit, cells: [other] },
        kind: 'strong',
      })
  }
  const subset = extrasSubset(step, pattern)
  if (subset) {
    plan.house([subset.house], 'house')
    plan.cell(subset.others, 'pattern')
    plan.mark(subset.others, subset.digits, 'pattern')
  }
  plan.links.push(...links.map(({ from, to, kind }) => ({ from, to, kind })))
}

/** The colours with their strong links, and what of them cannot be true together. */
function planColouring(
  plan: PlanBuilder,
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'colouring' }>,
): void {
  pattern.clusters.forEach(({ one, other }, index) => {
    const roles: readonly [Role, Role] =
      index === 0 ? ['colour-one', 'colour-other'] : ['second-one', 'second-other']
    for (const { cell, digit } of one) plan.mark([cell], [digit], roles[0])
    for (const { cell, digit } of other) plan.mark([cell], [digit], roles[1])
  })
  plan.links.push(...pattern.links.map(({ from, to, kind }) => ({ from, to, kind })))
  for (const fact of argueColouring(step, pattern, reasonsFor(step))) {
    if (fact.kind !== 'colour-bridge' && fact.kind !== 'colour-clash') continue
    const [from, to] = fact.pair.map(({ cell, digit }): ChainNode => ({ digit, cells: [cell] }))
    plan.links.push({ from: from!, to: to!, kind: 'weak' })
  }
}
