import type { Premise } from '../../../logic/steps/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { DenialFact, Starved } from '../../argument/facts.js'
import { pairBlocks } from '../gathered.js'
import { supposed } from './chains.js'
import { capital, count, counted, type EnglishTerms, list } from './terms.js'

export function denialFact(t: EnglishTerms, fact: DenialFact): string {
  switch (fact.kind) {
    case 'suppose':
      return `Suppose ${supposed(t, fact.candidates)}.`
    case 'suppose-not':
      return `Suppose ${t.cell(fact.candidate.cell)} is not ${t.digit(fact.candidate.digit)}.`
    case 'follows':
      return `Then ${inTurn(fact.forced.map((step) => follows(t, step)))}, and ${nothingLeft(t, fact.end)}.`
    case 'takes': {
      const ways = fact.ways.map(
        ({ out, by }) => `${t.theCandidates(out)}, ${by ? `since ${starving(t, by)}` : 'which it sees'}`,
      )
      return `That rules out ${ways.join('; and ')}.`
    }
    case 'pairs-fail': {
      const ways = fact.ways.map(({ pairs, by }) => {
        const [one, other] = pairs[0]!
        if (!by) return `${t.cells([one.cell, other.cell])} see each other and cannot be the same`
        const together = pairBlocks(pairs).map((block) =>
          block.map((half) => t.candidates(half, 'or')).join(' and '),
        )
        return `with ${together.join(', or with ')}, ${starving(t, by)}`
      })
      return `What is left does not go together. ${ways.map(capital).join('. ')}.`
    }
    case 'starved':
      return fact.left.length === 0
        ? `That leaves ${t.cells(fact.cells)} nothing.`
        : `That leaves ${t.cells(fact.cells)} just ${t.digits(fact.left)}: ${counted(fact.left.length, 'digit')} for ${count(fact.cells.length)} cells.`
    case 'split':
      return split(t, fact)
    case 'branch':
      return branch(t, fact)
    default:
      return fact satisfies never
  }
}

function starving(t: EnglishTerms, { cells, digits, isNamed }: Starved): string {
  const one = cells.length === 1
  const all = one ? `, with just ${t.digits(digits)},` : `, with ${t.digits(digits)} between them,`
  return `${t.cells(cells)}${isNamed ? '' : all} would have ${one ? 'nothing' : 'too few digits'} left`
}

function caseNumber(path: readonly number[]): string {
  return path.join('.')
}

function split(t: EnglishTerms, { premise, left, path }: Extract<DenialFact, { kind: 'split' }>): string {
  const all = premise.kind === 'cell' ? premise.digits.length : premise.cells.length
  const rest =
    left.length === all
      ? ''
      : `, of which ${premise.kind === 'cell' ? t.digits(left.map(({ digit }) => digit)) : t.cells(left.map(({ cell }) => cell))} ${left.length === 1 ? 'is' : 'are'} left here`
  const cases = `${t.premise(premise)}${rest}`
  return path.length === 0 ? `${capital(cases)}: take the cases one by one.` : `There, ${cases}.`
}

function branch(t: EnglishTerms, fact: Extract<DenialFact, { kind: 'branch' }>): string {
  const assumed = `${t.cell(fact.assume.cell)} is ${t.digit(fact.assume.digit)}`
  const head = fact.supposed ? `Suppose ${assumed}` : `Case ${caseNumber(fact.path)}: ${assumed}`
  const then = fact.follows.map((step) => follows(t, step))
  const way = then.length > 0 ? `${head}. Then ${inTurn(then)}` : head
  if (fact.end === 'split') return `${way}.`
  if ('like' in fact.end) return `${way}. From there it goes on as in case ${caseNumber(fact.end.like)}.`
  if ('contradiction' in fact.end)
    return `${way}${then.length > 0 ? ', and' : '. Then'} ${nothingLeft(t, fact.end.contradiction)}${fact.supposed ? '' : ': this case fails'}.`
  const { by, removed } = fact.end
  if (removed.length === 0) return `${way}.`
  const [first] = by
  const isOwn = first !== undefined && by.length === 1 && removed.every(({ cell }) => cell === first.cell)
  if (isOwn)
    return `${way}. So ${t.cell(first.cell)} is not ${t.digits(
      removed.map(({ digit }) => digit),
      'or',
    )}.`
  const last =
    by.length > 0
      ? `. The ${t.candidates(by)} ${by.length === 1 ? 'rules' : 'rule'} out ${t.theCandidates(removed)}`
      : ''
  return `${way}${last}.`
}

/** So many things are followed in one breath. */
const IN_A_BREATH = 4

/** One after the other, with a pause where there are many. */
function inTurn(clauses: readonly string[]): string {
  const breaths = Math.ceil(clauses.length / IN_A_BREATH)
  const size = Math.ceil(clauses.length / breaths)
  const parts = Array.from({ length: breaths }, (_, i) => list(clauses.slice(i * size, (i + 1) * size)))
  return parts.join('. So ')
}

function nothingLeft(t: EnglishTerms, premise: Premise | 'exchange'): string {
  if (premise === 'exchange') return 'only digits that can be exchanged are left'
  return premise.kind === 'cell'
    ? `${t.cell(premise.cell)} has no candidate left`
    : `${t.house(premise.house)} has no place left for its ${t.digit(premise.digit)}`
}

function follows(t: EnglishTerms, step: Forced): string {
  if ('locked' in step) return `${t.cells(step.locked)} take ${t.digits(step.digits)}`
  const { candidate, premise } = step
  return premise?.kind === 'house'
    ? `${t.house(premise.house)} has its ${t.digit(candidate.digit)} in ${t.within(premise.house, [candidate.cell])}`
    : `${t.cell(candidate.cell)} is ${t.digit(candidate.digit)}`
}
