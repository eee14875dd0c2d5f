import { openCount } from '../../grid/board/ask.js'
import { digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'
import type { Why } from './reason.js'
import { areIn, ascending } from './sight.js'

type Exchange = Extract<Pattern, { shape: 'exchange' }>

/** What could be exchanged, and, where conclusions rest on them, the extras that prevent it. */
export function argueExchange(step: FoundStep, pattern: Exchange, reasons: readonly Why[]): Fact[] {
  const { cells, digits, extras } = pattern
  const facts: Fact[] = [{ kind: 'exchange', cells, digits, manner: mannerOf(step, pattern), extras }]
  const kinds = new Set(reasons.map(({ reason }) => reason.kind))
  if (kinds.has('excluded-by-each') || kinds.has('digits-used') || kinds.has('only-extra'))
    facts.push({ kind: 'extras', extras })
  const subset = kinds.has('digits-used') ? extrasSubset(step, pattern) : undefined
  if (subset) facts.push({ kind: 'extras-subset', extras, ...subset })
  return facts
}

function mannerOf(step: FoundStep, { cells, digits, extras }: Exchange): 'same' | 'own' | 'placed' | 'board' {
  const { before } = step
  if (cells.some((cell) => before.digits[cell])) return 'placed'
  if (cells.length === openCount(before)) return 'board'
  const isOwn = cells.every((cell) => {
    const own = extras.filter((extra) => extra.cell === cell).length
    return digitsOf(before.candidates[cell]!).length - own === 2
  })
  return digits.length > 2 && isOwn ? 'own' : 'same'
}

/**
 * Cells of the premises that, with one more cell of the extras' digits, share a house and as many digits as they are.
 */
export function extrasSubset(
  step: FoundStep,
  { cells, extras }: Exchange,
): { house: number; others: readonly number[]; digits: readonly number[] } | undefined {
  const { geometry, candidates } = step.before
  const others = step.premises.flatMap((premise) =>
    premise.kind === 'cell' && !cells.includes(premise.cell) ? [premise.cell] : [],
  )
  if (others.length === 0 || extras.length === 0) return undefined
  const digits = ascending([
    ...extras.map(({ digit }) => digit),
    ...others.flatMap((cell) => digitsOf(candidates[cell]!)),
  ])
  const all = [...extras.map(({ cell }) => cell), ...others, ...step.removals.map(({ cell }) => cell)]
  const house = layoutOf(geometry).housesOf[others[0]!]!.find((own) => areIn(geometry, own, all))
  return house !== undefined && digits.length === others.length + 1 ? { house, others, digits } : undefined
}
