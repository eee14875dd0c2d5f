import { hasCandidate } from '../../grid/board/ask.js'
import { digitsOf } from '../../grid/digits.js'
import type { ChainNode, FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'
import { houseOf } from './sight.js'

type Wing = Extract<Pattern, { shape: 'wing' }>

/** Where a wing's shared digit must be: in those of its cells that have it. */
export function wingEnds(step: FoundStep, { pivot, pincers, digit }: Wing): ChainNode[] {
  const cells = [pivot, ...pincers].filter((cell) => hasCandidate(step.before, cell, digit))
  return cells.map((cell) => ({ digit, cells: [cell] }))
}

/** Pincers with one digit as well as the shared one are explained case by case; larger wings are counted. */
export function argueWing(step: FoundStep, { pivot, pincers, digit }: Wing): Fact[] {
  const { geometry, candidates } = step.before
  const digitsIn = (cell: number) => digitsOf(candidates[cell]!)
  const ofPivot = digitsIn(pivot)
  const whenOf = (cell: number) => digitsIn(cell).filter((d) => d !== digit && ofPivot.includes(d))
  const simple = pincers.every((cell) => digitsIn(cell).length === 2 && whenOf(cell).length === 1)
  if (!simple) {
    const cells = [pivot, ...pincers]
    const digits = digitsOf(cells.reduce((set, cell) => set | candidates[cell]!, 0))
    return [{ kind: 'wing-count', cells, digits, once: digits.filter((d) => d !== digit), digit }]
  }
  const facts: Fact[] = [
    { kind: 'pivot', cell: pivot, digits: ofPivot },
    ...pincers.map(
      (cell): Fact => ({
        kind: 'pincer',
        pivot,
        cell,
        when: whenOf(cell),
        gives: digit,
        house: houseOf(geometry, [pivot, cell]),
      }),
    ),
  ]
  if (ofPivot.includes(digit)) facts.push({ kind: 'pivot-itself', pivot, digit })
  return facts
}
