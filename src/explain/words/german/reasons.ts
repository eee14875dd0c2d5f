import type { Candidate } from '../../../grid/board.js'
import type { ChainNode, Premise } from '../../../logic/steps/step.js'
import type { Forced } from '../../argument/consequence.js'
import type { Fact } from '../../argument/facts.js'
import { isLongDenial, type Reason } from '../../argument/reason.js'
import { ascending } from '../../argument/sight.js'
import type { Names } from '../../names.js'
import { colourName } from './colours.js'
import { capital, count, type GermanTerms, germanTerms, list } from './terms.js'

/** What follows, in one sentence with its reason. */
export function germanConclusion(
  { effect, candidates, reason }: Extract<Fact, { kind: 'conclusion' }>,
  names: Names,
): string {
  const t = germanTerms(names)
  const head =
    effect === 'placed'
      ? `Also ${list(candidates.map(({ cell, digit }) => `steht in ${t.cell(cell)} die ${t.digit(digit)}`))}`
      : `Streiche ${t.theCandidates(candidates)}`
  return `${head}: ${capital(inShort(t, effect, candidates, reason) ?? why(t, effect, candidates, reason))}.`
}

/** What is shorter to say where the sentences before have named it. */
function inShort(
  t: GermanTerms,
  effect: 'placed' | 'removed',
  subjects: readonly Candidate[],
  reason: Reason,
): string | undefined {
  const many = new Set(subjects.map(({ cell }) => cell)).size > 1
  switch (reason.kind) {
    case 'digits-used':
      return `${many ? 'sie sehen' : 'sie sieht'} ${reason.cells.length === 2 ? 'beide Zellen' : 'alle diese Zellen'}, die ${t.digits(reason.digits)} verbrauchen`
    case 'cell-reserved':
      return `diese Zellen sind für ${t.digits(reason.digits)} reserviert`
    case 'only-extra':
      return 'ohne sie gäbe es eine zweite Lösung'
    case 'excluded-by-each':
      return new Set(reason.nodes.map(({ digit }) => digit)).size > 1 && reason.nodes.length > 2
        ? 'keine davon lässt Platz dafür'
        : undefined
    case 'leads-nowhere':
      return isLongDenial(reason) ? `${supposingIt(effect, subjects)} ${lastOf(t, reason.end)}` : undefined
    case 'leaves-exchange':
      return isLongDenial(reason) ? `${supposingIt(effect, subjects)} gäbe es eine zweite Lösung` : undefined
    default:
      return undefined
  }
}

function supposingIt(effect: 'placed' | 'removed', subjects: readonly Candidate[]): string {
  return effect === 'placed' ? 'sonst' : subjects.length > 1 ? 'mit einer davon' : 'damit'
}

function lastOf(t: GermanTerms, end: Premise): string {
  return end.kind === 'cell'
    ? `hat ${t.cell(end.cell)} keinen Kandidaten mehr`
    : `hat ${t.house(end.house)} keinen Platz mehr für ${t.its(end.house)} ${t.digit(end.digit)}`
}

/** One conclusion and why. */
export function germanReason(
  effect: 'placed' | 'removed',
  subject: Candidate,
  reason: Reason,
  names: Names,
): string {
  const t = germanTerms(names)
  const is = effect === 'placed' ? 'ist' : 'ist nicht'
  return `${capital(t.cell(subject.cell))} ${is} ${t.digit(subject.digit)}: ${capital(why(t, effect, [subject], reason))}.`
}

