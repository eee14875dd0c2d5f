import type { ExchangeFact } from '../../argument/facts.js'
import { count, type EnglishTerms } from './terms.js'

export function exchangeFact(t: EnglishTerms, fact: ExchangeFact): string {
  switch (fact.kind) {
    case 'exchange':
      return exchange(t, fact)
    case 'extras': {
      const { extras } = fact
      if (extras.length === 1) return `Only ${t.theCandidates(extras)} prevents that.`
      return `Only ${t.theCandidates(extras)} can prevent that, so one of these is true.`
    }
    case 'extras-subset': {
      const holders = [...new Set(fact.extras.map(({ cell }) => cell))]
      const digits = [...new Set(fact.extras.map(({ digit }) => digit))].sort((a, b) => a - b)
      return (
        `That puts ${t.digits(digits, 'or')} in one of ${t.cells(holders)}. With ${t.cells(fact.others)}, ` +
        `it makes ${count(fact.digits.length)} cells of ${t.house(fact.house)} for ${t.digits(fact.digits)}.`
      )
    }
    case 'assumes-one-solution':
      return 'All this rests on the puzzle having only one solution.'
    default:
      return fact satisfies never
  }
}

function exchange(
  t: EnglishTerms,
  { cells, digits, manner, extras }: Extract<ExchangeFact, { kind: 'exchange' }>,
): string {
  const swapped = digits.length === 2 ? 'the two could change places' : 'these could be exchanged'
  switch (manner) {
    case 'same':
      return `None of ${t.cells(cells)} is given. If they held nothing but ${t.digits(digits)}, ${swapped} there for a second solution.`
    case 'placed':
      return `None of ${t.cells(cells)} is given, though some are filled in. If they held nothing but ${t.digits(digits)}, ${swapped} there for a second solution.`
    case 'own':
      return `None of ${t.cells(cells)} is given. Without ${t.theCandidates(extras)}, each would have two candidates, and ${swapped} there for a second solution.`
    case 'board':
      return `Leave out ${t.theCandidates(extras)} for a moment: every open cell has two candidates, and every digit that is missing has two places in each of its houses. If that were all, everything could be exchanged for a second solution.`
    default:
      return manner satisfies never
  }
}
