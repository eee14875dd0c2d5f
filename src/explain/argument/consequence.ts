import type { Candidate } from '../../grid/board.js'
import { digitCount } from '../../grid/digits.js'
import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { exclude } from '../../logic/proof/exclude.js'
import { alternativesOf } from '../../logic/proof/premise-search.js'
import type { ChainNode, Premise } from '../../logic/steps/step.js'

/**
 * What follows from a denial: a candidate that its premise leaves alone, or cells that have as many digits left as they
 * are.
 */
export type Forced =
  | { readonly candidate: Candidate; readonly premise: Premise | undefined }
  | { readonly locked: readonly number[]; readonly digits: readonly number[] }

/** What follows, and from what. */
export interface Consequence {
  readonly forced: readonly Forced[]
  /** The premise that is left without an alternative; `undefined` for the one handed in as bare candidates. */
  readonly end: Premise | undefined
}

interface Found {
  /** What is true: for each digit, one of these cells has it. */
  readonly nodes: readonly ChainNode[]
  /** How it is said; `undefined` for the supposition itself. */
  readonly forced: Forced | undefined
  /** Positions of the earlier facts that left it alone. */
  readonly because: readonly number[]
}

/** What is left of a premise, and the positions of the facts that ruled out the rest. */
interface Left {
  readonly open: readonly Candidate[]
  readonly because: readonly number[]
}

/** A conclusion denied. */
export interface Denial {
  /** The candidate whose removal is denied (`isTrue`), or whose placement is. */
  readonly supposed: Candidate
  readonly isTrue: boolean
  /** Candidates of which one is true for another reason than a premise. */
  readonly oneOf?: readonly Candidate[]
  /** What else is taken to be true, case by case. */
  readonly assumed?: readonly Candidate[]
}

/**
 * Follows the denial of a conclusion through the premises: whenever a premise has one alternative left, that one is
 * true; where none has, cells of a house that have as many digits left as they are keep these from all others. Tells
 * the way to the premise with none left, without the detours, or `undefined` when such following does not get there
 * (the premises then fail together only when several are tried at once).
 */
export function followDenial(
  geometry: Geometry,
  premises: readonly Premise[],
  { supposed, isTrue, oneOf = [], assumed = [] }: Denial,
): Consequence | undefined {
  const found: Found[] = [...(isTrue ? [supposed] : []), ...assumed].map((candidate) => ({
    nodes: [nodeOf(candidate)],
    forced: undefined,
    because: [],
  }))
  const choices = premises.map(alternativesOf)
  if (oneOf.length > 0) choices.push([...oneOf])
  /** The fact that rules the candidate out, -1 for the supposition of a denied placement, `undefined` for none. */
  const ruledOutBy = (candidate: Candidate): number | undefined => {
    if (!isTrue && candidate.cell === supposed.cell && candidate.digit === supposed.digit) return -1
    const at = found.findIndex(({ nodes }) =>
      nodes.some(({ digit, cells }) => cells.every((cell) => exclude(geometry, { cell, digit }, candidate))),
    )
    return at < 0 ? undefined : at
  }
  const leftOf = (choice: number): Left => {
    const open: Candidate[] = []
    const because: number[] = []
    for (const candidate of choices[choice]!) {
      const by = ruledOutBy(candidate)
      if (by === undefined) open.push(candidate)
      else if (by >= 0) because.push(by)
    }
    return { open, because }
  }
  const used = new Set<number>()
  const named = new Set<string>()
  for (let progress = true; progress; ) {
    progress = false
    for (let p = 0; p < choices.length; p++) {
      if (used.has(p)) continue
      const { open, because } = leftOf(p)
      if (open.length === 0) return { forced: needed(found, because), end: premises[p] }
      if (open.length > 1) continue
      used.add(p)
      const candidate = open[0]!
      found.push({ nodes: [nodeOf(candidate)], forced: { candidate, premise: premises[p] }, because })
      progress = true
    }
    if (progress) continue
    const cells = premises.flatMap((premise, p) =>
      premise.kind === 'cell' && !used.has(p) ? [{ cell: premise.cell, ...leftOf(p) }] : [],
    )
    const locked = lockedCells(geometry, cells, named)
    if (!locked) continue
    found.push(locked)
    progress = true
  }
  return undefined
}

