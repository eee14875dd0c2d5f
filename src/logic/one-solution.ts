import type { Board, Candidate } from '../grid/board.js'
import type { Geometry } from '../grid/geometry.js'
import type { Claim } from './claim.js'
import { PremiseSearch } from './premise-search.js'
import type { Premise, Step } from './step.js'

/** Why a deduction that rests on the puzzle having one solution does not hold. */
export type ExchangeFault =
  /** The step shows no cells whose digits could be exchanged, or cells that are not on the board. */
  | { readonly kind: 'no-exchange' }
  /** A printed digit stands in the pattern: it cannot be exchanged. */
  | { readonly kind: 'given-in-exchange'; readonly cell: number }
  /** In this assignment all premises hold, the conclusion does not, and the cells cannot be filled another way. */
  | { readonly kind: 'not-exchangeable'; readonly claim: Claim; readonly assignment: readonly Candidate[] }
  | { readonly kind: 'budget-spent'; readonly claim: Claim }

/**
 * The rule for steps that assume one solution. The step names cells without givens (its `exchange` pattern). A claim
 * holds when every way to satisfy the premises with the claim denied fills those cells so that they could be filled in
 * another way, each house keeping its digits: swapping the fillings would make a second solution of the printed puzzle.
 *
 * The other filling need not be among the candidates left: those were struck out for the one solution's sake, and the
 * argument is about the printed puzzle, in which only givens are fixed.
 *
 * @param search over the step's premises and claims
 */
export function findExchangeFault(
  board: Board,
  step: Step,
  search: PremiseSearch,
  claim: Claim,
  budget: number,
): ExchangeFault | undefined {
  const { geometry } = board
  if (step.pattern?.shape !== 'exchange') return { kind: 'no-exchange' }
  const { cells } = step.pattern
  const isCell = (n: unknown): boolean =>
    Number.isInteger(n) && (n as number) >= 0 && (n as number) < geometry.cellCount
  if (!Array.isArray(cells) || !cells.every(isCell) || new Set(cells).size !== cells.length)
    return { kind: 'no-exchange' }
  const given = cells.find((cell: number) => board.given[cell])
  if (given !== undefined) return { kind: 'given-in-exchange', cell: given }

  let stuckIn: readonly Candidate[] = []
  const denied = { candidate: claim.candidate, value: claim.kind === 'removal' }
  const end = search.visit([denied], budget, (trues) => {
    if (canExchange(geometry, cells, trues)) return false
    stuckIn = trues
    return true
  })
  if (end === 'budget-spent') return { kind: 'budget-spent', claim }
  return end === 'stopped' ? { kind: 'not-exchangeable', claim, assignment: stuckIn } : undefined
}

/**
 * Could these cells, filled as `filling` says, be filled in another way so that every house keeps its digits? False
 * when the filling leaves one of the cells open.
 */
export function canExchange(
  geometry: Geometry,
  cells: readonly number[],
  filling: readonly Candidate[],
): boolean {
  const digitIn = new Map(filling.map(({ cell, digit }) => [cell, digit]))
  if (!cells.every((cell) => digitIn.has(cell))) return false
  if (canSwapTwoDigits(geometry, cells, digitIn)) return true
  const digitsOfHouse = new Map<number, Set<number>>()
  for (const cell of cells) {
    for (const house of geometry.housesOf[cell]!) {
      const digits = digitsOfHouse.get(house) ?? new Set()
      digitsOfHouse.set(house, digits.add(digitIn.get(cell)!))
    }
  }
  const premises: Premise[] = cells.map((cell) => {
    const [first, ...others] = geometry.housesOf[cell]!.map((house) => digitsOfHouse.get(house)!)
    const digits = [...first!].filter((digit) => others.every((other) => other.has(digit)))
    return { kind: 'cell', cell, digits }
  })
  // Each house gets as many digits as it had cells, all from those it had, none twice: it keeps its digits.
  const search = new PremiseSearch(geometry, premises)
  return cells.some((cell) => {
    const same = { candidate: { cell, digit: digitIn.get(cell)! }, value: false }
    return typeof search.find([same], EXCHANGE_BUDGET) !== 'string'
  })
}

/** The commonest other filling: two digits change places wherever they stand. */
function canSwapTwoDigits(
  geometry: Geometry,
  cells: readonly number[],
  digitIn: ReadonlyMap<number, number>,
): boolean {
  const [first] = cells
  if (first === undefined) return false
  const one = digitIn.get(first)!
  const other = digitIn.get(cells.find((cell) => digitIn.get(cell) !== one) ?? first)!
  if (one === other) return false
  // house -> how often it has the one digit beyond the other: swapped, it has as many of each as before
  const surplus = new Map<number, number>()
  for (const cell of cells) {
    const digit = digitIn.get(cell)
    if (digit !== one && digit !== other) continue
    for (const house of geometry.housesOf[cell]!)
      surplus.set(house, (surplus.get(house) ?? 0) + (digit === one ? 1 : -1))
  }
  return [...surplus.values()].every((count) => count === 0)
}

/** Enough for any pattern met in practice; a pattern too tangled to decide counts as not exchangeable. */
const EXCHANGE_BUDGET = 20_000
