import type { Candidate } from '../../../grid/board.js'
import type { ChainNode, Premise } from '../../../logic/steps/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { Fact } from '../../argument/facts.js'
import { isLongDenial, type Reason } from '../../argument/reason.js'
import { ascending } from '../../argument/sight.js'
import type { Names } from '../../names.js'
import { colourName } from './colours.js'
import { count, type EnglishTerms, englishTerms, list } from './terms.js'

/** What follows, in one sentence with its reason. */
export function englishConclusion(
  { effect, candidates, reason }: Extract<Fact, { kind: 'conclusion' }>,
  names: Names,
): string {
  const t = englishTerms(names)
  const head =
    effect === 'placed'
      ? `So ${list(candidates.map(({ cell, digit }) => `${t.cell(cell)} is ${t.digit(digit)}`))}`
      : `Cross out ${t.theCandidates(candidates)}`
  return `${head}: ${inShort(t, effect, candidates, reason) ?? why(t, effect, candidates, reason)}.`
}

/** What is shorter to say where the sentences before have named it. */
function inShort(
  t: EnglishTerms,
  effect: 'placed' | 'removed',
  subjects: readonly Candidate[],
  reason: Reason,
): string | undefined {
  const many = new Set(subjects.map(({ cell }) => cell)).size > 1
  switch (reason.kind) {
    case 'digits-used':
      return `${many ? 'they see' : 'it sees'} ${reason.cells.length === 2 ? 'both' : 'all'} these cells, which use up ${t.digits(reason.digits)}`
    case 'cell-reserved':
      return `these cells are kept for ${t.digits(reason.digits)}`
    case 'only-extra':
      return 'without it, there would be a second solution'
    case 'excluded-by-each':
      return new Set(reason.nodes.map(({ digit }) => digit)).size > 1 && reason.nodes.length > 2
        ? 'none of these leaves room for it'
        : undefined
    case 'leads-nowhere':
      return isLongDenial(reason) ? `${supposingIt(effect, subjects)}, ${lastOf(t, reason.end)}` : undefined
    case 'leaves-exchange':
      return isLongDenial(reason)
        ? `${supposingIt(effect, subjects)}, there would be a second solution`
        : undefined
    default:
      return undefined
  }
}

function supposingIt(effect: 'placed' | 'removed', subjects: readonly Candidate[]): string {
  return effect === 'placed' ? 'otherwise' : subjects.length > 1 ? 'with one of them' : 'with it'
}

function lastOf(t: EnglishTerms, end: Premise): string {
  return end.kind === 'cell'
    ? `${t.cell(end.cell)} would have no candidate left`
    : `${t.house(end.house)} would have no place left for its ${t.digit(end.digit)}`
}

/** One conclusion and why. */
export function englishReason(
  effect: 'placed' | 'removed',
  subject: Candidate,
  reason: Reason,
  names: Names,
): string {
  const t = englishTerms(names)
  const is = effect === 'placed' ? 'is' : 'is not'
  return `${t.cell(subject.cell)} ${is} ${t.digit(subject.digit)}: ${why(t, effect, [subject], reason)}.`
}

function why(
  t: EnglishTerms,
  effect: 'placed' | 'removed',
  subjects: readonly Candidate[],
  reason: Reason,
): string {
  const many = new Set(subjects.map(({ cell }) => cell)).size > 1
  const sees = many ? 'they see' : 'it sees'
  const supposing = supposingIt(effect, subjects)
  switch (reason.kind) {
    case 'taken-elsewhere':
      return `${t.house(reason.house)} has its ${t.digit(reason.digit)} in ${t.within(reason.house, reason.cells, 'or')}`
    case 'digits-used':
      return `${sees} ${t.cells(reason.cells)}, which use up ${t.digits(reason.digits)}`
    case 'cell-reserved':
      return `${t.cells(reason.cells)} are kept for ${t.digits(reason.digits)}`
    case 'covered':
      return covered(t, reason, sees, many)
    case 'excluded-by-each':
      return excludedByEach(t, reason.nodes, subjects, sees)
    case 'ends-differ':
      return `${sees} both ${t.cells(reason.cells)}, which take ${t.digits(reason.digits)}`
    case 'chain-denies':
      return `${supposing}, ${t.node(reason.end)}, and ${seeingAll('the two see each other', reason.end.cells, sees)}`
    case 'chain-returns':
      return 'supposing it false makes it true'
    case 'kept-here':
      return `the first set or the last has ${t.one(reason.digit)}, and both have it in this cell alone`
    case 'sees-both-colours':
      return `${sees} ${t.theCandidates([reason.one])} (${colourName(reason.one)}) and ${t.theCandidates([reason.other])} (${colourName(
        reason.other,
      )}), and one of these colours is true`
    case 'false-colour':
      return `${many ? 'they are' : 'it is'} ${colourName(reason)}, the false colour`
    case 'set-keeps':
      return reason.cells.length === 1
        ? `${sees} ${t.cells(reason.cells)}, which has to be ${t.digit(reason.digit)}`
        : `${sees} ${reason.cells.length === 2 ? 'both ' : ''}${t.cells(reason.cells)}, one of which has to be ${t.digit(reason.digit)}`
    case 'leaves-exchange':
      return `${supposing}, ${[...forced(t, reason.forced), 'only digits that can be exchanged would be left'].join(', then ')}`
    case 'leads-nowhere':
      return `${supposing}, ${[...forced(t, reason.forced), lastOf(t, reason.end)].join(', then ')}`
    case 'every-way-fails':
      return `${supposing}, every case for ${
        reason.refutation.premise.kind === 'cell'
          ? t.cell(reason.refutation.premise.cell)
          : `the ${t.digit(reason.refutation.premise.digit)} of ${t.house(reason.refutation.premise.house)}`
      } fails`
    case 'kept-by-some-set':
      return reason.cells.length === 1
        ? `${sees} ${t.cells(reason.cells)}, which is ${t.digit(reason.digit)} in every case`
        : `${sees} ${t.cells(reason.cells)}, and in every case one of these is ${t.digit(reason.digit)}`
    case 'starves':
      return `${supposing}, ${t.cells(reason.cells)} could not be filled`
    case 'not-in-pair':
      return `${t.cells(reason.cells)} take the same two digits, and neither can be ${t.digits(
        ascending(subjects.map(({ digit }) => digit)),
        'or',
      )}`
    case 'used-in-houses':
      return `in ${t.houses(reason.houses)} the cells counted have ${new Set(subjects.map(({ digit }) => digit)).size > 1 ? 'these digits' : 'this digit'} already`
    case 'only-extra':
      return 'it alone prevents a second solution'
    case 'supposition-fails':
      return effect === 'placed'
        ? 'without it, the puzzle cannot be finished'
        : `${supposing}, the puzzle cannot be finished`
    case 'in-every-case': {
      const all = reason.cases === 2 && !reason.someFail ? 'both cases' : 'every case'
      const it = subjects.length > 1 ? 'them' : 'it'
      const verb = effect === 'placed' ? 'lead' : 'rule'
      return `${all} ${verb}${all === 'both cases' ? '' : 's'} ${effect === 'placed' ? `to ${it}` : `${it} out`}${reason.someFail ? ' or fails' : ''}`
    }
    case 'premises-fail':
      return 'otherwise the facts above could not all hold at once'
    case 'only-choice':
      return 'there is no other choice'
    default:
      return reason satisfies never
  }
}

