import type { Board, Candidate } from '../../grid/board.js'
import type { Task, Watch } from '../../limits.js'
import { CaseTreeBuilder } from '../cases/case-tree.js'
import { allPremises, Propagation } from '../cases/propagation.js'
import { refutation } from '../cases/refutation.js'
import type { Claim } from '../claims/claim.js'
import type { Facts } from '../facts/facts.js'
import { oncePerBoardTask } from '../facts/path-memory.js'
import { trimWithin } from '../proof/trim.js'
import type { CaseTree, Premise, Step } from '../steps/step.js'
import { slowTechnique, type Technique } from '../technique.js'
import type { TechniqueName } from '../technique-names.js'

/** What supposing each candidate of a board brings, by singles alone. */
interface Outlook {
  readonly propagation: Propagation
  /** candidate -> candidate -> 1 true, 2 false, 0 open. */
  readonly effect: readonly Uint8Array[]
  /** candidate -> does it fail? */
  readonly fails: readonly boolean[]
}

const TRUE = 1
const FALSE = 2

/** Between two looks at it nothing is supposed. */
const outlookOf = oncePerBoardTask(function* (facts, watch): Task<Outlook> {
  const { board } = facts
  const propagation = new Propagation(board.geometry, allPremises(facts))
  const effect: Uint8Array[] = []
  const fails: boolean[] = []
  for (let id = 0; id < propagation.candidates.length; id++) {
    if (watch.isDue()) yield
    const row = new Uint8Array(propagation.candidates.length)
    fails.push(propagation.suppose(id) !== undefined)
    for (const changed of propagation.changedSince(0))
      row[changed] = propagation.isTrue(changed) ? TRUE : FALSE
    propagation.undo(0)
    effect.push(row)
  }
  return { propagation, effect, fails }
})

/** A claim with premises that prove it, before they are trimmed. */
interface Draft {
  readonly claim: Claim
  readonly premises: readonly Premise[]
}

function stepOf(
  technique: TechniqueName,
  { candidate, kind }: Claim,
  premises: readonly Premise[],
  tree: CaseTree,
): Step {
  return {
    technique,
    level: 'branch',
    placements: kind === 'placement' ? [candidate] : [],
    removals: kind === 'removal' ? [candidate] : [],
    premises,
    pattern: { shape: 'cases', tree },
  }
}

const conclusionOf = ({ kind, candidate }: Claim) => ({
  placements: kind === 'placement' ? [candidate] : [],
  removals: kind === 'removal' ? [candidate] : [],
})

/**
 * Forcing chains: whichever alternative of one premise is true, singles lead to the same claim. For each claim the
 * split with the shortest argument is reported.
 */
function forcingChain(splitKind: Premise['kind']): Technique {
  const name = `${splitKind}-forcing-chain` as const
  return slowTechnique({
    name,
    level: 'branch',
    *search(facts, report, _, watch) {
      const { board } = facts
      const outlook = yield* outlookOf(facts, watch)
      const drafts = new Map<string, Draft & { split: Premise }>()
      for (const [index, split] of outlook.propagation.premises.entries()) {
        if (split.kind !== splitKind) continue
        if (watch.isDue()) yield
        for (const claim of commonClaims(outlook, index)) {
          const premises = premisesOfSplit(outlook.propagation, index, claim)
          const key = `${claim.kind} ${claim.candidate.cell} ${claim.candidate.digit}`
          const known = drafts.get(key)
          if (!known || premises.length < known.premises.length) drafts.set(key, { claim, premises, split })
        }
      }
      for (const { claim, premises, split } of bySize([...drafts.values()])) {
        // The split is tried last: an argument that can do without it is no forcing chain.
        const trimmed = yield* trimWithin(
          watch,
          board.geometry,
          [...premises.filter((premise) => premise !== split), split],
          conclusionOf(claim),
        )
        if (!trimmed.includes(split)) continue
        const tree = yield* new CaseTreeBuilder(board.geometry, trimmed, claim, watch).flatSplit(split)
        if (tree && report(stepOf(name, claim, trimmed, tree))) return
      }
    },
  })
}

function bySize<D extends Draft>(drafts: readonly D[]): D[] {
  return [...drafts].sort((a, b) => a.premises.length - b.premises.length)
}

/**
 * All that forcing chains of a kind prove, or what fails when it is supposed: the claims alone, without the steps.
 */
