import type { Unproven } from '../../../logic/proof/proof.js'
import type { Names } from '../../names.js'
import { type EnglishTerms, englishTerms } from './terms.js'

/** Why a step is not proven, in a sentence. */
export function englishUnproven(because: Unproven, names: Names): string {
  const t = englishTerms(names)
  switch (because.kind) {
    case 'malformed':
      return `The step makes no sense on this grid: ${because.where} ${TROUBLES[because.trouble]}.`
    case 'no-conclusion':
      return 'The step places no digit and removes no candidate.'
    case 'not-a-candidate':
      return `That ${claimed(t, because.claim)} is no conclusion here: the board does not have that candidate.`
    case 'premise-fails': {
      const parts = [
        ...(because.unmentioned.length > 0
          ? [`the board also has ${t.candidates(because.unmentioned)}`]
          : []),
        ...(because.ruledOut.length > 0 ? [`the board no longer has ${t.candidates(because.ruledOut)}`] : []),
      ]
      return `It is not so that ${t.premise(because.premise)}${parts.length > 0 ? `: ${parts.join(', and ')}` : ''}.`
    }
    case 'missing-link':
      return `That ${claimed(t, because.claim)} does not follow: all that the step names would also hold with ${t.candidates(because.assignment)}.`
    case 'no-exchange':
      return 'The step rests on the puzzle having one solution, but names no cells that could be filled in two ways.'
    case 'given-in-exchange':
      return `${t.cell(because.cell)} is given, so the cells that the step names cannot be filled in two ways.`
    case 'not-exchangeable':
      return `That ${claimed(t, because.claim)} does not follow: filled with ${t.candidates(because.assignment)}, the cells could not be filled in another way.`
    case 'budget-spent':
      return `It is not known whether ${claimed(t, because.claim)}: the proof was stopped by its budget. Allow it a larger one.`
    case 'time-limit':
      return `It is not known whether ${claimed(t, because.claim)}: the time was over first. Allow more time.`
    default:
      return because satisfies never
  }
}

function claimed(
  t: EnglishTerms,
  { kind, candidate }: { kind: 'placement' | 'removal'; candidate: { cell: number; digit: number } },
): string {
  return `${t.cell(candidate.cell)} ${kind === 'placement' ? 'is' : 'is not'} ${t.digit(candidate.digit)}`
}

const TROUBLES = {
  'not-a-list': 'is no list',
  'not-a-cell': 'is no cell',
  'not-a-digit': 'is no digit',
  'not-a-house': 'is no house',
  'unknown-kind': 'is of no known kind',
  twice: 'is named twice',
  empty: 'is empty',
} as const
