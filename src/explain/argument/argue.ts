import { digitsOf } from '../../grid/digits.js'
import type { ChainNode, FoundStep, Pattern } from '../../logic/step.js'
import { argueCases, argueChain, argueColouring } from './argue-chains.js'
import { argueSingle } from './argue-singles.js'
import type { Fact } from './facts.js'

/** The facts that make a step's case, in the order in which they are told, with the conclusion last. */
export function argue(step: FoundStep): Fact[] {
  const facts = argueShape(step, step.pattern) ?? arguePremises(step)
  if (step.assumes === 'one-solution') facts.push({ kind: 'assumes-one-solution' })
  if (step.placements.length > 0) facts.push({ kind: 'placed', placements: step.placements })
  if (step.removals.length > 0) facts.push({ kind: 'removed', removals: step.removals })
  return facts
}

/** Any step can be told from its premises: they hold, and with the conclusion denied they cannot all hold. */
export function arguePremises(step: FoundStep): Fact[] {
  return [
    ...step.premises.map((premise): Fact => ({ kind: 'premise', premise })),
    { kind: 'cannot-all-hold' },
  ]
}

function argueShape(step: FoundStep, pattern: Pattern): Fact[] | undefined {
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
    case 'fish':
      return argueFish(pattern)
    case 'wing':
      return argueWing(step, pattern)
    case 'chain':
      return argueChain(pattern)
    case 'colouring':
      return argueColouring(step, pattern)
    case 'sets':
      return argueSets(step, pattern)
    case 'exchange': {
      const facts: Fact[] = [{ kind: 'exchange', cells: pattern.cells, digits: pattern.digits }]
      if (pattern.extras.length > 0) facts.push({ kind: 'extras', extras: pattern.extras })
      return facts
    }
    case 'houses':
      return [
        ...pattern.base.map(({ cells, digits }): Fact => ({ kind: 'base-group', cells, digits })),
        ...pattern.houses.map(({ house, digits }): Fact => ({ kind: 'tied-house', house, digits })),
        { kind: 'cannot-all-hold' },
      ]
    case 'cases':
      return argueCases(pattern.tree)
    default:
      return pattern satisfies never
  }
}

function argueFish(pattern: Extract<Pattern, { shape: 'fish' }>): Fact[] {
  const { digit, base, cover, fins } = pattern
  const facts: Fact[] = [{ kind: 'fish', digit, base, cover, fins }]
  if (fins.length > 0) facts.push({ kind: 'fish-fins', digit, fins })
  return facts
}

/** Where a wing's shared digit must be: in those of its cells that have it. */
export function wingEnds(step: FoundStep, pattern: Extract<Pattern, { shape: 'wing' }>): ChainNode[] {
  const { pivot, pincers, digit } = pattern
  const cells = [pivot, ...pincers].filter((cell) => step.before.hasCandidate(cell, digit))
  return cells.map((cell) => ({ digit, cells: [cell] }))
}

function argueWing(step: FoundStep, pattern: Extract<Pattern, { shape: 'wing' }>): Fact[] {
  const { pivot, pincers, digit } = pattern
  const digitsIn = (cell: number) => digitsOf(step.before.candidates[cell]!)
  const ofPivot = digitsIn(pivot)
  const told = pincers.every((cell) => digitsIn(cell).length === 2)
  if (!told) {
    const cells = [pivot, ...pincers]
    const digits = digitsOf(cells.reduce((set, cell) => set | step.before.candidates[cell]!, 0))
    return [
      { kind: 'wing-count', cells, digits, once: digits.filter((d) => d !== digit) },
      { kind: 'one-of', nodes: wingEnds(step, pattern) },
    ]
  }
  return [
    { kind: 'pivot', cell: pivot, digits: ofPivot },
    ...pincers.map(
      (cell): Fact => ({
        kind: 'pincer',
        pivot,
        cell,
        when: digitsIn(cell).filter((d) => d !== digit && ofPivot.includes(d)),
        gives: digit,
      }),
    ),
    { kind: 'one-of', nodes: wingEnds(step, pattern) },
  ]
}

function argueSets(step: FoundStep, pattern: Extract<Pattern, { shape: 'sets' }>): Fact[] {
  const facts: Fact[] = []
  if (pattern.stem !== undefined) {
    const digits = digitsOf(step.before.candidates[pattern.stem]!)
    facts.push({ kind: 'stem', cell: pattern.stem, digits })
  }
  pattern.sets.forEach(({ cells, digits }, index) => {
    facts.push({ kind: 'set', index, cells, digits })
  })
  for (const { digit, between } of pattern.joins) facts.push({ kind: 'join', digit, between })
  return facts
}
