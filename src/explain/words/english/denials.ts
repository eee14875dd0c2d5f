import type { Premise } from '../../../logic/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { DenialFact } from '../../argument/facts.js'
import { supposed } from './chains.js'
import { capital, count, counted, type EnglishTerms, list } from './terms.js'

export function denialFact(t: EnglishTerms, fact: DenialFact): string {
  switch (fact.kind) {
    case 'suppose':
      return `Suppose ${supposed(t, fact.candidates)}.`
    case 'suppose-not':
      return `Suppose ${t.cell(fact.candidate.cell)} is not ${t.digit(fact.candidate.digit)}.`
    case 'takes': {
      const ways = fact.ways.map(
        ({ out, by }) =>
          `${t.theCandidates(out)}, ${by.length === 0 ? 'which it sees' : `since ${starving(t, by)}`}`,
      )
      return `That rules out ${ways.join('; and ')}.`
    }
    case 'pairs-fail': {
      const ways = fact.ways.map(({ pairs, by }) => {
        const together = list(
          pairs.map((pair) => list(pair.map((candidate) => t.candidate(candidate)))),
          'or',
        )
        return by.length === 0 ? `${together} would see each other` : `with ${together}, ${starving(t, by)}`
      })
      return `What is left does not go together: ${ways.join('; ')}.`
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

function starving(t: EnglishTerms, cells: readonly number[]): string {
  return cells.length === 1
    ? `${t.cells(cells)} would have nothing left`
    : `${t.cells(cells)} would have too few digits left`
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
  return path.length === 0
    ? `${capital(cases)}: take the cases one by one.`
    : `Within case ${caseNumber(path)}, ${cases}.`
}

function branch(t: EnglishTerms, fact: Extract<DenialFact, { kind: 'branch' }>): string {
  const assumed = `${t.cell(fact.assume.cell)} is ${t.digit(fact.assume.digit)}`
  const head = fact.supposed ? `Suppose ${assumed}` : `Case ${caseNumber(fact.path)}: ${assumed}`
  const then = fact.follows.map((step) => follows(t, step))
  const way = then.length > 0 ? `${head}. Then ${list(then)}` : head
  if (fact.end === 'split') return fact.supposed ? `${way}.` : `${way}. This case divides further.`
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
