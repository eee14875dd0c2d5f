import type { Candidate } from '../../../grid/board.js'
import type { ChainFact, Made } from '../../argument/facts.js'
import { capital, type EnglishTerms } from './terms.js'

export function chainFact(t: EnglishTerms, fact: ChainFact): string {
  switch (fact.kind) {
    case 'joined': {
      const digit = t.digit(fact.digit)
      const [one, other] = fact.pairs
      const places = ({ house, far, near }: (typeof fact.pairs)[number]) =>
        t.within(house, [...far, ...near], 'or')
      const near = fact.pairs.flatMap((pair) => pair.near)
      return (
        `In ${t.house(one!.house)} the ${digit} is in ${places(one!)}; in ${t.house(other!.house)}, in ${places(other!)}. ` +
        `${capital(t.cells(near))} ${near.length === 2 ? 'are both' : 'are all'} in ${t.house(fact.joint)}, which takes only one ${digit}.`
      )
    }
    case 'chain-given':
      return `Suppose ${supposed(t, fact.given)}.`
    case 'chain-start': {
      const { node, value, follows, made } = fact
      if (value) return `Suppose ${t.node(node)}.`
      if (follows)
        return `That rules out the ${t.digit(node.digit)} in ${t.cells(node.cells)}${made ? `, so ${outcome(t, made)}` : ''}.`
      const isSame = made?.by.kind === 'cell' && made.fins.length === 0
      const then = made && (isSame ? `it is then ${t.digit(made.node.digit)}` : `then ${outcome(t, made)}`)
      return `Suppose ${t.noNode(node)}${then ? `: ${then}` : ''}.`
    }
    case 'chain-move': {
      const { off, by, made } = fact
      const digit = t.digit(off.digit)
      const isSame = made?.by.kind === 'cell' && made.fins.length === 0
      const out = isSame
        ? `${t.cell(off.cells[0]!)} is not ${digit} but ${t.digit(made.node.digit)}`
        : `${t.noNode(off)}${made ? `, and ${outcome(t, made)}` : ''}`
      if (by.kind === 'house') return `That is the ${digit} of ${t.house(by.house)}, so ${out}.`
      return by.kind === 'cell' ? `So ${out}.` : `All of that sees ${t.cells(off.cells)}, so ${out}.`
    }
    case 'loop': {
      const where = fact.by.kind === 'house' ? `${capital(t.house(fact.by.house))} leads` : 'That leads'
      return `${where} back to the ${t.digit(fact.digit)} where it began: a ring, in which of any two linked candidates exactly one is true.`
    }
    default:
      return fact satisfies never
  }
}

export function supposed(t: EnglishTerms, candidates: readonly Candidate[]): string {
  const [first] = candidates
  if (candidates.length === 1) return `${t.cell(first!.cell)} is ${t.digit(first!.digit)}`
  const cells = candidates.map(({ cell }) => cell)
  return candidates.every(({ digit }) => digit === first!.digit)
    ? `one of ${t.cells(cells)} is ${t.digit(first!.digit)}`
    : `one of these is true: ${t.candidates(candidates, 'or')}`
}

/** What a strong link makes true, and by what. */
function outcome(t: EnglishTerms, { node, by, fins }: Made): string {
  const digit = t.digit(node.digit)
  const gone = fins.length > 0 ? `, with ${t.theCandidates(fins)} out too,` : ''
  switch (by.kind) {
    case 'cell':
      return `${t.cell(by.cell)}${gone} is ${digit}`
    case 'house':
      return `${t.house(by.house)}${gone} has its ${digit} in ${t.within(by.house, node.cells, 'or')}`
    case 'set':
      return by.left
        ? `${t.cells(by.cells)}${gone} have just ${t.digits(by.left)} left, so the ${digit} is in ${t.cells(node.cells, 'or')}`
        : `${t.cells(by.cells)}, with ${t.digits(by.digits)} between them${fins.length > 0 ? ` and ${t.theCandidates(fins)} out too` : ''}, need all they have left, the ${digit} in ${t.cells(node.cells, 'or')}`
    case 'premises':
      return t.node(node)
    default:
      return by satisfies never
  }
}
