import type { Task } from '../limits.js'
import type { NodeBudget } from './budget.js'

/** How many branches a search for a hitting set may still take; shared by the searches of one question. */
export class BranchAllowance {
  constructor(
    public left: number,
    private readonly budget: NodeBudget,
  ) {}

  /** Pays for a branch; true when other work should run. Nothing is left once the question's time is over. */
  spend(): boolean {
    this.left--
    const look = this.budget.look()
    if (look === 'over') this.left = 0
    return look === 'pause'
  }
}

/**
 * A set of at most `size` elements that has an element in each of the `sets`, or `undefined` when there is none (or the
 * allowance or the time ran out: then `allowance.left` is 0). Some set must be hit by one of its own elements, so the
 * search branches over the elements of the smallest set not yet hit; sets that share no element need an element each,
 * which cuts it short.
 *
 * @param elements how many elements there are, numbered from 0
 */
export function* hittingSet(
  sets: readonly (readonly number[])[],
  elements: number,
  size: number,
  allowance: BranchAllowance,
): Task<number[] | undefined> {
  const bySize = [...sets].sort((a, b) => a.length - b.length)
  const chosen = new Uint8Array(elements)
  /** Elements that a sibling branch has tried in full already. */
  const barred = new Uint8Array(elements)
  const result: number[] = []

  const solve = function* (room: number): Task<boolean> {
    if (allowance.left <= 0) return false
    if (allowance.spend()) yield
    const marked = new Uint8Array(elements)
    let first: readonly number[] | undefined
    let disjoint = 0
    for (const set of bySize) {
      if (set.some((element) => chosen[element])) continue
      first ??= set
      if (set.some((element) => marked[element])) continue
      disjoint++
      if (disjoint > room) return false
      for (const element of set) marked[element] = 1
    }
    if (!first) return true
    const tried: number[] = []
    for (const element of first) {
      if (barred[element]) continue
      chosen[element] = 1
      result.push(element)
      if (yield* solve(room - 1)) return true
      chosen[element] = 0
      result.pop()
      barred[element] = 1
      tried.push(element)
    }
    for (const element of tried) barred[element] = 0
    return false
  }
  return (yield* solve(size)) ? result : undefined
}