function why(
  t: GermanTerms,
  effect: 'placed' | 'removed',
  subjects: readonly Candidate[],
  reason: Reason,
): string {
  const many = new Set(subjects.map(({ cell }) => cell)).size > 1
  const sees = many ? 'die Zellen sehen' : 'die Zelle sieht'
  const supposing = supposingIt(effect, subjects)
  switch (reason.kind) {
    case 'taken-elsewhere':
      return `${t.house(reason.house)} hat ${t.its(reason.house)} ${t.digit(reason.digit)} in ${t.within(reason.house, reason.cells, 'oder')}`
    case 'digits-used':
      return `${sees} ${t.cells(reason.cells)}, die ${t.digits(reason.digits)} verbrauchen`
    case 'cell-reserved':
      return `${t.cells(reason.cells)} sind für ${t.digits(reason.digits)} reserviert`
    case 'covered':
      return covered(t, reason, many)
    case 'excluded-by-each':
      return excludedByEach(t, reason.nodes, subjects, sees)
    case 'ends-differ':
      return `${sees} ${t.cells(reason.cells)}, und die nehmen ${t.digits(reason.digits)}`
    case 'chain-denies':
      return `${supposing} gälte auch: ${t.node(reason.end)}, und ${seeingAll('die beiden sehen einander', reason.end.cells, sees)}`
    case 'chain-returns':
      return 'aus der Annahme, es sei falsch, folgt, dass es wahr ist'
    case 'kept-here':
      return `die erste oder die letzte Menge hat eine ${t.digit(reason.digit)}, und beide haben sie nur in dieser Zelle`
    case 'sees-both-colours':
      return `${sees} ${t.theCandidates([reason.one])} (${colourName(reason.one)}) und ${t.theCandidates([reason.other])} (${colourName(
        reason.other,
      )}), und eine dieser Farben stimmt`
    case 'false-colour':
      return `${subjects.length > 1 ? 'sie sind' : 'sie ist'} ${colourName(reason)}, und diese Farbe ist falsch`
    case 'set-keeps':
      return reason.cells.length === 1
        ? `${sees} ${t.cells(reason.cells)}, und dort muss ${t.digit(reason.digit)} stehen`
        : `${sees} ${t.cells(reason.cells)}, und eine davon muss ${t.digit(reason.digit)} sein`
    case 'leaves-exchange':
      return `${supposing} ${[...forced(t, reason.forced), 'bleiben nur vertauschbare Ziffern übrig'].join(', dann ')}`
    case 'leads-nowhere':
      return `${supposing} ${[...forced(t, reason.forced), lastOf(t, reason.end)].join(', dann ')}`
    case 'every-way-fails': {
      const { premise } = reason.refutation
      const what =
        premise.kind === 'cell'
          ? t.cell(premise.cell)
          : `die ${t.digit(premise.digit)} in ${t.house(premise.house)}`
      return `${supposing} scheitert jeder Fall für ${what}`
    }
    case 'kept-by-some-set':
      return reason.cells.length === 1
        ? `${sees} ${t.cells(reason.cells)}, und die ist in jedem Fall ${t.digit(reason.digit)}`
        : `${sees} ${t.cells(reason.cells)}, und in jedem Fall ist eine davon ${t.digit(reason.digit)}`
    case 'starves':
      return `${supposing} ${reason.cells.length === 1 ? 'ließe' : 'ließen'} sich ${t.cells(reason.cells)} nicht füllen`
    case 'not-in-pair':
      return `${t.cells(reason.cells)} nehmen dieselben zwei Ziffern, und keine von beiden kann ${t.digits(
        ascending(subjects.map(({ digit }) => digit)),
        'oder',
      )} sein`
    case 'used-in-houses':
      return `in ${t.toHouses(reason.houses)} haben die gezählten Zellen ${new Set(subjects.map(({ digit }) => digit)).size > 1 ? 'diese Ziffern' : 'diese Ziffer'} schon`
    case 'only-extra':
      return 'nur sie verhindert eine zweite Lösung'
    case 'supposition-fails':
      return effect === 'placed'
        ? 'ohne sie lässt sich das Rätsel nicht beenden'
        : `${supposing} lässt sich das Rätsel nicht beenden`
    case 'in-every-case':
      if (effect === 'placed') return `jeder Fall führt dahin${reason.someFail ? ' oder scheitert' : ''}`
      return reason.cases === 2 && !reason.someFail
        ? 'beide Fälle schließen sie aus'
        : `jeder Fall schließt sie aus${reason.someFail ? ' oder scheitert' : ''}`
    case 'premises-fail':
      return 'sonst könnte das Genannte nicht alles zugleich gelten'
    case 'only-choice':
      return 'etwas anderes bleibt nicht'
    default:
      return reason satisfies never
  }
}