/** Each alternative of a premise, tried together with what is supposed, and how it fails. */
export interface Refutation {
  readonly premise: Premise
  readonly ways: readonly { readonly assume: Candidate; readonly fails: Consequence | Refutation }[]
}

/** Splits within splits that can be followed by ear. */
const DEEPEST = 4

/**
 * Refutes a denial by cases, where following it does not do: the first premise whose alternatives all fail, with the
 * fewest splits within. `undefined` when there is none.
 */
export function refuteDenial(
  geometry: Geometry,
  premises: readonly Premise[],
  denial: Denial,
): Refutation | undefined {
  for (let depth = 1; depth <= DEEPEST; depth++) {
    const found = refuteWithin(geometry, premises, denial, depth)
    if (found) return found
  }
  return undefined
}

function refuteWithin(
  geometry: Geometry,
  premises: readonly Premise[],
  denial: Denial,
  depth: number,
): Refutation | undefined {
  const { supposed, isTrue, assumed = [] } = denial
  const truths = [...(isTrue ? [supposed] : []), ...assumed]
  const isOpen = (candidate: Candidate): boolean =>
    !truths.some((one) => exclude(geometry, one, candidate)) &&
    (isTrue || candidate.cell !== supposed.cell || candidate.digit !== supposed.digit)
  const splits = premises
    .map((premise) => ({ premise, open: alternativesOf(premise).filter(isOpen) }))
    .filter(({ open }) => open.length > 1)
    .sort((a, b) => a.open.length - b.open.length)
  for (const { premise, open } of depth > 1 ? splits.slice(0, WIDEST) : splits) {
    const ways: Refutation['ways'][number][] = []
    for (const assume of open) {
      const inCase = { ...denial, assumed: [...assumed, assume] }
      const fails =
        followDenial(geometry, premises, inCase) ??
        (depth > 1 ? refuteWithin(geometry, premises, inCase, depth - 1) : undefined)
      if (!fails) break
      ways.push({ assume, fails })
    }
    if (ways.length === open.length) return { premise, ways }
  }
  return undefined
}

/** Premises that are split where further splits follow. */
const WIDEST = 6

function nodeOf({ cell, digit }: Candidate): ChainNode {
  return { digit, cells: [cell] }
}

/** More cells than a quad are hard to see. */
const MOST_LOCKED = 4

/**
 * The fewest of these cells, a quad at most, that share a house and have as many digits left as they are, unless named
 * before.
 */
function lockedCells(
  geometry: Geometry,
  cells: readonly (Left & { readonly cell: number })[],
  named: Set<string>,
): Found | undefined {
  const layout = layoutOf(geometry)
  for (let size = 2; size <= MOST_LOCKED; size++) {
    for (const { index } of layout.houses) {
      const inHouse = cells.filter(({ cell }) => layout.positionIn(index, cell) >= 0)
      for (let chosen = 0; chosen < 1 << inHouse.length; chosen++) {
        if (digitCount(chosen) !== size) continue
        const set = inHouse.filter((_, i) => chosen & (1 << i))
        const open = set.flatMap((one) => one.open)
        const digits = [...new Set(open.map(({ digit }) => digit))].sort((a, b) => a - b)
        const locked = set.map(({ cell }) => cell)
        if (digits.length !== size || named.has(locked.join())) continue
        named.add(locked.join())
        const nodes = digits.map((digit) => ({
          digit,
          cells: open.filter((one) => one.digit === digit).map(({ cell }) => cell),
        }))
        return { nodes, forced: { locked, digits }, because: set.flatMap((one) => one.because) }
      }
    }
  }
  return undefined
}

/** What the last facts rest on, in order, without the supposition. */
function needed(found: readonly Found[], last: readonly number[]): Forced[] {
  const keep = new Set<number>()
  const visit = (at: number) => {
    if (keep.has(at)) return
    keep.add(at)
    for (const before of found[at]!.because) visit(before)
  }
  for (const at of last) visit(at)
  return [...keep].sort((a, b) => a - b).flatMap((at) => found[at]!.forced ?? [])
}
