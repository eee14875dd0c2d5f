import type { Candidate } from '../../grid/board.js'
import { digitsOf } from '../../grid/digits.js'
import type { ChainNode, FoundStep } from '../../logic/steps/step.js'
import { argueSets, crossingCount, hasAllPetals, isRing, setEnds } from '../argument/argue-sets.js'
import type { Reason, Why } from '../argument/reason.js'
import { ascending, isThat, placesIn, rulesOut } from '../argument/sight.js'
import { sameNode } from '../notation.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import { setRole } from '../picture/roles.js'
import type { PatternOf } from './story.js'

export { argueSets as facts } from '../argument/argue-sets.js'
export { huntSets as clues } from '../hunt/hunt-sets.js'

export function placed(
  step: FoundStep,
  pattern: PatternOf<'sets'>,
  candidate: Candidate,
): Reason | undefined {
  const { digit } = candidate
  const { sets } = pattern
  return setEnds(step, pattern, digit)?.every((end) => isThat(end, candidate))
    ? { kind: 'kept-here', digit, sets: [sets[0]!.cells, sets[sets.length - 1]!.cells] }
    : undefined
}

export function reason(step: FoundStep, pattern: PatternOf<'sets'>, removed: Candidate): Reason | undefined {
  const { digit } = removed
  const excludedBy = (node: ChainNode) => rulesOut(step.before.geometry, removed, node)
  const { sets, joins, stem } = pattern
  const nodes = sets.map(({ cells }) => placesIn(step, cells, digit))
  const seen = nodes.map((node) => node.cells.length > 0 && excludedBy(node))
  const ends = setEnds(step, pattern, digit)
  const crossing = crossingCount(step, pattern)
  if (crossing) {
    const own = crossing.twice.includes(digit)
      ? crossing.sides.map(({ cells }) => cells)
      : [sets.flatMap((set) => set.cells)]
    const kept = own
      .map((cells) => placesIn(step, cells, digit))
      .find((node) => node.cells.length > 0 && excludedBy(node))
    return kept && { kind: 'set-keeps', cells: kept.cells, digit }
  }
  if (ends) return ends.every(excludedBy) ? { kind: 'excluded-by-each', nodes: ends } : undefined
  if (stem !== undefined && seen.every(Boolean) && hasAllPetals(step, pattern, stem))
    return { kind: 'kept-by-some-set', digit, cells: ascending(nodes.flatMap((node) => node.cells)) }
  if (!isRing(pattern)) return undefined
  const joinsOf = sets.map((_, i) => joins.filter(({ between }) => between.includes(i)))
  const join = joins.find((own) => own.digit === digit && own.between.every((i) => seen[i]))
  if (join) return { kind: 'excluded-by-each', nodes: join.between.map((i) => nodes[i]!) }
  const keeper = seen.findIndex((is, i) => is && joinsOf[i]!.every((own) => own.digit !== digit))
  return keeper < 0 ? undefined : { kind: 'set-keeps', cells: nodes[keeper]!.cells, digit }
}

/** The digits that join two sets, those that one of them keeps, and the way from set to set as it is explained. */
export function plan(
  picture: PlanBuilder,
  step: FoundStep,
  pattern: PatternOf<'sets'>,
  reasons: () => readonly Why[],
): void {
  const { sets, joins, stem } = pattern
  const join = (from: ChainNode, to: ChainNode) => {
    // named again for each digit that goes, and drawn once
    const isDrawn = picture.links.some((link) => sameNode(link.from, from) && sameNode(link.to, to))
    if (isDrawn || from.cells.length === 0 || to.cells.length === 0) return
    picture.node(from, 'join')
    picture.node(to, 'join')
    picture.nextLink(from, to, 'weak')
  }
  if (stem !== undefined) picture.cell([stem], 'stem')
  for (const fact of argueSets(step, pattern)) {
    if (fact.kind === 'set-needs' && fact.from !== undefined) {
      const [from, to] = [sets[fact.from]!, sets[fact.index]!]
      join(placesIn(step, from.cells, fact.lacks), placesIn(step, to.cells, fact.lacks))
    } else if (fact.kind === 'petal')
      join({ cells: [fact.stem], digit: fact.digit }, placesIn(step, fact.set.cells, fact.digit))
    else if (fact.kind === 'crossing-count')
      picture.house(
        fact.sides.map(({ house }) => house),
        'house',
      )
    else if (fact.kind === 'set-ring')
      for (const { digit, between } of joins) {
        const [a, b] = between.map((i) => placesIn(step, sets[i]!.cells, digit))
        join(a!, b!)
      }
  }
  for (const { digit, reason } of reasons()) {
    if (reason.kind === 'excluded-by-each') for (const node of reason.nodes) picture.node(node, 'keeps')
    if (reason.kind === 'set-keeps' || reason.kind === 'kept-by-some-set')
      picture.mark(reason.cells, [digit], 'keeps')
  }
  sets.forEach(({ cells, digits }, index) => {
    const role = setRole(index)
    picture.area(cells, role, index)
    picture.mark(cells, digits, role)
  })
  if (stem !== undefined) picture.mark([stem], digitsOf(step.before.candidates[stem]!), 'pattern')
}
