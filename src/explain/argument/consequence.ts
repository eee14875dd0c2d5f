import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { exclude } from '../../logic/exclude.js'
import { alternativesOf } from '../../logic/premise-search.js'
import type { Premise } from '../../logic/step.js'

export interface Consequence {
  readonly forced: readonly { readonly candidate: Candidate; readonly premise: Premise | undefined }[]
  /** The premise that is left without an alternative; `undefined` for the one handed in as bare candidates. */
  readonly end: Premise | undefined
}

interface Forced {
  readonly candidate: Candidate
  /** Index of the premise that forces it; -1 for the supposition itself. */
  readonly premise: number
  /** Positions of the earlier facts that left it alone. */
  readonly because: readonly number[]
}

/**
 * Follows the denial of a conclusion through the premises: whenever a premise has one alternative left, that one is
 * true. Tells the way to the premise with none left, without the detours, or `undefined` when such plain following does
 * not get there (the premises then fail together only when several are tried at once).
 *
 * @param oneOf candidates of which one is true for another reason than a premise
 * @param supposed the candidate whose removal is denied (`isTrue`), or whose placement is denied (`!isTrue`)
 */
export function followDenial(
  geometry: Geometry,
  premises: readonly Premise[],
  supposed: Candidate,
  isTrue: boolean,
  oneOf: readonly Candidate[] = [],
): Consequence | undefined {
  const facts: Forced[] = isTrue ? [{ candidate: supposed, premise: -1, because: [] }] : []
  const choices = premises.map(alternativesOf)
  if (oneOf.length > 0) choices.push([...oneOf])
  /** The fact that rules the candidate out, -1 for the supposition of a denied placement, `undefined` for none. */
  const ruledOutBy = (candidate: Candidate): number | undefined => {
    if (!isTrue && candidate.cell === supposed.cell && candidate.digit === supposed.digit) return -1
    const at = facts.findIndex((fact) => exclude(geometry, fact.candidate, candidate))
    return at < 0 ? undefined : at
  }
  const used = new Set<number>()
  for (let progress = true; progress; ) {
    progress = false
    for (let p = 0; p < choices.length; p++) {
      if (used.has(p)) continue
      const open: Candidate[] = []
      const because: number[] = []
      for (const choice of choices[p]!) {
        const by = ruledOutBy(choice)
        if (by === undefined) open.push(choice)
        else if (by >= 0) because.push(by)
      }
      if (open.length === 0) return { forced: needed(facts, because, premises), end: premises[p] }
      if (open.length === 1) {
        used.add(p)
        facts.push({ candidate: open[0]!, premise: p, because })
        progress = true
      }
    }
  }
  return undefined
}

/** The forced facts that the last ones rest on, in order, without the supposition. */
function needed(
  facts: readonly Forced[],
  last: readonly number[],
  premises: readonly Premise[],
): Consequence['forced'] {
  const keep = new Set<number>()
  const visit = (at: number) => {
    if (keep.has(at)) return
    keep.add(at)
    for (const before of facts[at]!.because) visit(before)
  }
  for (const at of last) visit(at)
  return [...keep]
    .sort((a, b) => a - b)
    .map((at) => facts[at]!)
    .filter((fact) => fact.premise >= 0)
    .map((fact) => ({ candidate: fact.candidate, premise: premises[fact.premise] }))
}
