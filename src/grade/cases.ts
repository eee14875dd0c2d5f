import { solutionsTask } from '../count/count-solutions.js'
import { puzzleOf } from '../grid/board/ask.js'
import type { Board, Candidate, Conclusion } from '../grid/board.js'
import type { Task, Watch } from '../limits.js'
import type { Facts } from '../logic/facts/facts.js'
import type { TechniqueName } from '../logic/technique-names.js'
import { claimsByCases } from '../logic/techniques/cases.js'

const KINDS = { 'cell-forcing-chain': 'cell', 'house-forcing-chain': 'house', nishio: 'supposition' } as const

export type CaseTechnique = keyof typeof KINDS | 'forcing-net'

export function isByCases(technique: TechniqueName): technique is CaseTechnique {
  return technique === 'forcing-net' || technique in KINDS
}

/**
 * All that case analysis of this name concludes. Forcing nets refute every wrong candidate of a puzzle with one
 * solution sooner or later, so they end it; which they refute first depends on where they begin.
 */
export function* concludedByCases(facts: Facts, technique: CaseTechnique, watch: Watch): Task<Conclusion> {
  if (technique === 'forcing-net')
    return { placements: [], removals: yield* wrongCandidates(facts.board, watch) }
  const claims = yield* claimsByCases(facts, KINDS[technique], watch)
  const of = (kind: 'placement' | 'removal'): Candidate[] =>
    claims.flatMap((claim) => (claim.kind === kind ? [claim.candidate] : []))
  return { placements: of('placement'), removals: of('removal') }
}

function* wrongCandidates(board: Board, watch: Watch): Task<Candidate[]> {
  const { geometry, candidates } = board
  const { solutions, stopped } = yield* solutionsTask(puzzleOf(board), { limit: 1 }, watch)
  if (stopped === 'time-limit') throw watch.timeIsOver()
  const [solution] = solutions
  const wrong: Candidate[] = []
  for (let cell = 0; solution && cell < geometry.cellCount; cell++)
    for (let digit = 1; digit <= geometry.order; digit++)
      if (digit !== solution[cell] && (candidates[cell]! & (1 << (digit - 1))) !== 0)
        wrong.push({ cell, digit })
  return wrong
}
