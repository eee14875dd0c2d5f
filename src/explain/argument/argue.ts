import { hasCandidate } from '../../grid/board/ask.js'
import { digitsOf } from '../../grid/digits.js'
import type { ChainNode, Excluded, FoundStep, Pattern } from '../../logic/step.js'
import { argueCases, argueChain, argueColouring } from './argue-chains.js'
import { argueSingle } from './argue-singles.js'
import type { Fact } from './facts.js'

/** The facts that make a step's case, in the order in which they are said, with the conclusion last. */
export function argue(step: FoundStep): Fact[] {
  const facts = argueShape(step, step.pattern) ?? arguePremises(step)
  if (step.assumes === 'one-solution') facts.push({ kind: 'assumes-one-solution' })
  if (step.placements.length > 0) facts.push({ kind: 'placed', placements: step.placements })
  if (step.removals.length > 0) facts.push({ kind: 'removed', removals: step.removals })
  return facts
}

/** Any step can be explained by its premises: they hold, and with the conclusion denied they cannot all hold. */
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
      return argueChain(step, pattern)
    case 'colouring':
      return argueColouring(step, pattern)
    case 'sets':
      return argueSets(step, pattern)
    case 'exchange': {
      const facts: Fact[] = [
        {
          kind: 'exchange',
          cells: pattern.cells,
          digits: pattern.digits,
          pairwise: pattern.digits.length > 2 && isPairwise(step, pattern),
        },
      ]
      if (pattern.extras.length > 0) facts.push({ kind: 'extras', extras: pattern.extras })
      return facts
    }
    case 'exclusion':
      return argueExclusion(pattern)
    case 'exocet': {
      const { base, targets, digits, lines } = pattern
      return [
        { kind: 'exocet-base', base, digits },
        { kind: 'exocet-lines', targets, lines },
        { kind: 'exocet-targets', base, targets },
      ]
    }
    case 'sectors':
      return [{ kind: 'sector-count', cells: pattern.cells, houses: pattern.houses }]
    case 'premises':
      return undefined
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

/** The ways that fail for the same reason are named together. */
function argueExclusion({ cells, excluded }: Extract<Pattern, { shape: 'exclusion' }>): Fact[] {
  const byReason = new Map<string, Excluded[]>()
  for (const one of excluded) {
    const key = one.by.join()
    byReason.set(key, [...(byReason.get(key) ?? []), one])
  }
  return [
    ...[...byReason.values()].map(
      (same): Fact => ({
        kind: 'not-together',
        by: same[0]!.by,
        ways: same.map(({ candidates }) => candidates),
      }),
    ),
    { kind: 'goes-with-none', cells },
  ]
}

/** Where a wing's shared digit must be: in those of its cells that have it. */
export function wingEnds(step: FoundStep, pattern: Extract<Pattern, { shape: 'wing' }>): ChainNode[] {
  const { pivot, pincers, digit } = pattern
  const cells = [pivot, ...pincers].filter((cell) => hasCandidate(step.before, cell, digit))
  return cells.map((cell) => ({ digit, cells: [cell] }))
}

function argueWing(step: FoundStep, pattern: Extract<Pattern, { shape: 'wing' }>): Fact[] {
  const { pivot, pincers, digit } = pattern
  const digitsIn = (cell: number) => digitsOf(step.before.candidates[cell]!)
  const ofPivot = digitsIn(pivot)
  // Pincers with one digit as well as the shared one are explained one by one; larger wings are counted.
  const simple = pincers.every((cell) => {
    const digits = digitsIn(cell)
    return digits.length === 2 && digits.includes(digit)
  })
  if (!simple) {
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
  if (pattern.stem !== undefined) facts.push(...petals(step, pattern, pattern.stem))
  for (const digit of new Set(step.removals.map((removal) => removal.digit))) {
    const nodes = setEnds(step, pattern, digit)
    if (nodes) facts.push({ kind: 'one-of', nodes })
  }
  return facts
}

/** Set number i loses the stem's i-th digit, where there is a set for each. */
function petals(step: FoundStep, pattern: Extract<Pattern, { shape: 'sets' }>, stem: number): Fact[] {
  const digits = digitsOf(step.before.candidates[stem]!).filter((digit) =>
    pattern.sets.some((set) => set.digits.includes(digit)),
  )
  if (digits.length !== pattern.sets.length) return []
  const keeps = [...new Set(step.removals.map((removal) => removal.digit))]
  return digits.map((digit, index) => ({ kind: 'petal', stem, digit, index, keeps }))
}

/** The places of a digit in a group of cells. */
export function placesIn(step: FoundStep, cells: readonly number[], digit: number): ChainNode {
  return { digit, cells: cells.filter((cell) => hasCandidate(step.before, cell, digit)) }
}

/**
 * In a row of sets, each joined to the next by a digit of its own, one of the two end sets keeps any digit that joins
 * nothing. The places of such a digit in the two ends, or `undefined` for sets that are no such row.
 */
export function setEnds(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'sets' }>,
  digit: number,
): readonly [ChainNode, ChainNode] | undefined {
  const { sets, joins, stem } = pattern
  if (stem !== undefined || joins.length !== sets.length - 1) return undefined
  const joinsOf = sets.map((_, i) => joins.filter(({ between }) => between.includes(i)))
  const ends = sets.flatMap((_, i) => (joinsOf[i]!.length === 1 ? [i] : []))
  const inARow =
    ends.length === 2 && joinsOf.every((own) => new Set(own.map((join) => join.digit)).size === own.length)
  if (!inARow || ends.some((i) => joinsOf[i]!.some((join) => join.digit === digit))) return undefined
  const [first, last] = ends.map((i) => placesIn(step, sets[i]!.cells, digit))
  return first!.cells.length > 0 && last!.cells.length > 0 ? [first!, last!] : undefined
}

/** Without its extra candidates, has every cell of the pattern two candidates? */
function isPairwise(step: FoundStep, pattern: Extract<Pattern, { shape: 'exchange' }>): boolean {
  return pattern.cells.every((cell) => {
    const extras = pattern.extras.filter((extra) => extra.cell === cell)
    return digitsOf(step.before.candidates[cell]!).length - extras.length === 2
  })
}
