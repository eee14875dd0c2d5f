import type { Premise } from '../../../logic/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { DenialFact } from '../../argument/facts.js'
import { supposed } from './chains.js'
import { capital, count, counted, type GermanTerms, list } from './terms.js'

export function denialFact(t: GermanTerms, fact: DenialFact): string {
  switch (fact.kind) {
    case 'suppose':
      return `Angenommen, ${supposed(t, fact.candidates)}.`
    case 'suppose-not':
      return `Angenommen, ${t.cell(fact.candidate.cell)} ist nicht ${t.digit(fact.candidate.digit)}.`
    case 'takes': {
      const ways = fact.ways.map(
        ({ out, by }) =>
          `${t.theCandidates(out)}, ${by.length === 0 ? 'weil sie einander sehen' : `denn sonst ${starving(t, by)}`}`,
      )
      return `Damit ${fact.ways[0]!.out.length === 1 ? 'entfällt' : 'entfallen'} ${ways.join('; und ')}.`
    }
    case 'pairs-fail': {
      const ways = fact.ways.map(({ pairs, by }) => {
        const together = list(
          pairs.map((pair) => t.candidates(pair)),
          'oder',
        )
        return by.length === 0 ? `${together} sähen einander` : `mit ${together} ${starving(t, by)}`
      })
      return `Was bleibt, geht nicht zusammen: ${capital(ways.join('; '))}.`
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

function starving(t: GermanTerms, cells: readonly number[]): string {
  return cells.length === 1
    ? `bliebe für ${t.cells(cells)} nichts`
    : `blieben für ${t.cells(cells)} zu wenige Ziffern`
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
  return path.length === 0
    ? `${capital(cases)}: Gehen wir die Fälle durch.`
    : `In Fall ${caseNumber(path)}: ${capital(cases)}.`
}

function branch(t: GermanTerms, fact: Extract<DenialFact, { kind: 'branch' }>): string {
  const assumed = `${t.cell(fact.assume.cell)} ist ${t.digit(fact.assume.digit)}`
  const head = fact.supposed ? `Angenommen, ${assumed}` : `Fall ${caseNumber(fact.path)}: ${capital(assumed)}`
  const follow = fact.follows.map((step) => follows(t, step))
  const way = follow.length > 0 ? `${head}. Dann gilt: ${capital(list(follow))}` : head
  if (fact.end === 'split') return fact.supposed ? `${way}.` : `${way}. Dieser Fall teilt sich weiter.`
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
