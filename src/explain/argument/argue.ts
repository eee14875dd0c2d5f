import type { Candidate } from '../../grid/board.js'
import type { FoundStep } from '../../logic/steps/step.js'
import { shapeFacts } from '../shapes/shapes.js'
import { refutationFacts } from './argue-cases.js'
import { excludeBy } from './exclusion.js'
import type { Fact, Starved } from './facts.js'
import { isLongDenial, type Reason, type Why } from './reason.js'
import { reasonsFor } from './reasons.js'
import { ascending } from './sight.js'

/** The facts that make a step's case, in the order in which they are said, each conclusion with its reason last. */
export function argue(step: FoundStep, reasons: readonly Why[] = reasonsFor(step)): Fact[] {
  // the facts of a single say what it concludes
  if (step.pattern.shape === 'single') return shapeFacts(step, reasons)
  const fails = reasons.some(({ reason }) => reason.kind === 'premises-fail')
  const shape = fails ? premiseFacts(step) : shapeFacts(step, reasons)
  const facts: Fact[] = isFarAhead(step, shape)
    ? [{ kind: 'watch', candidates: step.removals }, ...shape]
    : shape
  facts.push(
    ...withoutRepeats(
      gathered(step, reasons).flatMap((conclusion) => [...denialFacts(step, conclusion), conclusion]),
    ),
  )
  if (step.assumes === 'one-solution') facts.push({ kind: 'assumes-one-solution' })
  return facts
}

/** As many cells as can be kept in mind during an argument. */
const MOST_WATCHED = 3

/** Does a listener have to wait for what it is all about, and is that one digit in a few cells? */
function isFarAhead({ placements, removals }: FoundStep, shape: readonly Fact[]): boolean {
  const [first] = shape
  const isLong =
    shape.length >= 3 &&
    ((first?.kind === 'chain-start' && shape.every(({ kind }) => kind !== 'loop')) ||
      (first?.kind === 'sets' && shape[1]?.kind === 'set-needs') ||
      first?.kind === 'stem' ||
      first?.kind === 'split')
  const isOne = new Set(removals.map(({ digit }) => digit)).size === 1 && removals.length <= MOST_WATCHED
  return isLong && isOne && placements.length === 0
}

/** A step that is no proof still has its premises. */
function premiseFacts(step: FoundStep): Fact[] {
  return [
    ...step.premises.map((premise): Fact => ({ kind: 'premise', premise })),
    { kind: 'cannot-all-hold' },
  ]
}

type Conclusion = Extract<Fact, { kind: 'conclusion' }>

/** Where a conclusion is proven by denying it, the way from there. */
function denialFacts(step: FoundStep, { candidates, effect, reason }: Conclusion): Fact[] {
  const candidate = candidates[0]!
  const supposed: Fact =
    effect === 'removed' ? { kind: 'suppose', candidates } : { kind: 'suppose-not', candidate }
  if (reason.kind === 'starves') return [supposed, ...(excludeBy(step, candidate)?.facts ?? [])]
  if (reason.kind === 'every-way-fails') return [supposed, ...refutationFacts(reason.refutation)]
  if (isLongDenial(reason)) {
    const end = reason.kind === 'leads-nowhere' ? reason.end : 'exchange'
    return [supposed, { kind: 'follows', forced: reason.forced, end }]
  }
  return []
}

/** Cells that are named as having too little left: with their digits when they come up first. */
function withoutRepeats(facts: readonly Fact[]): Fact[] {
  const named = new Set<string>()
  const once = (by: Starved | undefined): Starved | undefined => {
    if (!by) return undefined
    const isNamed = named.has(by.cells.join())
    named.add(by.cells.join())
    return { ...by, isNamed }
  }
  return facts.map((fact) => {
    if (fact.kind === 'takes')
      return { ...fact, ways: fact.ways.map((way) => ({ ...way, by: once(way.by) })) }
    if (fact.kind === 'pairs-fail')
      return { ...fact, ways: fact.ways.map((way) => ({ ...way, by: once(way.by) })) }
    return fact
  })
}

/** Conclusions for the same reason are said together. */
function gathered(step: FoundStep, reasons: readonly Why[]): Conclusion[] {
  const groups = new Map<string, { effect: Why['effect']; reason: Reason; candidates: Candidate[] }>()
  for (const { effect, cell, digit, reason } of reasons) {
    const key = `${effect} ${keyOf(step, { cell, digit }, reason)}`
    const group = groups.get(key)
    if (!group) {
      groups.set(key, { effect, reason, candidates: [{ cell, digit }] })
      continue
    }
    group.candidates.push({ cell, digit })
    group.reason = joined(group.reason, reason)
  }
  // what the count itself says comes before what follows from it
  return [...groups.values()]
    .sort((a, b) => Number(b.reason.kind === 'used-in-houses') - Number(a.reason.kind === 'used-in-houses'))
    .map((group) => ({ kind: 'conclusion', ...group }))
}

function keyOf(step: FoundStep, candidate: Candidate, reason: Reason): string {
  switch (reason.kind) {
    case 'covered':
      return `${reason.kind} ${reason.digit} ${reason.base.join()} ${reason.fins.join()}`
    case 'used-in-houses':
      return reason.kind
    case 'excluded-by-each': {
      // with different digits each cell is ruled out in its own way
      const isOne = new Set(reason.nodes.map(({ digit }) => digit)).size === 1
      return `${JSON.stringify(reason)} ${isOne ? '' : candidate.cell}`
    }
    case 'not-in-pair':
      return `${reason.kind} ${reason.cells.join()}`
    case 'starves':
      return JSON.stringify([candidate.digit, excludeBy(step, candidate)?.facts])
    default:
      return JSON.stringify(reason)
  }
}

function joined(one: Reason, other: Reason): Reason {
  if (one.kind === 'covered' && other.kind === 'covered')
    return { ...one, covers: ascending([...one.covers, ...other.covers]) }
  if (one.kind === 'used-in-houses' && other.kind === 'used-in-houses')
    return { ...one, houses: ascending([...one.houses, ...other.houses]) }
  return one
}
