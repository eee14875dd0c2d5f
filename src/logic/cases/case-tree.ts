import type { Geometry } from '../../grid/geometry.js'
import type { Task, Watch } from '../../limits.js'
import type { Claim } from '../claims/claim.js'
import type { CaseTree, Premise } from '../steps/step.js'
import { type Consequence, Propagation } from './propagation.js'

interface DraftBranch {
  readonly assume: Consequence['candidate']
  readonly follows: readonly Consequence[]
  readonly end:
    | { kind: 'contradiction'; premise: Premise }
    | { kind: 'claim' }
    | { kind: 'split'; tree: Draft }
}

interface Draft {
  readonly split: CaseTree['split']
  readonly branches: readonly DraftBranch[]
}

/** Lays out, for people, why premises that are known to prove a claim do so. */
export class CaseTreeBuilder {
  private readonly propagation: Propagation
  private readonly claim: Claim
  private readonly claimed: number
  private readonly watch: Watch

  constructor(geometry: Geometry, premises: readonly Premise[], claim: Claim, watch: Watch) {
    this.watch = watch
    this.propagation = new Propagation(geometry, premises, [claim.candidate])
    this.claim = claim
    this.claimed = this.propagation.idOf(claim.candidate)!
  }

  /** Each alternative of one premise leads to the claim by singles alone. */
  *flatSplit(split: Premise): Task<CaseTree | undefined> {
    const draft = yield* this.splitOn(this.propagation.premises.indexOf(split), false)
    if (!draft?.branches.every((branch) => branch.end.kind === 'claim')) return undefined
    return finished(draft)
  }

  /** The candidate that the claim removes is supposed, and singles lead to a contradiction. */
  *flatSupposition(): Task<CaseTree | undefined> {
    const draft = yield* this.supposition(false)
    return draft && finished(draft)
  }

  /** Splits within splits, as many as it takes. */
  *net(): Task<CaseTree | undefined> {
    const draft =
      this.claim.kind === 'removal'
        ? yield* this.supposition(true)
        : yield* this.splitOn(this.propagation.smallestOpen() ?? -1, true)
    return draft && finished(draft)
  }

  private *supposition(nested: boolean): Task<Draft | undefined> {
    if (this.claim.kind !== 'removal') return undefined
    const branch = yield* this.branch(this.claimed, nested, true)
    return branch && { split: { kind: 'suppose', ...this.claim.candidate }, branches: [branch] }
  }

  private *splitOn(index: number, nested: boolean): Task<Draft | undefined> {
    const { propagation } = this
    const split = propagation.premises[index]
    if (!split) return undefined
    propagation.explainRuledOut(propagation.alternativesIn(index), new Set())
    const branches: DraftBranch[] = []
    for (const id of propagation.openIn(index)) {
      if (this.watch.isDue()) yield
      const branch = yield* this.branch(id, nested, false)
      if (!branch) return undefined
      branches.push(branch)
    }
    return { split, branches }
  }

  private *branch(id: number, nested: boolean, supposed: boolean): Task<DraftBranch | undefined> {
    const { propagation } = this
    const mark = propagation.mark
    const conflict = propagation.suppose(id)
    const end = yield* this.endOf(conflict, nested, supposed)
    const follows = propagation.consequencesSince(mark).filter(({ premise }) => premise)
    propagation.undo(mark)
    return end && { assume: propagation.candidates[id]!, follows, end }
  }

  private *endOf(
    conflict: number | undefined,
    nested: boolean,
    supposed: boolean,
  ): Task<DraftBranch['end'] | undefined> {
    const { propagation, claimed } = this
    const unused = new Set<Premise>()
    if (this.claim.kind === 'placement' && propagation.isTrue(claimed)) {
      propagation.explainTrue(claimed, unused)
      return { kind: 'claim' }
    }
    if (this.claim.kind === 'removal' && !supposed && propagation.isFalse(claimed)) {
      propagation.explainRuledOut([claimed], unused)
      return { kind: 'claim' }
    }
    if (conflict !== undefined) {
      propagation.explainConflict(conflict, unused)
      return { kind: 'contradiction', premise: propagation.premises[conflict]! }
    }
    const next = nested ? propagation.smallestOpen() : undefined
    const tree = next !== undefined && (yield* this.splitOn(next, true))
    return tree ? { kind: 'split', tree } : undefined
  }
}

/** Keeps, of what follows in each case, what an end made use of. */
function finished(draft: Draft): CaseTree {
  return {
    split: draft.split,
    branches: draft.branches.map(({ assume, follows, end }) => ({
      assume,
      follows: follows
        .filter(({ needed }) => needed)
        .map(({ candidate, premise }) => ({ candidate, premise: premise! })),
      end: end.kind === 'split' ? { kind: 'split', tree: finished(end.tree) } : end,
    })),
  }
}
