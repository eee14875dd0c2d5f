import type { Candidate } from '../../grid/board.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { ChainNode, FoundStep } from '../../logic/steps/step.js'
import { argueColouring, bridges, colourClash, opposite, outseenBy } from '../argument/argue-colouring.js'
import type { ColourOf, Reason, Why } from '../argument/reason.js'
import type { PlanBuilder } from '../picture/plan-builder.js'
import type { Role } from '../picture/roles.js'
import type { PatternOf } from './story.js'

export { argueColouring as facts } from '../argument/argue-colouring.js'
export { huntColours as clues } from '../hunt/hunt-colours.js'

export function reason(
  step: FoundStep,
  pattern: PatternOf<'colouring'>,
  removed: Candidate,
): Reason | undefined {
  const { geometry } = step.before
  const { clusters } = pattern
  const seenIn = ({ index, colour }: ColourOf) => {
    const candidate = clusters[index]![colour].find((member) => exclude(geometry, member, removed))
    return candidate && { index, colour, ...candidate }
  }
  const seesBoth = (a: ColourOf, b: ColourOf): Reason | undefined => {
    const one = seenIn(a)
    const other = seenIn(b)
    return one && other && { kind: 'sees-both-colours', one, other }
  }
  for (const [index, cluster] of clusters.entries()) {
    for (const colour of ['one', 'other'] as const) {
      const within = cluster[colour].some((c) => c.cell === removed.cell && c.digit === removed.digit)
      const isFalse =
        colourClash(geometry, cluster[colour]) ?? outseenBy(geometry, clusters, index, colour) !== undefined
      if (within && isFalse) return { kind: 'false-colour', index, colour }
    }
    const both = seesBoth({ index, colour: 'one' }, { index, colour: 'other' })
    if (both) return both
  }
  for (const { near, far } of bridges(geometry, clusters)) {
    const both = seesBoth(opposite(near), opposite(far))
    if (both) return both
  }
  return undefined
}

/** The colours with their strong links, and what of them cannot be true together. */
export function plan(
  picture: PlanBuilder,
  step: FoundStep,
  pattern: PatternOf<'colouring'>,
  reasons: () => readonly Why[],
): void {
  pattern.clusters.forEach(({ one, other }, index) => {
    const roles: readonly [Role, Role] =
      index === 0 ? ['colour-one', 'colour-other'] : ['second-one', 'second-other']
    for (const { cell, digit } of one) picture.mark([cell], [digit], roles[0])
    for (const { cell, digit } of other) picture.mark([cell], [digit], roles[1])
  })
  picture.links.push(...pattern.links.map(({ from, to, kind }) => ({ from, to, kind })))
  for (const fact of argueColouring(step, pattern, reasons())) {
    if (fact.kind !== 'colour-bridge' && fact.kind !== 'colour-clash') continue
    const [from, to] = fact.pair.map(({ cell, digit }): ChainNode => ({ digit, cells: [cell] }))
    picture.links.push({ from: from!, to: to!, kind: 'weak' })
  }
}