function covered(
  t: GermanTerms,
  { digit, covers, base, fins, plain }: Extract<Reason, { kind: 'covered' }>,
  many: boolean,
): string {
  const d = t.digit(digit)
  if (!plain) {
    const out = fins.length > 0 ? ` schließt ${t.cells(fins)} aus und` : ''
    const left = base.length - 1
    return `eine ${d} dort${out} belegt ${covers.length === 1 ? t.house(covers[0]!) : t.anyHouse(covers)}, und dann ist nur noch für ${count(left)} der ${count(base.length)} Platz`
  }
  const lines =
    covers.length === 1
      ? `${t.house(covers[0]!)} bekommt ${t.its(covers[0]!)} ${d} aus ${t.toHouses(base)}`
      : `${t.houses(covers)} bekommen ihre ${d} aus ${t.toHouses(base)}`
  if (fins.length === 0) return lines
  const seen = many ? 'die Zellen sehen' : 'die Zelle sieht'
  return fins.length === 1
    ? `entweder steht in ${t.cells(fins)} die ${d}, und ${seen} sie, oder ${lines}`
    : `entweder ist eine von ${t.cells(fins)} die ${d}, und ${seen} alle, oder ${lines}`
}

function excludedByEach(
  t: GermanTerms,
  nodes: Extract<Reason, { kind: 'excluded-by-each' }>['nodes'],
  subjects: readonly Candidate[],
  sees: string,
): string {
  const digits = new Set(nodes.map(({ digit }) => digit))
  const cells = [...new Set(nodes.flatMap((node) => node.cells))]
  const isInside = subjects.some(({ cell }) => cells.includes(cell))
  if (digits.size === 1 && !isInside)
    return `${sees} ${t.cells(cells)}, und ${cells.length === 1 ? 'die' : 'eine davon'} ist ${t.digit(nodes[0]!.digit)}`
  if (cells.length === 1)
    return `${t.cell(cells[0]!)} ist ${t.digits(
      [...digits].sort((a, b) => a - b),
      'oder',
    )}`
  const [one, other] = nodes
  if (nodes.length === 2 && new Set(subjects.map(({ cell }) => cell)).size === 1) {
    const [{ cell }] = subjects as readonly [Candidate]
    const isSeen = (node: ChainNode) => node.cells.length > 1 || node.cells[0] !== cell
    const half = (node: ChainNode) =>
      isSeen(node)
        ? `sie sieht die ${t.digit(node.digit)} in ${t.cells(node.cells, 'oder')}`
        : `in ${t.cell(cell)} steht die ${t.digit(node.digit)}`
    return `entweder ${half(one!)}, oder ${half(other!)}`
  }
  return nodes.length === 2
    ? `entweder gilt: ${t.node(one!)}, oder: ${t.node(other!)}, und keines von beiden lässt Platz dafür`
    : `eines davon ist wahr, und keines lässt Platz dafür: ${t.candidates(
        nodes.flatMap(({ digit, cells: own }) => own.map((cell) => ({ cell, digit }))),
        'oder',
      )}`
}

/** What is forced, each with its verb ahead. */
function forced(t: GermanTerms, steps: readonly Forced[]): string[] {
  return steps.map((step) => {
    if ('locked' in step) return `nehmen ${t.cells(step.locked)} ${t.digits(step.digits)}`
    const { candidate, premise } = step
    return premise?.kind === 'house'
      ? `hat ${t.house(premise.house)} ${t.its(premise.house)} ${t.digit(candidate.digit)} in ${t.within(premise.house, [candidate.cell], 'oder')}`
      : `steht in ${t.cell(candidate.cell)} die ${t.digit(candidate.digit)}`
  })
}

/** That a candidate and the end of a chain exclude each other; an end of several cells is seen as a whole. */
function seeingAll(one: string, cells: readonly number[], sees: string): string {
  return cells.length === 1 ? one : `${sees} ${cells.length === 2 ? 'beide' : 'alle davon'}`
}
