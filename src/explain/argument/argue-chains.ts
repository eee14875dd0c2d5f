import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { exclude } from '../../logic/exclude.js'
import type { CaseTree, ChainLink, ChainNode, FoundStep, Pattern } from '../../logic/step.js'
import { sameNode } from '../notation.js'
import type { ColourOf, Fact } from './facts.js'

/** Do the links join end to end, strong and weak in turn? */
export function alternates(links: readonly ChainLink[]): boolean {
  return links.every((link, i) => {
    const previous = links[i - 1]
    return !previous || (sameNode(previous.to, link.from) && previous.kind !== link.kind)
  })
}

/** The first and last node of a chain. */
export function chainEnds(links: readonly ChainLink[]): { first: ChainNode; last: ChainNode } | undefined {
  const first = links[0]?.from
  const last = links[links.length - 1]?.to
  return first && last ? { first, last } : undefined
}

/**
 * Chains some of whose strong links have fins, or rest on the premises as a whole, hold only under the supposition that a candidate to
 * be removed is true: it clears away the fins that would spoil those links.
 */
export function isFinned(links: readonly ChainLink[]): boolean {
  return links.some(({ kind, by, fins }) => kind === 'strong' && (fins || by.kind === 'premises'))
}

/**
 * A chain is explained by walking it once: suppose the first end is false (true when the chain begins with a weak link) and
 * name what each link does to the next node.
 */
export function argueChain(
  step: FoundStep,
  pattern: Extract<Pattern, { shape: 'chain' }>,
): Fact[] | undefined {
  const { links, loop } = pattern
  const ends = chainEnds(links)
  if (!ends || !alternates(links)) return undefined
  const startsTrue = links[0]!.kind === 'weak'
  const endsTrue = links[links.length - 1]!.kind === 'strong'
  const given = isFinned(links) ? step.removals : []
  if (given.length > 0 && (loop || startsTrue || !endsTrue)) return undefined
  const moves = links.map(({ to, kind, by, fins = [] }) => ({
    node: to,
    becomes: kind === 'strong',
    by,
    fins,
  }))
  const facts: Fact[] = [{ kind: 'chain-walk', given, start: ends.first, startsTrue, moves }]
  if (given.length > 0) facts.push({ kind: 'end-excluded', node: ends.last, given })
  else if (loop) facts.push({ kind: 'loop' })
  else if (sameNode(ends.first, ends.last)) {
    if (startsTrue !== endsTrue)
      facts.push({ kind: 'self-contradiction', node: ends.first, supposed: startsTrue })
  } else if (!startsTrue && endsTrue) facts.push({ kind: 'one-of', nodes: [ends.first, ends.last] })
  return facts
}

/** Two candidates of one colour that exclude each other: that colour cannot be the true one. */
export function colourClash(
  geometry: Geometry,
  colour: readonly Candidate[],
): readonly [Candidate, Candidate] | undefined {
  for (const [i, a] of colour.entries())
    for (const b of colour.slice(i + 1)) if (exclude(geometry, a, b)) return [a, b]
  return undefined
}

export function argueColouring(step: FoundStep, pattern: Extract<Pattern, { shape: 'colouring' }>): Fact[] {
  const { geometry } = step.before
  const { clusters } = pattern
  const facts: Fact[] = clusters.map(({ one, other }, index): Fact => {
    const digits = new Set([...one, ...other].map((candidate) => candidate.digit))
    return { kind: 'cluster', digit: digits.size === 1 ? [...digits][0] : undefined, index, one, other }
  })
  clusters.forEach((cluster, index) => {
    for (const colour of ['one', 'other'] as const) {
      const pair = colourClash(geometry, cluster[colour])
      const by = outseenBy(geometry, clusters, index, colour)
      if (pair) facts.push({ kind: 'colour-clash', index, colour, pair })
      else if (by !== undefined) facts.push({ kind: 'colour-outseen', index, colour, by })
    }
  })
  if (facts.length === clusters.length) {
    for (const { near, far, pair } of bridges(geometry, clusters))
      facts.push({ kind: 'colour-bridge', near, far, pair })
  }
  return facts
}

type Clusters = Extract<Pattern, { shape: 'colouring' }>['clusters']
const COLOURS = ['one', 'other'] as const

/** The cluster both of whose colours a colour excludes, if there is one. */
export function outseenBy(
  geometry: Geometry,
  clusters: Clusters,
  index: number,
  colour: 'one' | 'other',
): number | undefined {
  const own = clusters[index]![colour]
  const touches = (side: readonly Candidate[]) => side.some((b) => own.some((a) => exclude(geometry, a, b)))
  const by = clusters.findIndex(
    (cluster, other) => other !== index && touches(cluster.one) && touches(cluster.other),
  )
  return by < 0 ? undefined : by
}

/** Colours of two clusters of which not both are true, each with a pair of candidates that shows it. */
export function bridges(
  geometry: Geometry,
  clusters: Clusters,
): { near: ColourOf; far: ColourOf; pair: readonly [Candidate, Candidate] }[] {
  const found: { near: ColourOf; far: ColourOf; pair: readonly [Candidate, Candidate] }[] = []
  for (let i = 0; i < clusters.length; i++) {
    for (let j = i + 1; j < clusters.length; j++) {
      for (const near of COLOURS) {
        for (const far of COLOURS) {
          const pair = excludingPair(geometry, clusters[i]![near], clusters[j]![far])
          if (pair) found.push({ near: { index: i, colour: near }, far: { index: j, colour: far }, pair })
        }
      }
    }
  }
  return found
}

function excludingPair(
  geometry: Geometry,
  near: readonly Candidate[],
  far: readonly Candidate[],
): readonly [Candidate, Candidate] | undefined {
  for (const a of near) for (const b of far) if (exclude(geometry, a, b)) return [a, b]
  return undefined
}

export function opposite({ index, colour }: ColourOf): ColourOf {
  return { index, colour: colour === 'one' ? 'other' : 'one' }
}

export function argueCases(tree: CaseTree, path: readonly number[] = []): Fact[] {
  const { split, branches } = tree
  const supposed = split.kind === 'suppose'
  const left = branches.map(({ assume }) => assume)
  // A supposition has one case, and that case says all of it.
  const facts: Fact[] = supposed ? [] : [{ kind: 'split', premise: split, left, path }]
  branches.forEach(({ assume, follows, end }, i) => {
    const here = supposed ? path : [...path, i + 1]
    facts.push({
      kind: 'branch',
      path: here,
      supposed,
      assume,
      follows,
      end: end.kind === 'contradiction' ? { contradiction: end.premise } : end.kind,
    })
    if (end.kind === 'split') facts.push(...argueCases(end.tree, here))
  })
  return facts
}