export function* claimsByCases(
  facts: Facts,
  by: Premise['kind'] | 'supposition',
  watch: Watch,
): Task<Claim[]> {
  const outlook = yield* outlookOf(facts, watch)
  const { candidates, premises } = outlook.propagation
  if (by === 'supposition') return candidates.filter((_, id) => outlook.fails[id]).map(removalOf)
  return premises.flatMap((split, index) => (split.kind === by ? commonClaims(outlook, index) : []))
}

/** What every alternative of a premise brings about, if none of them fails outright. */
function commonClaims({ propagation, effect, fails }: Outlook, split: number): Claim[] {
  const alternatives = propagation.alternativesIn(split)
  if (alternatives.length < 2 || alternatives.some((id) => fails[id])) return []
  const claims: Claim[] = []
  propagation.candidates.forEach((candidate, id) => {
    const first = effect[alternatives[0]!]![id]!
    if (first === 0 || alternatives.some((alternative) => effect[alternative]![id] !== first)) return
    claims.push({ kind: first === TRUE ? 'placement' : 'removal', candidate })
  })
  return claims
}

function premisesOfSplit(propagation: Propagation, split: number, claim: Claim): Premise[] {
  const used = new Set<Premise>([propagation.premises[split]!])
  const claimed = propagation.idOf(claim.candidate)!
  for (const id of propagation.alternativesIn(split)) {
    propagation.suppose(id)
    if (claim.kind === 'placement') propagation.explainTrue(claimed, used)
    else propagation.explainRuledOut([claimed], used)
    propagation.undo(0)
  }
  return [...used]
}

/** A candidate that fails when supposed, with what makes it fail: trimmed, as a tree. */
function* laidOut(
  board: Board,
  { claim, premises }: Draft,
  watch: Watch,
): Task<{ premises: Premise[]; tree: CaseTree; flat: boolean } | undefined> {
  const trimmed = yield* trimWithin(watch, board.geometry, premises, conclusionOf(claim))
  const builder = new CaseTreeBuilder(board.geometry, trimmed, claim, watch)
  const flat = yield* builder.flatSupposition()
  const tree = flat ?? (yield* builder.net())
  return tree && { premises: trimmed, tree, flat: flat !== undefined }
}

const removalOf = (candidate: Candidate): Claim => ({ kind: 'removal', candidate })

/** One candidate is supposed, and singles lead to a contradiction. */
export const nishio: Technique = slowTechnique({
  name: 'nishio',
  level: 'branch',
  *search(facts, report, _, watch) {
    const { board } = facts
    for (const draft of bySize(yield* failing(facts, watch))) {
      const found = yield* laidOut(board, draft, watch)
      if (found?.flat && report(stepOf('nishio', draft.claim, found.premises, found.tree))) return
    }
  },
})

/** The candidates that fail by singles. */
function* failing(facts: Facts, watch: Watch): Task<Draft[]> {
  const { propagation, fails } = yield* outlookOf(facts, watch)
  const drafts: Draft[] = []
  for (const [id, candidate] of propagation.candidates.entries()) {
    // without a split it does not pause
    const premises = fails[id] && (yield* refutation(propagation, id, { splits: 0 }, watch))
    if (premises) drafts.push({ claim: removalOf(candidate), premises: [...premises] })
  }
  return drafts
}

/** Splits allowed for one candidate, in rounds: small trees are looked for everywhere before big ones anywhere. */
const ROUNDS = [20, 2_000, 200_000] as const

/**
 * One candidate is supposed, and splits within splits lead to contradictions everywhere. On a puzzle with one solution
 * this refutes every wrong candidate, so that logic never ends before the puzzle does.
 */
export const forcingNet: Technique = slowTechnique({
  name: 'forcing-net',
  level: 'branch',
  *search(facts, report, _, watch) {
    const { board } = facts
    // its own, as a search that is given up leaves its suppositions standing
    const propagation = new Propagation(board.geometry, allPremises(facts))
    let open = propagation.candidates.map((_, id) => id)
    for (const splits of ROUNDS) {
      const drafts: Draft[] = []
      const left: number[] = []
      for (const id of open) {
        const premises = yield* refutation(propagation, id, { splits }, watch)
        if (premises) drafts.push({ claim: removalOf(propagation.candidates[id]!), premises: [...premises] })
        else left.push(id)
      }
      open = left
      for (const draft of bySize(drafts)) {
        const found = yield* laidOut(board, draft, watch)
        if (!found || found.flat) continue
        if (report(stepOf('forcing-net', draft.claim, found.premises, found.tree))) return
      }
    }
  },
})

export const cellForcingChain = forcingChain('cell')
export const houseForcingChain = forcingChain('house')
