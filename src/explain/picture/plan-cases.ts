import type { Candidate } from '../../grid/board.js'
import { exclude } from '../../logic/exclude.js'
import { alternativesOf } from '../../logic/premise-search.js'
import type { CaseTree, ChainNode, FoundStep, Premise } from '../../logic/step.js'
import type { PlanBuilder } from './plan.js'
import type { Role } from './roles.js'

const FOLLOWS: readonly Role[] = ['forced-one', 'forced-two', 'forced-more']
const nodeOf = ({ cell, digit }: Candidate): ChainNode => ({ digit, cells: [cell] })

/** Cases as branches: from what is supposed to all that follows, each from the last thing that it took. */
export function planCases(plan: PlanBuilder, step: FoundStep, tree: CaseTree): void {
  const { split } = tree
  const assumed: Candidate[] = []
  collectAssumed(tree, assumed)
  for (const { cell, digit } of assumed) plan.mark([cell], [digit], 'case')
  branch(plan, step, tree, { path: [], truths: [], role: undefined })
  if (split.kind === 'house') plan.house([split.house], 'house')
  else if (split.kind === 'cell') plan.cell([split.cell], 'split')
}

function collectAssumed({ branches }: CaseTree, into: Candidate[]): void {
  for (const { assume, end } of branches) {
    into.push(assume)
    if (end.kind === 'split') collectAssumed(end.tree, into)
  }
}

interface Way {
  /** Numbers of the cases around, as they are told. */
  readonly path: readonly number[]
  /** What is true so far, in order. */
  readonly truths: readonly Candidate[]
  /** How what follows is marked: by the first case that it depends on. */
  readonly role: Role | undefined
}

function branch(plan: PlanBuilder, step: FoundStep, { split, branches }: CaseTree, way: Way): void {
  const supposed = split.kind === 'suppose'
  branches.forEach(({ assume, follows, end }, i) => {
    const path = supposed ? way.path : [...way.path, i + 1]
    const role = way.role ?? FOLLOWS[Math.min(i, FOLLOWS.length - 1)]!
    if (!supposed) plan.badges.push({ ...assume, label: path.join('.') })
    const truths = [...way.truths, assume]
    for (const { candidate, premise } of follows) {
      const cause = lastCause(step, truths, candidate, premise)
      plan.mark([candidate.cell], [candidate.digit], role)
      if (cause) plan.links.push({ from: nodeOf(cause), to: nodeOf(candidate), kind: 'then' })
      truths.push(candidate)
    }
    // beneath a supposition the cases within are the first to be told apart
    if (end.kind === 'split')
      branch(plan, step, end.tree, {
        path,
        truths,
        role: supposed && way.path.length === 0 ? undefined : role,
      })
  })
}

/** The truth that came last of those which leave the premise nothing but the candidate. */
function lastCause(
  step: FoundStep,
  truths: readonly Candidate[],
  { cell, digit }: Candidate,
  premise: Premise,
): Candidate | undefined {
  let last = -1
  for (const other of alternativesOf(premise)) {
    if (other.cell === cell && other.digit === digit) continue
    last = Math.max(
      last,
      truths.findIndex((truth) => exclude(step.before.geometry, truth, other)),
    )
  }
  return truths[last]
}
