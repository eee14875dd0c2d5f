import { digitsOf } from '../../grid/digits.js'
import type { CellGroup, ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'
import { ascending, houseOf, placesIn, rulesOut } from './sight.js'

type Sets = Extract<Pattern, { shape: 'sets' }>

/** Sets in a row, in a ring, on a stem, or where two houses cross. */
export function argueSets(step: FoundStep, pattern: Sets): Fact[] {
  if (pattern.stem !== undefined) return argueBlossom(step, pattern, pattern.stem)
  const crossing = crossingCount(step, pattern)
  if (crossing) return [crossing]
  const { sets, joins } = pattern
  const facts: Fact[] = [{ kind: 'sets', sets }]
  if (isRing(pattern)) return [...facts, { kind: 'set-ring', joins }]
  for (const digit of ascending([...step.removals, ...step.placements].map((candidate) => candidate.digit))) {
    if (!setEnds(step, pattern, digit)) continue
    const order = rowOf(pattern)
    order.forEach((index, i) => {
      const join = joins.find(({ between }) => between.includes(index) && between.includes(order[i + 1]!))
      const before = facts[facts.length - 1]!
      const lacks = i > 0 && before.kind === 'set-needs' ? before.needs : digit
      facts.push({ kind: 'set-needs', index, lacks, from: order[i - 1], needs: join?.digit ?? digit })
    })
  }
  return facts
}

/** The sets of a row from one end to the other. */
function rowOf({ sets, joins }: Sets): number[] {
  const neighboursOf = (index: number) =>
    joins.flatMap(({ between }) =>
      between.includes(index) ? between.filter((other) => other !== index) : [],
    )
  const order = [sets.findIndex((_, index) => neighboursOf(index).length === 1)]
  for (let next: number | undefined = order[0]; next !== undefined; ) {
    next = neighboursOf(next).find((other) => !order.includes(other))
    if (next !== undefined) order.push(next)
  }
  return order
}

/** Joined in a ring, each set loses one of its two joining digits to a neighbour and is locked on all its others. */
export function isRing({ sets, joins, stem }: Sets): boolean {
  if (stem !== undefined || joins.length !== sets.length) return false
  return (
    sets.every((_, i) => joins.filter(({ between }) => between.includes(i)).length === 2) &&
    sets.every(({ cells, digits }) => digits.length === cells.length + 1)
  )
}

/**
 * In a row of sets, each joined to the next by a digit of its own, one of the two end sets keeps any digit that joins
 * nothing. The places of such a digit in the two ends, or `undefined` for sets that are no such row.
 */
export function setEnds(
  step: FoundStep,
  { sets, joins, stem }: Sets,
  digit: number,
): readonly [ChainNode, ChainNode] | undefined {
  if (stem !== undefined || joins.length !== sets.length - 1) return undefined
  const joinsOf = sets.map((_, i) => joins.filter(({ between }) => between.includes(i)))
  const ends = sets.flatMap((_, i) => (joinsOf[i]!.length === 1 ? [i] : []))
  const inARow =
    ends.length === 2 && joinsOf.every((own) => new Set(own.map((join) => join.digit)).size === own.length)
  if (!inARow || ends.some((i) => joinsOf[i]!.some((join) => join.digit === digit))) return undefined
  const [first, last] = ends.map((i) => placesIn(step, sets[i]!.cells, digit))
  return first!.cells.length > 0 && last!.cells.length > 0 ? [first!, last!] : undefined
}

/**
 * The count behind cells of two crossing houses, or `undefined` where the sets are no such cells or it does not come
 * out even.
 */
export function crossingCount(
  { before: { geometry } }: FoundStep,
  { sets, joins, stem }: Sets,
): Extract<Fact, { kind: 'crossing-count' }> | undefined {
  const [crossing, one, other] = sets
  if (sets.length !== 3 || stem !== undefined || joins.some(({ between }) => !between.includes(0)))
    return undefined
  const houses = [one!, other!].map(({ cells }) => houseOf(geometry, [...crossing!.cells, ...cells]))
  const [first, second] = houses
  if (first === undefined || second === undefined) return undefined
  const twice = one!.digits.filter((digit) => other!.digits.includes(digit))
  const all = ascending(sets.flatMap(({ digits }) => digits))
  if (all.length + twice.length !== sets.flatMap(({ cells }) => cells).length) return undefined
  return {
    kind: 'crossing-count',
    crossing: crossing!.cells,
    sides: [
      { cells: one!.cells, house: first },
      { cells: other!.cells, house: second },
    ],
    once: all.filter((digit) => !twice.includes(digit)),
    twice,
  }
}

function argueBlossom(step: FoundStep, { sets }: Sets, stem: number): Fact[] {
  const digits = digitsOf(step.before.candidates[stem]!)
  const keeps = ascending(step.removals.map(({ digit }) => digit))
  const facts: Fact[] = [{ kind: 'stem', cell: stem, digits }]
  for (const digit of digits) {
    const index = petalOf(step, sets, stem, digit, keeps)
    if (index < 0) continue
    facts.push({ kind: 'petal', stem, digit, index, set: sets[index]!, keeps })
  }
  return facts
}

/** The set that loses this digit to the stem and then needs what it keeps. */
function petalOf(
  step: FoundStep,
  sets: readonly CellGroup[],
  stem: number,
  digit: number,
  keeps: readonly number[],
): number {
  return sets.findIndex(
    ({ cells, digits }) =>
      digits.includes(digit) &&
      keeps.every((other) => digits.includes(other)) &&
      rulesOut(step.before.geometry, { cell: stem, digit }, placesIn(step, cells, digit)),
  )
}

/** Has every digit of the stem a set that loses it? */
export function hasAllPetals(step: FoundStep, { sets }: Sets, stem: number): boolean {
  const keeps = ascending(step.removals.map(({ digit }) => digit))
  return digitsOf(step.before.candidates[stem]!).every(
    (digit) => petalOf(step, sets, stem, digit, keeps) >= 0,
  )
}
