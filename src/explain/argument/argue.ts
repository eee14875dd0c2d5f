import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import type { FoundStep, Pattern } from '../../logic/step.js'
import { argueCases, refutationFacts } from './argue-cases.js'
import { argueChain } from './argue-chains.js'
import { argueColouring } from './argue-colouring.js'
import { argueExchange } from './argue-exchange.js'
import { argueExocet } from './argue-exocet.js'
import { argueSets } from './argue-sets.js'
import { argueSingle } from './argue-singles.js'
import { argueWing } from './argue-wings.js'
import { excludeBy } from './exclusion.js'
import type { Fact } from './facts.js'
import { isPlainFish, sharedPlaces } from './fish.js'
import type { Reason, Why } from './reason.js'
import { reasonsFor } from './reasons.js'

/** The facts that make a step's case, in the order in which they are said, each conclusion with its reason last. */
export function argue(step: FoundStep, reasons: readonly Why[] = reasonsFor(step)): Fact[] {
  if (step.pattern.shape === 'single') return argueSingle(step, step.pattern)
  const fails = reasons.some(({ reason }) => reason.kind === 'premises-fail')
  const facts = fails ? premiseFacts(step) : argueShape(step, step.pattern, reasons)
  facts.push(
    ...gathered(step, reasons).flatMap((conclusion) => [...denialFacts(step, conclusion), conclusion]),
  )
  if (step.assumes === 'one-solution') facts.push({ kind: 'assumes-one-solution' })
  return facts
}

/** A step that is no proof still has its premises. */
function premiseFacts(step: FoundStep): Fact[] {
  return [
    ...step.premises.map((premise): Fact => ({ kind: 'premise', premise })),
    { kind: 'cannot-all-hold' },
  ]
}

function argueShape(step: FoundStep, pattern: Pattern, reasons: readonly Why[]): Fact[] {
  switch (pattern.shape) {
    case 'single':
      return argueSingle(step, pattern)
    case 'locked': {
      const { digit, from, to, cells } = pattern
      return [{ kind: 'confined', digit, house: from, cells, into: to }]
    }
    case 'subset': {
      const { hidden, house, cells, digits } = pattern
      return [{ kind: hidden ? 'hidden-subset' : 'naked-subset', house, cells, digits }]
    }
    case 'fish': {
      const { digit, base, cover, fins, cells } = pattern
      const plain = isPlainFish(step, pattern)
      const places = cells.filter((cell) => !fins.includes(cell) && hasCandidate(step.before, cell, digit))
      const shared = plain ? [] : sharedPlaces(step, pattern)
      return [{ kind: 'fish', digit, base, cover, fins, plain, places, shared }]
    }
    case 'wing':
      return argueWing(step, pattern)
    case 'chain':
      return argueChain(step, pattern)
    case 'colouring':
      return argueColouring(step, pattern, reasons)
    case 'sets':
      return argueSets(step, pattern)
    case 'exchange':
      return argueExchange(step, pattern, reasons)
    case 'exocet':
      return argueExocet(step, pattern)
    case 'sectors':
      return [{ kind: 'sector-count', cells: pattern.cells, houses: pattern.houses }]
    // explained by what follows from denying each conclusion
    case 'exclusion':
    case 'premises':
      return []
    case 'cases':
      return argueCases(step, pattern.tree)
    default:
      return pattern satisfies never
  }
}

type Conclusion = Extract<Fact, { kind: 'conclusion' }>

/** Where a conclusion is proven by denying it, the way from there. */
function denialFacts(step: FoundStep, { candidates, effect, reason }: Conclusion): Fact[] {
  const candidate = candidates[0]!
  const supposed: Fact =
    effect === 'removed' ? { kind: 'suppose', candidates } : { kind: 'suppose-not', candidate }
  if (reason.kind === 'starves') return [supposed, ...(excludeBy(step, candidate)?.facts ?? [])]
  if (reason.kind === 'every-way-fails') return [supposed, ...refutationFacts(reason.refutation)]
  return []
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
  return [...groups.values()].map((group) => ({ kind: 'conclusion', ...group }))
}

function keyOf(step: FoundStep, candidate: Candidate, reason: Reason): string {
  switch (reason.kind) {
    case 'covered':
      return `${reason.kind} ${reason.fins.join()}`
    case 'starves':
      return JSON.stringify([candidate.digit, excludeBy(step, candidate)?.facts])
    default:
      return JSON.stringify(reason)
  }
}

function joined(one: Reason, other: Reason): Reason {
  if (one.kind !== 'covered' || other.kind !== 'covered') return one
  return { ...one, covers: [...new Set([...one.covers, ...other.covers])].sort((a, b) => a - b) }
}
