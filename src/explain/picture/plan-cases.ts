import type { Candidate } from '../../grid/board.js'
import { layoutOf as houseLayoutOf } from '../../grid/layout.js'
import { exclude } from '../../logic/proof/exclude.js'
import { alternativesOf } from '../../logic/proof/premise-search.js'
import type { CaseTree, ChainNode, FoundStep, Premise } from '../../logic/steps/step.js'
import type { Forced } from '../argument/consequence.js'
import { type NetStory, netStory } from '../argument/net-story.js'
import type { Why } from '../argument/reason.js'
import type { Area, PlanBuilder } from './plan-builder.js'
import type { Role } from './roles.js'

const FOLLOWS: readonly Role[] = ['forced-one', 'forced-two', 'forced-more']
const nodeOf = ({ cell, digit }: Candidate): ChainNode => ({ digit, cells: [cell] })

/** Cases as branches: from what is supposed to all that follows, each from the last thing that it took. */
export function planCases(plan: PlanBuilder, step: FoundStep, tree: CaseTree): void {
  const { split } = tree
  const story = netStory(step, tree)
  if (story) {
    const { cell, digit } = step.removals[0]!
    plan.mark([cell], [digit], 'supposed')
    planStory(plan, step, story, {
      path: [],
      truths: [{ cell, digit }],
      role: undefined,
      left: MOST_FOLLOWING,
    })
    return
  }
  const assumed: Candidate[] = []
  const depth = depthToDraw(tree)
  collectAssumed(tree, depth, assumed)
  const role = split.kind === 'suppose' ? 'supposed' : 'case'
  assumed.forEach(({ cell, digit }, i) => {
    plan.mark([cell], [digit], i === 0 ? role : 'case')
  })
  branch(plan, step, tree, { path: [], truths: [], role: undefined, depth })
  if (split.kind === 'house') plan.house([split.house], 'house')
  else if (split.kind === 'cell') plan.cell([split.cell], 'split')
}

/** More than these cannot be told apart; cases within cases are then for words and frames. */
const MOST_FOLLOWING = 30

/** How many levels of cases a picture has room for. */
function depthToDraw(tree: CaseTree): number {
  let depth = 1
  while (depth < DEEPEST && followingWithin(tree, depth + 1) <= MOST_FOLLOWING) depth++
  return depth
}

const DEEPEST = 12

function followingWithin({ branches }: CaseTree, depth: number): number {
  return branches.reduce((sum, { follows, end }) => {
    const within = end.kind === 'split' && depth > 1 ? followingWithin(end.tree, depth - 1) : 0
    return sum + 1 + follows.length + within
  }, 0)
}

function collectAssumed({ branches }: CaseTree, depth: number, into: Candidate[]): void {
  for (const { assume, end } of branches) {
    into.push(assume)
    if (end.kind === 'split' && depth > 1) collectAssumed(end.tree, depth - 1, into)
  }
}

interface Way {
  /** Numbers of the cases around, as they are explained. */
  readonly path: readonly number[]
  /** What is true so far, in order. */
  readonly truths: readonly Candidate[]
  /** How what follows is marked: by the first case that it depends on. */
  readonly role: Role | undefined
  /** Levels of cases still to be drawn, this one among them. */
  readonly depth: number
}

function branch(plan: PlanBuilder, step: FoundStep, { split, branches }: CaseTree, way: Way): void {
  const supposed = split.kind === 'suppose'
  branches.forEach(({ assume, follows, end }, i) => {
    const path = supposed ? way.path : [...way.path, i + 1]
    const role = way.role ?? (supposed ? 'follows' : FOLLOWS[Math.min(i, FOLLOWS.length - 1)]!)
    if (!supposed) plan.badges.push({ ...assume, label: path.join('.') })
    const truths = [...way.truths, assume]
    for (const { candidate, premise } of follows) {
      const cause = lastCause(step, truths, candidate, premise)
      plan.mark([candidate.cell], [candidate.digit], role)
      if (cause) plan.links.push({ from: nodeOf(cause), to: nodeOf(candidate), kind: 'then', directed: true })
      truths.push(candidate)
    }
    if (end.kind === 'contradiction') planFailure(plan, step, end.premise)
    // beneath a supposition the cases within are the first to be told apart
    if (end.kind === 'split' && way.depth > 1) {
      const isFirst = supposed && way.path.length === 0
      const depth = way.depth - 1
      branch(plan, step, end.tree, { path, truths, role: isFirst ? undefined : role, depth })
    }
  })
}

/** Where a case leaves nothing. */
function planFailure(plan: PlanBuilder, step: FoundStep, premise: Premise): void {
  const { houses } = houseLayoutOf(step.before.geometry)
  const area: Area =
    premise.kind === 'cell'
      ? { cells: [premise.cell], role: 'failed' }
      : { cells: houses[premise.house]!.cells, role: 'failed', house: premise.house }
  if (!plan.areas.some(({ cells }) => cells.join() === area.cells.join())) plan.frame(area)
}

/** A conclusion denied, of a step with nothing to see but its premises: what follows, and where nothing is left. */
export function planDenial(
  plan: PlanBuilder,
  step: FoundStep,
  _: unknown,
  reasons: () => readonly Why[],
): void {
  const [first] = reasons()
  if (first?.effect !== 'removed') return
  const { cell, digit, reason } = first
  const story =
    reason.kind === 'every-way-fails' ? reason.refutation : reason.kind === 'leads-nowhere' && reason
  if (!story) return
  planStory(plan, step, story, { path: [], truths: [{ cell, digit }], role: undefined, left: MOST_FOLLOWING })
}

interface StoryWay extends Pick<Way, 'path' | 'truths' | 'role'> {
  /** How many conclusions there is still room for. */
  readonly left: number
}

/** What follows in turn, or the cases that all fail, and cases within them as long as there is room. */
function planStory(plan: PlanBuilder, step: FoundStep, story: NetStory, way: StoryWay): void {
  if (!('ways' in story)) {
    follow(plan, step, [...way.truths], story.forced, way.role ?? 'follows')
    if (story.end) planFailure(plan, step, story.end)
    return
  }
  const room = Math.floor(way.left / story.ways.length) - 1
  story.ways.forEach(({ assume, fails }, i) => {
    const path = [...way.path, i + 1]
    const role = way.role ?? FOLLOWS[Math.min(i, FOLLOWS.length - 1)]!
    plan.mark([assume.cell], [assume.digit], 'case')
    plan.badges.push({ ...assume, label: path.join('.') })
    if (!('ways' in fails) || room >= fails.ways.length)
      planStory(plan, step, fails, { path, truths: [...way.truths, assume], role, left: room })
  })
}

function follow(
  plan: PlanBuilder,
  step: FoundStep,
  known: Candidate[],
  forced: readonly Forced[],
  role: Role,
): void {
  for (const one of forced) {
    if ('locked' in one) {
      plan.cell(one.locked, 'pattern')
      plan.mark(one.locked, one.digits, role)
      continue
    }
    const { candidate, premise } = one
    const cause = premise && lastCause(step, known, candidate, premise)
    plan.mark([candidate.cell], [candidate.digit], role)
    if (cause) plan.links.push({ from: nodeOf(cause), to: nodeOf(candidate), kind: 'then', directed: true })
    known.push(candidate)
  }
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
