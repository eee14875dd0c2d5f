import type { Premise } from '../../../logic/steps/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { DenialFact, Starved } from '../../argument/facts.js'
import { pairBlocks } from '../gathered.js'
import { supposed } from './chains.js'
import { capital, count, counted, type GermanTerms, list } from './terms.js'

export function denialFact(t: GermanTerms, fact: DenialFact): string {
  switch (fact.kind) {
    case 'suppose':
      return `Angenommen, ${supposed(t, fact.candidates)}.`
    case 'suppose-not':
      return `Angenommen, ${t.cell(fact.candidate.cell)} ist nicht ${t.digit(fact.candidate.digit)}.`
    case 'follows':
      return `Dann gilt: ${capital(inTurn(fact.forced.map((step) => follows(t, step))))}, und ${nothingLeft(t, fact.end)}.`
    case 'takes': {
      const ways = fact.ways.map(
        ({ out, by }) =>
          `${t.theCandidates(out)}, ${by ? `denn sonst ${starving(t, by)}` : 'weil die Zellen einander sehen'}`,
      )
      return `Damit ${fact.ways[0]!.out.length === 1 ? 'entfällt' : 'entfallen'} ${ways.join('; und ')}.`
    }
    case 'pairs-fail': {
      const ways = fact.ways.map(({ pairs, by }) => {
        const [one, other] = pairs[0]!
        if (!by) return `${t.cells([one.cell, other.cell])} sehen einander und können nicht gleich sein`
        const together = pairBlocks(pairs).map((block) =>
          block.map((half) => t.candidates(half, 'oder')).join(' und '),
        )
        return `mit ${together.join(' oder mit ')} ${starving(t, by)}`
      })
      return `Was bleibt, geht nicht zusammen. ${ways.map(capital).join('. ')}.`
    }
    case 'starved':
      return fact.left.length === 0
        ? `Damit bleibt für ${t.cells(fact.cells)} nichts.`
        : `Damit ${fact.left.length === 1 ? 'bleibt' : 'bleiben'} für ${t.cells(fact.cells)} nur ${t.digits(fact.left)}: ${counted(fact.left.length, 'Ziffer')} für ${count(fact.cells.length)} Zellen.`
    case 'split':
      return split(t, fact)
    case 'branch':
      return branch(t, fact)
    default:
      return fact satisfies never
  }
}

function starving(t: GermanTerms, { cells, digits, isNamed }: Starved): string {
  const one = cells.length === 1
  const all = isNamed ? '' : ` mit ${one ? 'nur' : 'zusammen'} ${t.digits(digits)}`
  return `${one ? 'bliebe' : 'blieben'} für ${t.cells(cells)}${all} ${one ? 'nichts' : 'zu wenige Ziffern'}`
}

function caseNumber(path: readonly number[]): string {
  return path.join('.')
}

function split(t: GermanTerms, { premise, left, path }: Extract<DenialFact, { kind: 'split' }>): string {
  const all = premise.kind === 'cell' ? premise.digits.length : premise.cells.length
  const rest =
    left.length === all
      ? ''
      : `, wovon hier ${premise.kind === 'cell' ? t.digits(left.map(({ digit }) => digit)) : t.cells(left.map(({ cell }) => cell))} ${left.length === 1 ? 'bleibt' : 'bleiben'}`
  const cases = `${t.premise(premise)}${rest}`
  return path.length === 0 ? `${capital(cases)}: Gehen wir die Fälle durch.` : `Dort gilt: ${capital(cases)}.`
}

function branch(t: GermanTerms, fact: Extract<DenialFact, { kind: 'branch' }>): string {
  const assumed = `${t.cell(fact.assume.cell)} ist ${t.digit(fact.assume.digit)}`
  const head = fact.supposed ? `Angenommen, ${assumed}` : `Fall ${caseNumber(fact.path)}: ${capital(assumed)}`
  const follow = fact.follows.map((step) => follows(t, step))
  const way = follow.length > 0 ? `${head}. Dann gilt: ${capital(inTurn(follow))}` : head
  if (fact.end === 'split') return `${way}.`
  if ('like' in fact.end) return `${way}. Von da an geht es weiter wie in Fall ${caseNumber(fact.end.like)}.`
  if ('contradiction' in fact.end)
    return `${way}${follow.length > 0 ? ', und' : '. Aber'} ${nothingLeft(t, fact.end.contradiction)}${fact.supposed ? '' : ': Dieser Fall scheidet aus'}.`
  const { by, removed } = fact.end
  if (removed.length === 0 || by.length === 0) return `${way}.`
  const [first] = by
  if (first && by.length === 1 && removed.every(({ cell }) => cell === first.cell))
    return `${way}. Also ist ${t.cell(first.cell)} nicht ${t.digits(
      removed.map(({ digit }) => digit),
      'oder',
    )}.`
  const verb = by.length === 1 ? 'schließt' : 'schließen'
  return `${way}. ${capital(t.theCandidates(by))} ${verb} ${t.theCandidates(removed)} aus.`
}

/** So many things are followed in one breath. */
const IN_A_BREATH = 4

/** One after the other, with a pause where there are many. */
function inTurn(clauses: readonly string[]): string {
  const breaths = Math.ceil(clauses.length / IN_A_BREATH)
  const size = Math.ceil(clauses.length / breaths)
  const parts = Array.from({ length: breaths }, (_, i) => list(clauses.slice(i * size, (i + 1) * size)))
  return parts.join('. Weiter gilt: ')
}

function nothingLeft(t: GermanTerms, premise: Premise | 'exchange'): string {
  if (premise === 'exchange') return 'nur vertauschbare Ziffern sind noch übrig'
  return premise.kind === 'cell'
    ? `${t.cell(premise.cell)} hat keinen Kandidaten mehr`
    : `${t.house(premise.house)} hat keinen Platz mehr für ${t.its(premise.house)} ${t.digit(premise.digit)}`
}

function follows(t: GermanTerms, step: Forced): string {
  if ('locked' in step) return `${t.cells(step.locked)} nehmen ${t.digits(step.digits)}`
  const { candidate, premise } = step
  return premise?.kind === 'house'
    ? `${t.house(premise.house)} hat ${t.its(premise.house)} ${t.digit(candidate.digit)} in ${t.within(premise.house, [candidate.cell], 'oder')}`
    : `${t.cell(candidate.cell)} ist ${t.digit(candidate.digit)}`
}
