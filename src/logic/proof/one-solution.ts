import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'
import type { Task, Watch } from '../../limits.js'
import type { Claim } from '../claims/claim.js'
import type { Premise, Step } from '../steps/step.js'
import { PremiseSearch, type ProofBudget } from './premise-search.js'

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
 * @param budget most alternatives tried, those of other fillings among them; what is left of it afterwards
 */
export function* findExchangeFault(
  board: Board,
  step: Step,
  search: PremiseSearch,
  claim: Claim,
  budget: ProofBudget,
  watch: Watch,
): Task<ExchangeFault | undefined> {
  const { geometry } = board
  if (step.pattern?.shape !== 'exchange') return { kind: 'no-exchange' }
  const { cells } = step.pattern
  const isCell = (n: unknown): boolean =>
    Number.isInteger(n) && (n as number) >= 0 && (n as number) < geometry.cellCount
  if (!Array.isArray(cells) || !cells.every(isCell) || new Set(cells).size !== cells.length)
    return { kind: 'no-exchange' }
  const given = cells.find((cell: number) => board.given[cell])
  if (given !== undefined) return { kind: 'given-in-exchange', cell: given }

  const atStart = budget.left
  let onOthers = 0
  let fault: ExchangeFault | undefined
  const denied = { candidate: claim.candidate, value: claim.kind === 'removal' }
  const end = yield* search.visitWithin(watch, [denied], atStart, (trues) => {
    const others = { left: atStart - search.spent - onOthers }
    const answer = findOtherFilling(board, cells, trues, others)
    onOthers = atStart - search.spent - others.left
    if (answer === 'none') fault = { kind: 'not-exchangeable', claim, assignment: trues }
    return answer !== 'found'
  })
  budget.left = Math.max(0, atStart - search.spent - onOthers)
  return end === 'exhausted' ? undefined : (fault ?? { kind: 'budget-spent', claim })
}

/**
 * Can these cells, filled as `trues` says, be filled in another way so that every house keeps its digits, and no cell
 * gets one that stands in a peer? There is no other way when `trues` leaves one of the cells open.
 */
function findOtherFilling(
  board: Board,
  cells: readonly number[],
  trues: readonly Candidate[],
  budget: ProofBudget,
): 'found' | 'none' | 'budget-spent' {
  const { geometry } = board
  const layout = layoutOf(geometry)
  const digitIn = new Map(trues.map(({ cell, digit }) => [cell, digit]))
  if (!cells.every((cell) => digitIn.has(cell))) return 'none'
  const further = furtherPeersOf(geometry)
  if (further.length === 0 && canSwapTwoDigits(geometry, cells, digitIn)) return 'found'
  const digitsOfHouse = new Map<number, Set<number>>()
  for (const cell of cells) {
    for (const house of layout.housesOf[cell]!) {
      const digits = digitsOfHouse.get(house) ?? new Set()
      digitsOfHouse.set(house, digits.add(digitIn.get(cell)!))
    }
  }
  const premises: Premise[] = cells.map((cell) => {
    const [first, ...others] = layout.housesOf[cell]!.map((house) => digitsOfHouse.get(house)!)
    const digits = [...first!].filter(
      (digit) =>
        others.every((other) => other.has(digit)) &&
        (further.length === 0 || isFreeBeyond(board, further[cell]!, cells, digit, digitIn)),
    )
    return { kind: 'cell', cell, digits }
  })
  // Each house gets as many digits as it had cells, all from those it had, none twice: it keeps its digits.
  const own = cells.map((cell) => ({ cell, digit: digitIn.get(cell)! }))
  const search = new PremiseSearch(geometry, premises, own)
  for (const candidate of own) {
    const found = search.find([{ candidate, value: false }], budget.left)
    budget.left -= search.spent
    if (found !== 'none') return found === 'budget-spent' ? found : 'found'
  }
  return 'none'
}

/** The commonest other filling: two digits change places wherever they stand. */
function canSwapTwoDigits(
  geometry: Geometry,
  cells: readonly number[],
  digitIn: ReadonlyMap<number, number>,
): boolean {
  const layout = layoutOf(geometry)
  const one = digitIn.get(cells[0]!)
  const other = digitIn.get(cells.find((cell) => digitIn.get(cell) !== one) ?? cells[0]!)
  if (one === other) return false
  // house -> how often it has the one digit beyond the other: swapped, it has as many of each as before
  const surplus = new Map<number, number>()
  for (const cell of cells) {
    const digit = digitIn.get(cell)
    if (digit !== one && digit !== other) continue
    for (const house of layout.housesOf[cell]!)
      surplus.set(house, (surplus.get(house) ?? 0) + (digit === one ? 1 : -1))
  }
  return [...surplus.values()].every((count) => count === 0)
}

/** cell -> its peers that share no house with it; empty where a geometry has none. */
const furtherPeersOf = perLayout(({ housesOf, peersOf, positionIn }): readonly (readonly number[])[] => {
  const lists = peersOf.map((peers, cell) =>
    peers.filter((peer) => housesOf[cell]!.every((house) => positionIn(house, peer) < 0)),
  )
  return lists.some((list) => list.length > 0) ? lists : []
})

/**
 * Is a digit sure not to stand in any of these peers of a cell? Those among the cells to be filled another way do not
 * matter. Houses keep their digits whoever else has cells in them; a further peer has to be known, from a given or from
 * what is true: it holds another digit, or sees the digit.
 */
function isFreeBeyond(
  { geometry, given, digits }: Board,
  peers: readonly number[],
  cells: readonly number[],
  digit: number,
  digitIn: ReadonlyMap<number, number>,
): boolean {
  const standing = (cell: number): number | undefined => (given[cell] ? digits[cell] : digitIn.get(cell))
  return peers.every((peer) => {
    if (cells.includes(peer)) return true
    const own = standing(peer)
    if (own !== undefined) return own !== digit
    return layoutOf(geometry).peersOf[peer]!.some((other) => standing(other) === digit)
  })
}
