import type { Candidate } from '../../grid/board.js'
import type { DigitStyle } from '../../grid/digit-names.js'
import type { Geometry } from '../../grid/geometry.js'
import type { Forced } from '../argument/consequence.js'
import type { Reason } from '../argument/facts.js'
import { colourName } from './english-facts.js'
import { type EnglishTerms, englishTerms } from './english-terms.js'

/** One conclusion and why, as one English sentence. */
export function englishReason(
  effect: 'placed' | 'removed',
  subject: Candidate,
  reason: Reason,
  geometry: Geometry,
  style?: DigitStyle,
): string {
  const t = englishTerms(geometry, style)
  const because = why(t, subject, reason)
  const head =
    effect === 'placed'
      ? `${t.cell(subject.cell)} is ${t.digit(subject.digit)}`
      : `${t.cell(subject.cell)} is not ${t.digit(subject.digit)}`
  return `${head}: ${because}.`
}

function why(t: EnglishTerms, subject: Candidate, reason: Reason): string {
  switch (reason.kind) {
    case 'taken-elsewhere':
      return `${t.house(reason.house)} has its ${t.digit(reason.digit)} in ${t.cells(reason.cells, 'or')}`
    case 'digits-used':
      return `it sees ${t.cells(reason.cells)}, which use up ${t.digits(reason.digits)}`
    case 'cell-reserved':
      return `the cells ${t.cells(reason.cells)} are needed for ${t.digits(reason.digits)}`
    case 'covered': {
      const where = `it is in ${t.house(reason.cover)} but outside ${t.houses(reason.base)}`
      if (reason.fins.length === 0) return where
      return `${where}, and it sees ${reason.fins.length === 1 ? 'the fin' : 'the fins'} ${t.cells(reason.fins)}`
    }
    case 'excluded-by-each': {
      const sees = reason.nodes.every((node) => !node.cells.includes(subject.cell))
      const rules = reason.nodes.length === 2 ? 'either of them rules it out' : 'each of them rules it out'
      return `${t.oneOf(reason.nodes)}, and ${sees ? `it sees ${reason.nodes.length === 2 ? 'both' : 'them all'}` : rules}`
    }
    case 'chain-denies':
      return `if it were true, the chain would lead to ${t.node(reason.end)}, which it rules out`
    case 'chain-returns':
      return 'if it were false, the chain would make it true'
    case 'kept-here': {
      const [one, other] = reason.sets
      return `one of the sets ${t.cells(one)} and ${t.cells(other)} has ${t.one(reason.digit)}, and both have it in this cell alone`
    }
    case 'sees-both-colours':
      return `${t.candidate(reason.one)} (${colourName(reason.one.index, reason.one.colour)}) and ${t.candidate(
        reason.other,
      )} (${colourName(reason.other.index, reason.other.colour)}) both rule it out, and one of the two colours is true`
    case 'false-colour':
      return `it is ${colourName(reason.index, reason.colour)}, the colour that cannot be true`
    case 'set-keeps':
      return `the set ${t.cells(reason.cells)} has ${t.one(reason.digit)} whatever happens, and the cell sees all its places there`
    case 'leaves-exchange':
      return `otherwise ${[...forced(t, reason.forced), 'nothing would prevent a second solution'].join(', so ')}`
    case 'leads-nowhere': {
      const { end } = reason
      const last =
        end.kind === 'cell'
          ? `${t.cell(end.cell)} would have no candidate left`
          : `${t.house(end.house)} would have no place left for ${t.digit(end.digit)}`
      return `otherwise ${[...forced(t, reason.forced), last].join(', so ')}`
    }
    case 'kept-by-some-set':
      return `in every case one of ${t.cells(reason.cells)} is ${t.digit(reason.digit)}, and it sees them all`
    case 'goes-with-none':
      return `no way of filling ${t.cells(reason.cells)} goes with it`
    case 'not-in-pair':
      return `${t.cells(reason.cells)} take the same two digits, and neither can be ${t.digit(reason.digit)}`
    case 'used-in-house':
      return `${t.house(reason.house)} has its ${t.digit(reason.digit)} in ${t.cells(reason.cells, 'or')}`
    case 'supposition-fails':
      return 'supposing the opposite leads to a contradiction'
    case 'in-every-case':
      return 'every case either leads to it or fails'
    case 'premises-fail':
      return 'otherwise the facts above could not all hold at once'
    case 'only-choice':
      return 'there is no other choice'
    default:
      return reason satisfies never
  }
}

function forced(t: EnglishTerms, steps: readonly Forced[]): string[] {
  return steps.map((step) =>
    'locked' in step
      ? `${t.cells(step.locked)} would take ${t.digits(step.digits)}`
      : `${t.cell(step.candidate.cell)} would be ${t.digit(step.candidate.digit)}`,
  )
}
