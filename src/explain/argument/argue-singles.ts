import { digitBit, digitsOf } from '../../grid/digits.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'

/** The house (of those of a cell) that accounts for most of what is asked, again and again until nothing is left. */
function greedyCover<T>(wanted: readonly T[], offers: readonly { readonly by: number; readonly has: T[] }[]) {
  const chosen: { by: number; has: T[] }[] = []
  let rest = [...wanted]
  while (rest.length > 0) {
    let best: { by: number; has: T[] } | undefined
    for (const offer of offers) {
      const has = offer.has.filter((item) => rest.includes(item))
      if (has.length > 0 && (!best || has.length > best.has.length)) best = { by: offer.by, has }
    }
    if (!best) break
    chosen.push(best)
    rest = rest.filter((item) => !best.has.includes(item))
  }
  return chosen
}

function onlyCandidate(step: FoundStep, cell: number, digit: number): Fact {
  const { geometry, digits } = step.before
  const layout = layoutOf(geometry)
  const others = Array.from({ length: geometry.order }, (_, i) => i + 1).filter((d) => d !== digit)
  const offers = layout.housesOf[cell]!.map((house) => ({
    by: house,
    has: others.filter((d) => layout.houses[house]!.cells.some((c) => c !== cell && digits[c] === d)),
  }))
  const cover = greedyCover(
    others.filter((d) => offers.some((offer) => offer.has.includes(d))),
    offers,
  )
  const seen = cover.map(({ by, has }) => ({ house: by, digits: has }))
  const struck = others.filter((d) => !seen.some((part) => part.digits.includes(d)))
  return { kind: 'only-candidate', cell, digit, seen, struck }
}

function onlyPlace(step: FoundStep, house: number, cell: number, digit: number): Fact {
  const { geometry, digits } = step.before
  const layout = layoutOf(geometry)
  const open = layout.houses[house]!.cells.filter((c) => c !== cell && digits[c] === 0)
  const offers: { by: number; has: number[] }[] = []
  for (let c = 0; c < geometry.cellCount; c++) {
    if (digits[c] === digit) offers.push({ by: c, has: open.filter((other) => layout.arePeers(c, other)) })
  }
  const cover = greedyCover(
    open.filter((c) => offers.some((offer) => offer.has.includes(c))),
    offers,
  )
  const struck = open.filter((c) => !cover.some((part) => part.has.includes(c)))
  return {
    kind: 'only-place',
    house,
    cell,
    digit,
    blockers: cover.map((part) => part.by).sort((a, b) => a - b),
    struck,
  }
}

/** Full house, hidden single or naked single: which of them the board shows decides the words, not the name. */
export function argueSingle(step: FoundStep, pattern: Extract<Pattern, { shape: 'single' }>): Fact[] {
  const { geometry, digits, candidates } = step.before
  const { cell, digit, house } = pattern
  if (house !== undefined) {
    const open = layoutOf(geometry).houses[house]!.cells.filter((c) => digits[c] === 0)
    if (open.length === 1) return [{ kind: 'last-cell', house, cell, digit }]
    return [onlyPlace(step, house, cell, digit)]
  }
  const only = candidates[cell] === digitBit(digit)
  return only || digitsOf(candidates[cell]!).length === 0
    ? [onlyCandidate(step, cell, digit)]
    : step.premises.map((premise) => ({ kind: 'premise', premise }))
}
