import type { Board, Candidate } from '../../grid/board.js'
import { CaseTreeBuilder } from '../cases/case-tree.js'
import { Propagation, premisesOf } from '../cases/propagation.js'
import { refutation } from '../cases/refutation.js'
import type { Claim } from '../claim.js'
import { trimPremises } from '../links/trim.js'
import { oncePerBoard } from '../path-memory.js'
import type { CaseTree, Premise, Step } from '../step.js'
import type { Technique } from '../technique.js'
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

const outlookOf = oncePerBoard((board): Outlook => {
  const propagation = new Propagation(board.geometry, premisesOf(board))
  const effect: Uint8Array[] = []
  const fails: boolean[] = []
  for (let id = 0; id < propagation.candidates.length; id++) {
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
 * Forcing chains: whichever alternative of one premise is true, singles lead to the same claim. For each claim the split
 * with the shortest argument is told.
 */
function forcingChain(splitKind: Premise['kind']): Technique {
  const name = `${splitKind}-forcing-chain` as const
  return {
    name,
    level: 'branch',
    find(board, report) {
      const outlook = outlookOf(board)
      const drafts = new Map<string, Draft & { split: Premise }>()
      outlook.propagation.premises.forEach((split, index) => {
        if (split.kind !== splitKind) return
        for (const claim of commonClaims(outlook, index)) {
          const premises = premisesOfSplit(outlook.propagation, index, claim)
          const key = `${claim.kind} ${claim.candidate.cell} ${claim.candidate.digit}`
          const known = drafts.get(key)
          if (!known || premises.length < known.premises.length) drafts.set(key, { claim, premises, split })
        }
      })
      for (const { claim, premises, split } of bySize([...drafts.values()])) {
        // The split is tried last: an argument that can do without it is no forcing chain.
        const trimmed = trimPremises(
          board.geometry,
          [...premises.filter((premise) => premise !== split), split],
          conclusionOf(claim),
        )
        if (!trimmed.includes(split)) continue
        const tree = new CaseTreeBuilder(board.geometry, trimmed, claim).flatSplit(split)
        if (tree && report(stepOf(name, claim, trimmed, tree))) return
      }
    },
  }
}

function bySize<D extends Draft>(drafts: readonly D[]): D[] {
  return [...drafts].sort((a, b) => a.premises.length - b.premises.length)
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

/** A candidate that fails when supposed, with what makes it fail: trimmed, and laid out. */
function laidOut(
  board: Board,
  { claim, premises }: Draft,
): { premises: Premise[]; tree: CaseTree; flat: boolean } | undefined {
  const trimmed = trimPremises(board.geometry, premises, conclusionOf(claim))
  const builder = new CaseTreeBuilder(board.geometry, trimmed, claim)
  const flat = builder.flatSupposition()
  const tree = flat ?? builder.net()
  return tree && { premises: trimmed, tree, flat: flat !== undefined }
}

const removalOf = (candidate: Candidate): Claim => ({ kind: 'removal', candidate })

/** One candidate is supposed, and singles lead to a contradiction. */
export const nishio: Technique = {
  name: 'nishio',
  level: 'branch',
  find(board, report) {
    for (const draft of bySize(failing(board))) {
      const found = laidOut(board, draft)
      if (found?.flat && report(stepOf('nishio', draft.claim, found.premises, found.tree))) return
    }
  },
}

/** The candidates that fail by singles. */
function failing(board: Board): Draft[] {
  const { propagation, fails } = outlookOf(board)
  return propagation.candidates.flatMap((candidate, id) => {
    const premises = fails[id] && refutation(propagation, id, { splits: 0 })
    return premises ? [{ claim: removalOf(candidate), premises: [...premises] }] : []
  })
}

/** Splits allowed for one candidate, in rounds: small trees are looked for everywhere before big ones anywhere. */
const ROUNDS = [20, 2_000, 200_000] as const

/**
 * One candidate is supposed, and splits within splits lead to contradictions everywhere. On a puzzle with one solution
 * this refutes every wrong candidate, so that logic never ends before the puzzle does.
 */
export const forcingNet: Technique = {
  name: 'forcing-net',
  level: 'branch',
  find(board, report) {
    const { propagation } = outlookOf(board)
    let open = propagation.candidates.map((_, id) => id)
    for (const splits of ROUNDS) {
      const drafts: Draft[] = []
      open = open.filter((id) => {
        const premises = refutation(propagation, id, { splits })
        if (premises) drafts.push({ claim: removalOf(propagation.candidates[id]!), premises: [...premises] })
        return !premises
      })
      for (const draft of bySize(drafts)) {
        const found = laidOut(board, draft)
        if (!found || found.flat) continue
        if (report(stepOf('forcing-net', draft.claim, found.premises, found.tree))) return
      }
    }
  },
}

export const cellForcingChain = forcingChain('cell')
export const houseForcingChain = forcingChain('house')
