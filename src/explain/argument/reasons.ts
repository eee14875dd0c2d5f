import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { shapeReason } from '../shapes/shapes.js'
import { followDenial, refuteDenial } from './consequence.js'
import type { Reason, Why } from './reason.js'
import { sectorPremises } from './sectors.js'

/**
 * A reason for each placement and each removal of a step, in the step's order: the pattern's, or else the premises'.
 */
export function reasonsFor(step: FoundStep): Why[] {
  return [
    ...step.placements.map(
      (candidate): Why => ({
        effect: 'placed',
        ...candidate,
        reason: shapeReason(step, candidate, 'placed') ?? fromPremises(step, candidate, false),
      }),
    ),
    ...step.removals.map(
      (candidate): Why => ({
        effect: 'removed',
        ...candidate,
        reason: shapeReason(step, candidate, 'removed') ?? fromPremises(step, candidate, true),
      }),
    ),
  ]
}

/** The reason that needs no knowledge of the pattern, but for what a count of sectors has shown. */
function fromPremises(step: FoundStep, conclusion: Candidate, removed: boolean): Reason {
  const { pattern } = step
  const premises = [...sectorPremises(step), ...step.premises]
  const extras = pattern.shape === 'exchange' && step.assumes ? pattern.extras : []
  const { geometry } = step.before
  const denial = { supposed: conclusion, isTrue: removed, oneOf: extras }
  const way = followDenial(geometry, premises, denial)
  if (way?.end) return { kind: 'leads-nowhere', forced: way.forced, end: way.end }
  if (way) return { kind: 'leaves-exchange', forced: way.forced }
  const refutation = refuteDenial(geometry, premises, denial)
  return refutation ? { kind: 'every-way-fails', refutation } : { kind: 'premises-fail' }
}
