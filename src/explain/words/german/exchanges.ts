import type { ExchangeFact } from '../../argument/facts.js'
import { count, type GermanTerms } from './terms.js'

export function exchangeFact(t: GermanTerms, fact: ExchangeFact): string {
  switch (fact.kind) {
    case 'exchange':
      return exchange(t, fact)
    case 'extras':
      return fact.extras.length === 1
        ? `Nur ${t.theCandidates(fact.extras)} verhindert das.`
        : `Nur ${t.theCandidates(fact.extras, 'oder')} kann das verhindern, also ist eine davon wahr.`
    case 'extras-subset': {
      const holders = [...new Set(fact.extras.map(({ cell }) => cell))]
      const digits = [...new Set(fact.extras.map(({ digit }) => digit))].sort((a, b) => a - b)
      return (
        `Also steht ${t.digits(digits, 'oder')} in einer von ${t.cells(holders)}. Mit ${t.cells(fact.others)} ` +
        `sind das ${count(fact.digits.length)} Zellen von ${t.house(fact.house)} für ${t.digits(fact.digits)}.`
      )
    }
    case 'assumes-one-solution':
      return 'All das gilt, weil das Rätsel nur eine Lösung hat.'
    default:
      return fact satisfies never
  }
}

function exchange(
  t: GermanTerms,
  { cells, digits, manner, extras }: Extract<ExchangeFact, { kind: 'exchange' }>,
): string {
  const swapped = 'ließen sich diese dort vertauschen, und es gäbe eine zweite Lösung.'
  switch (manner) {
    case 'same':
      return `Keine von ${t.cells(cells)} ist vorgegeben. Hätten sie nur ${t.digits(digits)}, ${swapped}`
    case 'placed':
      return `Keine von ${t.cells(cells)} ist vorgegeben, auch wenn manche schon gefüllt sind. Hätten sie nur ${t.digits(digits)}, ${swapped}`
    case 'own':
      return `Keine von ${t.cells(cells)} ist vorgegeben. Ohne ${t.theCandidates(extras)} hätte jede zwei Kandidaten, und dann ${swapped}`
    case 'board':
      return `Lassen wir ${t.theCandidates(extras)} einmal weg: Jede offene Zelle hat zwei Kandidaten und jede Ziffer, die fehlt, zwei Plätze in jedem ihrer Häuser. Wäre das alles, ließe sich alles vertauschen, und es gäbe eine zweite Lösung.`
    default:
      return manner satisfies never
  }
}