function covered(
  t: EnglishTerms,
  { digit, covers, base, fins, plain }: Extract<Reason, { kind: 'covered' }>,
  sees: string,
  many: boolean,
): string {
  const d = t.digit(digit)
  if (!plain) {
    const out = fins.length > 0 ? `rules out ${t.cells(fins)} and ` : ''
    return `${many ? 'any' : `the ${d}`} there ${out}takes up ${t.houses(covers, 'or')}, which leaves room for only ${count(base.length - 1)} of the ${count(base.length)} ${t.several(digit)}`
  }
  const lines = `${t.houses(covers)} ${covers.length === 1 ? 'gets its' : 'get their'} ${d} from ${t.houses(base)}`
  if (fins.length === 0) return lines
  return fins.length === 1
    ? `either ${t.cells(fins)} is ${d}, which ${sees}, or ${lines}`
    : `either one of ${t.cells(fins)} is ${d}, and ${sees} ${fins.length === 2 ? 'both' : 'them all'}, or ${lines}`
}

function excludedByEach(
  t: EnglishTerms,
  nodes: Extract<Reason, { kind: 'excluded-by-each' }>['nodes'],
  subjects: readonly Candidate[],
  sees: string,
): string {
  const digits = new Set(nodes.map(({ digit }) => digit))
  const cells = [...new Set(nodes.flatMap((node) => node.cells))]
  const isInside = subjects.some(({ cell }) => cells.includes(cell))
  if (digits.size === 1 && !isInside)
    return `${sees} ${cells.length === 2 ? 'both ' : ''}${t.cells(cells)}, ${cells.length === 1 ? 'which' : 'one of which'} is ${t.digit(nodes[0]!.digit)}`
  if (cells.length === 1)
    return `${t.cell(cells[0]!)} is ${t.digits(
      [...digits].sort((a, b) => a - b),
      'or',
    )}`
  const [one, other] = nodes
  if (nodes.length === 2 && new Set(subjects.map(({ cell }) => cell)).size === 1) {
    const [{ cell }] = subjects as readonly [Candidate]
    const isSeen = (node: ChainNode) => node.cells.length > 1 || node.cells[0] !== cell
    const half = (node: ChainNode) =>
      isSeen(node) ? `it sees the ${t.digit(node.digit)} in ${t.cells(node.cells, 'or')}` : t.node(node)
    return `either ${half(one!)}, or ${half(other!)}`
  }
  return nodes.length === 2
    ? `either ${t.node(one!)} or ${t.node(other!)}, and neither leaves room for them`
    : `one of these is true, and none leaves room for it: ${t.candidates(
        nodes.flatMap(({ digit, cells: own }) => own.map((cell) => ({ cell, digit }))),
        'or',
      )}`
}

function forced(t: EnglishTerms, steps: readonly Forced[]): string[] {
  return steps.map((step) => {
    if ('locked' in step) return `${t.cells(step.locked)} would take ${t.digits(step.digits)}`
    const { candidate, premise } = step
    return premise?.kind === 'house'
      ? `${t.house(premise.house)} would have its ${t.digit(candidate.digit)} in ${t.within(premise.house, [candidate.cell])}`
      : `${t.cell(candidate.cell)} would be ${t.digit(candidate.digit)}`
  })
}

/** That a candidate and the end of a chain exclude each other; an end of several cells is seen as a whole. */
function seeingAll(one: string, cells: readonly number[], sees: string): string {
  return cells.length === 1 ? one : `${sees} ${cells.length === 2 ? 'both' : 'all of them'}`
}
