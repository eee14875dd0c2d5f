import type { Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { FoundStep, Pattern } from '../../logic/steps/step.js'
import type { Fact } from './facts.js'
import type { ColourOf, Reason, Why } from './reason.js'
import { ascending, houseOf } from './sight.js'

type Colouring = Extract<Pattern, { shape: 'colouring' }>

/** Two candidates of one colour that exclude each other: that colour cannot be the true one. */
export function colourClash(
  geometry: Geometry,
  colour: readonly Candidate[],
): readonly [Candidate, Candidate] | undefined {
  for (const [i, a] of colour.entries())
    for (const b of colour.slice(i + 1)) if (exclude(geometry, a, b)) return [a, b]
  return undefined
}

export function argueColouring(
  { before: { geometry } }: FoundStep,
  { clusters, links }: Colouring,
  reasons: readonly Why[],
): Fact[] {
  const facts: Fact[] = clusters.map(({ one, other }, index): Fact => {
    const digits = new Set([...one, ...other].map((candidate) => candidate.digit))
    const isOwn = (cell: number) => [...one, ...other].some((candidate) => candidate.cell === cell)
    const houses = ascending(
      links.flatMap(({ kind, by, from }) =>
        kind === 'strong' && by.kind === 'house' && from.cells.every(isOwn) ? [by.house] : [],
      ),
    )
    const digit = digits.size === 1 ? [...digits][0] : undefined
    return { kind: 'cluster', digit, index, one, other, houses }
  })
  clusters.forEach((cluster, index) => {
    for (const colour of ['one', 'other'] as const) {
      const pair = colourClash(geometry, cluster[colour])
      const by = outseenBy(geometry, clusters, index, colour)
      if (pair) {
        const [a, b] = pair
        const house = a.cell === b.cell ? undefined : houseOf(geometry, [a.cell, b.cell])
        facts.push({ kind: 'colour-clash', index, colour, pair, house })
      } else if (by !== undefined) facts.push({ kind: 'colour-outseen', index, colour, by })
    }
  })
  if (facts.length === clusters.length) {
    // only those that a removal makes use of
    for (const { near, far, pair } of bridges(geometry, clusters))
      if (reasons.some(({ reason }) => rests(reason, opposite(near), opposite(far))))
        facts.push({ kind: 'colour-bridge', near, far, pair })
  }
  return facts
}

function rests(reason: Reason, near: ColourOf, far: ColourOf): boolean {
  if (reason.kind !== 'sees-both-colours') return false
  const isSame = (a: ColourOf, b: ColourOf) => a.index === b.index && a.colour === b.colour
  return isSame(reason.one, near) && isSame(reason.other, far)
}

type Clusters = Colouring['clusters']
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
