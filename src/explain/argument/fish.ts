import { layoutOf } from '../../grid/layout.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import { isIn } from './sight.js'

type FishPattern = Extract<Pattern, { shape: 'fish' }>

/** Rows on one side, columns on the other: every place lies in one line of each. */
export function isPlainFish({ before: { geometry } }: FoundStep, { base, cover }: FishPattern): boolean {
  const kindsOf = (side: readonly number[]) => [
    ...new Set(side.map((house) => layoutOf(geometry).houses[house]!.kind)),
  ]
  const kinds = [kindsOf(base), kindsOf(cover)].map((side) => (side.length === 1 ? side[0] : undefined))
  return kinds.includes('row') && kinds.includes('column')
}

/** Places that two or more of the base houses have in common. */
export function sharedPlaces({ before: { geometry } }: FoundStep, { base, cells }: FishPattern): number[] {
  return cells.filter((cell) => base.filter((house) => isIn(geometry, house, cell)).length > 1)
}
