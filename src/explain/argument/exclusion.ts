import type { Candidate } from '../../grid/board.js'
import { type DigitSet, digitBit, digitCount, digitsOf } from '../../grid/digits.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { Excluded, FoundStep } from '../../logic/steps/step.js'
import type { Fact, Starved } from './facts.js'

/**
 * What a candidate, supposed true, does to the other cells of an excluded pair, triple or set, and which have too
 * little left.
 */
export interface Exclusion {
  readonly facts: Fact[]
  readonly starved: readonly number[]
}

/**
 * Supposes that a candidate is true and takes away, by the step's reasons, what the other cells can no longer be;
 * `undefined` unless too little is left for them.
 */
export function excludeBy(step: FoundStep, supposed: Candidate): Exclusion | undefined {
  const { pattern, before } = step
  if (pattern.shape !== 'exclusion') return undefined
  const others = pattern.cells.filter((cell) => cell !== supposed.cell)
  const taken: { out: Candidate; by: readonly number[] }[] = []
  for (const cell of others) {
    for (const digit of digitsOf(before.candidates[cell]!)) {
      const out = { cell, digit }
      const by = reasonAgainst(step, pattern.excluded, supposed, out)
      if (by) taken.push({ out, by })
    }
  }
  const leftIn = (cell: number): number[] =>
    digitsOf(before.candidates[cell]!).filter(
      (digit) => !taken.some(({ out }) => out.cell === cell && out.digit === digit),
    )
  const facts: Fact[] = taken.length > 0 ? [{ kind: 'takes', ways: gathered(step, taken) }] : []
  const starved = starvedAmong(others, leftIn)
  if (starved) return { facts: [...facts, { kind: 'starved', ...starved }], starved: starved.cells }
  const [a, b] = others
  if (others.length !== 2) return undefined
  const ways: { pair: readonly [Candidate, Candidate]; by: readonly number[] }[] = []
  for (const one of leftIn(a!))
    for (const other of leftIn(b!)) {
      const pair = [
        { cell: a!, digit: one },
        { cell: b!, digit: other },
      ] as const
      const by = pairReason(step, pattern.excluded, supposed, pair)
      if (!by) return undefined
      ways.push({ pair, by })
    }
  const groups = new Map<string, { pairs: (readonly [Candidate, Candidate])[]; by: Starved | undefined }>()
  for (const { pair, by } of ways) {
    const group = groups.get(by.join())
    if (group) group.pairs.push(pair)
    else groups.set(by.join(), { pairs: [pair], by: groupOf(step, by) })
  }
  return { facts: [...facts, { kind: 'pairs-fail', ways: [...groups.values()] }], starved: others }
}

/** Cells that would have too few digits left with both; none where the two see each other. */
function reasonAgainst(
  step: FoundStep,
  excluded: readonly Excluded[],
  one: Candidate,
  other: Candidate,
): readonly number[] | undefined {
  if (exclude(step.before.geometry, one, other)) return []
  return excluded.map(({ by }) => by).find((by) => by.length > 0 && isStarvedBy(step, by, [one, other]))
}

function pairReason(
  step: FoundStep,
  excluded: readonly Excluded[],
  supposed: Candidate,
  pair: readonly Candidate[],
): readonly number[] | undefined {
  if (exclude(step.before.geometry, pair[0]!, pair[1]!)) return []
  const all = excluded.map(({ by }) => by).filter((by) => by.length > 0)
  return (
    all.find((by) => isStarvedBy(step, by, pair)) ??
    all.find((by) => isStarvedBy(step, by, [supposed, ...pair]))
  )
}

/** Would these cells have fewer digits left than they are? */
export function isStarvedBy(
  { before }: FoundStep,
  cells: readonly number[],
  truths: readonly Candidate[],
): boolean {
  let left: DigitSet = 0
  for (const cell of cells)
    for (const digit of digitsOf(before.candidates[cell]!))
      if (!truths.some((truth) => exclude(before.geometry, truth, { cell, digit }))) left |= digitBit(digit)
  return digitCount(left) < cells.length
}

function starvedAmong(
  cells: readonly number[],
  leftIn: (cell: number) => readonly number[],
): { cells: readonly number[]; left: readonly number[] } | undefined {
  const single = cells.find((cell) => leftIn(cell).length === 0)
  if (single !== undefined) return { cells: [single], left: [] }
  const left = [...new Set(cells.flatMap(leftIn))].sort((a, b) => a - b)
  return cells.length > 1 && left.length < cells.length ? { cells, left } : undefined
}

/** What is taken for the same reason is said together. */
function gathered(step: FoundStep, taken: readonly { out: Candidate; by: readonly number[] }[]) {
  const groups = new Map<string, { out: Candidate[]; by: Starved | undefined }>()
  for (const { out, by } of taken) {
    const group = groups.get(by.join())
    if (group) group.out.push(out)
    else groups.set(by.join(), { out: [out], by: groupOf(step, by) })
  }
  return [...groups.values()]
}

/** The cells with all that they have between them. */
function groupOf({ before }: FoundStep, cells: readonly number[]): Starved | undefined {
  const all = cells.reduce<DigitSet>((set, cell) => set | before.candidates[cell]!, 0)
  return cells.length === 0 ? undefined : { cells, digits: digitsOf(all), isNamed: false }
}
