import { hasCandidate } from '../../grid/board/ask.js'
import type { Candidate } from '../../grid/board.js'
import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Premise } from '../../logic/steps/step.js'
import type { Reason } from './reason.js'
import { ascending, isIn } from './sight.js'

type Sector = Extract<Premise, { kind: 'house' }>

/** As many digits as cells: each house has its counted digits in the counted cells. */
export function sectorPremises({ pattern, before }: FoundStep): Sector[] {
  if (pattern.shape !== 'sectors') return []
  return pattern.houses.flatMap(({ house, digits }) =>
    digits.map((digit): Sector => {
      const cells = pattern.cells.filter(
        (cell) => isIn(before.geometry, house, cell) && hasCandidate(before, cell, digit),
      )
      return { kind: 'house', house, digit, cells }
    }),
  )
}

/**
 * Lines that a count has shown to have a digit among the cells counted, and as few lines across as they are, one of
 * which has the candidate: these get the digit from there. The fewest such lines.
 */
export function sectorFish(step: FoundStep, { cell, digit }: Candidate): Reason | undefined {
  const { geometry } = step.before
  const { houses, housesOf } = layoutOf(geometry)
  const sectors = sectorPremises(step).filter((sector) => sector.digit === digit)
  let best: Reason | undefined
  let size = Number.POSITIVE_INFINITY
  for (const [kind, across] of [
    ['row', 'column'],
    ['column', 'row'],
  ] as const) {
    const lines = sectors.filter(({ house }) => houses[house]!.kind === kind && !isIn(geometry, house, cell))
    const acrossOf = (one: number) => housesOf[one]!.find((house) => houses[house]!.kind === across)!
    for (let chosen = 1; chosen < 1 << lines.length; chosen++) {
      const base = lines.filter((_, i) => chosen & (1 << i))
      const covers = ascending(base.flatMap(({ cells }) => cells.map(acrossOf)))
      if (base.length >= size || covers.length !== base.length || !covers.includes(acrossOf(cell))) continue
      size = base.length
      const own = base.map(({ house }) => house)
      best = { kind: 'covered', digit, covers: [acrossOf(cell)], base: own, fins: [], plain: true }
    }
  }
  return best
}
