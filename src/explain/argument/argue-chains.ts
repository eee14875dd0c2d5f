import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { CaseTree, ChainLink, ChainNode, FoundStep, Pattern } from '../../logic/step.js'
import { sameNode } from '../notation.js'
import { exclude } from './consequence.js'
import type { Fact } from './facts.js'

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
 * A chain is told by walking it once: suppose the first end is false (true when the chain begins with a weak link) and
 * name what each link does to the next node.
 */
export function argueChain(pattern: Extract<Pattern, { shape: 'chain' }>): Fact[] | undefined {
  const { links, loop } = pattern
  const ends = chainEnds(links)
  if (!ends || !alternates(links)) return undefined
  const startsTrue = links[0]!.kind === 'weak'
  const moves = links.map((link) => ({ node: link.to, becomes: link.kind === 'strong', by: link.by }))
  const facts: Fact[] = [{ kind: 'chain-walk', start: ends.first, startsTrue, moves }]
  const endsTrue = links[links.length - 1]!.kind === 'strong'
  if (loop) facts.push({ kind: 'loop' })
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
  const facts: Fact[] = []
  pattern.clusters.forEach(({ one, other }, index) => {
    const digits = new Set([...one, ...other].map((candidate) => candidate.digit))
    facts.push({ kind: 'cluster', digit: digits.size === 1 ? [...digits][0] : undefined, index, one, other })
  })
  pattern.clusters.forEach((cluster, index) => {
    for (const colour of ['one', 'other'] as const) {
      const pair = colourClash(geometry, cluster[colour])
      if (pair) facts.push({ kind: 'colour-clash', index, colour, pair })
    }
  })
  return facts
}

export function argueCases(tree: CaseTree, path: readonly number[] = []): Fact[] {
  // A supposition has one case, and that case says all of it.
  const facts: Fact[] = tree.split.kind === 'suppose' ? [] : [{ kind: 'split', premise: tree.split, path }]
  tree.branches.forEach(({ assume, follows, end }, i) => {
    const here = [...path, i + 1]
    facts.push({
      kind: 'branch',
      path: here,
      supposed: tree.split.kind === 'suppose',
      assume,
      follows,
      end: end.kind === 'contradiction' ? { contradiction: end.premise } : end.kind,
    })
    if (end.kind === 'split') facts.push(...argueCases(end.tree, here))
  })
  return facts
}
