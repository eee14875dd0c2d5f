import type { Candidate } from '../../../grid/board.js'
import type { ChainFact, Made } from '../../argument/facts.js'
import { capital, type GermanTerms } from './terms.js'

export function chainFact(t: GermanTerms, fact: ChainFact): string {
  switch (fact.kind) {
    case 'joined': {
      const digit = t.digit(fact.digit)
      const [one, other] = fact.pairs
      const places = ({ house, far, near }: (typeof fact.pairs)[number]) =>
        t.within(house, [...far, ...near], 'oder')
      const near = fact.pairs.flatMap((pair) => pair.near)
      return (
        `In ${t.house(one!.house)} steht die ${digit} in ${places(one!)}; in ${t.house(other!.house)} in ${places(other!)}. ` +
        `${capital(t.cells(near))} liegen ${near.length === 2 ? 'beide' : 'alle'} in ${t.house(fact.joint)}, ${t.which(fact.joint)} nur eine ${digit} aufnimmt.`
      )
    }
    case 'chain-given':
      return `Angenommen, ${supposed(t, fact.given)}.`
    case 'chain-start': {
      const { node, value, follows, made } = fact
      if (value) return `Angenommen, ${t.node(node)}.`
      if (follows)
        return `Das schließt die ${t.digit(node.digit)} in ${t.cells(node.cells)} aus${made ? `, also ${then(t, made)}` : ''}.`
      const isSame = made?.by.kind === 'cell' && made.fins.length === 0
      const next = made && (isSame ? `steht dort die ${t.digit(made.node.digit)}` : then(t, made))
      return `Angenommen, ${t.noNode(node)}${next ? `: Dann ${next}` : ''}.`
    }
    case 'chain-move': {
      const { off, by, made } = fact
      const digit = t.digit(off.digit)
      const isSame = made?.by.kind === 'cell' && made.fins.length === 0
      const out = isSame
        ? `ist ${t.cell(off.cells[0]!)} nicht ${digit}, sondern ${t.digit(made.node.digit)}`
        : `${t.isNoNode(off)}${made ? `, und ${outcome(t, made)}` : ''}`
      if (by.kind === 'house') return `Das ist die ${digit} in ${t.house(by.house)}, also ${out}.`
      return by.kind === 'cell' ? `Also ${out}.` : `Das alles sieht ${t.cells(off.cells)}, also ${out}.`
    }
    case 'loop':
      return `${fact.by.kind === 'house' ? t.house(fact.by.house) : 'Das'} führt zurück zur ${t.digit(
        fact.digit,
      )} am Anfang: ein Ring, in dem von je zwei verknüpften Kandidaten genau einer wahr ist.`
    default:
      return fact satisfies never
  }
}

export function supposed(t: GermanTerms, candidates: readonly Candidate[]): string {
  const [first] = candidates
  if (candidates.length === 1) return `${t.cell(first!.cell)} ist ${t.digit(first!.digit)}`
  const cells = candidates.map(({ cell }) => cell)
  return candidates.every(({ digit }) => digit === first!.digit)
    ? `eine von ${t.cells(cells)} ist ${t.digit(first!.digit)}`
    : `eines davon ist wahr: ${t.candidates(candidates, 'oder')}`
}

/** What a strong link makes true, and by what, as a clause. */
function outcome(t: GermanTerms, { node, by, fins }: Made): string {
  const digit = t.digit(node.digit)
  const gone = fins.length > 0 ? `, da auch ${t.theCandidates(fins)} ${wegfaellt(fins)},` : ''
  switch (by.kind) {
    case 'cell':
      return `${t.cell(by.cell)}${gone} ist ${digit}`
    case 'house':
      return `${t.house(by.house)}${gone} hat ${t.its(by.house)} ${digit} in ${t.within(by.house, node.cells, 'oder')}`
    case 'set':
      return by.left
        ? `${t.cells(by.cells)}${gone} haben nur noch ${t.digits(by.left)}, also steht die ${digit} in ${t.cells(node.cells, 'oder')}`
        : `${t.cells(by.cells)} mit zusammen ${t.digits(by.digits)}${gone} brauchen alles, was bleibt, die ${digit} in ${t.cells(node.cells, 'oder')}`
    case 'premises':
      return t.node(node)
    default:
      return by satisfies never
  }
}

/** The same with its verb ahead, as after `dann` and `also`. */
function then(t: GermanTerms, made: Made): string {
  const { node, by, fins } = made
  const digit = t.digit(node.digit)
  const gone = fins.length > 0 ? `, da auch ${t.theCandidates(fins)} ${wegfaellt(fins)},` : ''
  switch (by.kind) {
    case 'cell':
      return `steht in ${t.cell(by.cell)}${gone} die ${digit}`
    case 'house':
      return `hat ${t.house(by.house)}${gone} ${t.its(by.house)} ${digit} in ${t.within(by.house, node.cells, 'oder')}`
    case 'set':
      return by.left
        ? `haben ${t.cells(by.cells)}${gone} nur noch ${t.digits(by.left)}, also steht die ${digit} in ${t.cells(node.cells, 'oder')}`
        : `brauchen ${t.cells(by.cells)} mit zusammen ${t.digits(by.digits)}${gone} alles, was bleibt, die ${digit} in ${t.cells(node.cells, 'oder')}`
    case 'premises':
      return `gilt: ${t.node(node)}`
    default:
      return by satisfies never
  }
}

function wegfaellt(fins: readonly Candidate[]): string {
  return fins.length === 1 ? 'wegfällt' : 'wegfallen'
}
