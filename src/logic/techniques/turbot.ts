import type { Board, Candidate } from '../../grid/board.js'
import type { Geometry } from '../../grid/geometry.js'
import type { HouseKind } from '../../grid/layout.js'
import { layoutOf } from '../../grid/layout.js'
import { holderMask, maskWords, peerMasks } from '../chains/cell-masks.js'
import { misplaced } from '../facts/digit-placements.js'
import { type Bilocal, candidatesSeenByAll, type Facts } from '../facts/facts.js'
import { oncePerPlaces, patternByDigit } from '../facts/path-memory.js'
import type { ChainNode, Premise, Step } from '../steps/step.js'
import type { Technique } from '../technique.js'

const NAMES = ['skyscraper', 'two-string-kite', 'turbot-fish'] as const
type Name = (typeof NAMES)[number]

/**
 * Two houses with two places each for a digit, joined where one place of each sees the other: not both of the joined
 * ends are true, so one of the far ends is, and what sees both far ends loses the digit.
 *
 * Parallel lines joined by a line make a skyscraper, a row and a column joined in a box a two-string kite; every other
 * way of joining two strong links is called a turbot fish.
 */
const turbots = oncePerPlaces((facts, digit): readonly Step[] => {
  const { board } = facts
  const { geometry } = board
  const layout = layoutOf(geometry)
  const steps: Step[] = []
  const seen = new Set<string>()
  const links = facts.bilocal(digit)
  if (links.length < 2 || misplaced(facts, digit).length === 0) return steps
  const inSight = new SightCheck(facts, digit)
  for (let i = 0; i < links.length; i++) {
    for (let j = i + 1; j < links.length; j++) {
      for (let way = 0; way < WAYS_TO_JOIN.length; way++) {
        const [first, second] = WAYS_TO_JOIN[way]!
        const ones = links[i]!.ends
        const others = links[j]!.ends
        if (!layout.arePeers(ones[first], others[second])) continue
        if (!inSight.any(ones[first], others[second], ones[1 - first]!, others[1 - second]!)) continue
        const near = [ones[first], others[second]] as const
        const far = [ones[1 - first]!, others[1 - second]!] as const
        if (isXWing(geometry, links[i]!.house, links[j]!.house, far)) continue
        const removals = removalsBy(board, digit, near, far)
        if (removals.length === 0) continue
        // The same two links may each be a line and a box at once; lines come first and report it.
        const key = `${[...far].sort()}:${[...near].sort()}`
        if (seen.has(key)) continue
        seen.add(key)
        steps.push(turbot(geometry, digit, links[i]!, links[j]!, near, far, removals))
      }
    }
  }
  return steps
})

/** Says with a few words of bits whether a pair of links removes anything; most pairs do not. */
class SightCheck {
  private readonly words: number
  private readonly peers: Uint32Array
  private readonly holders: Uint32Array

  constructor(facts: Facts, digit: number) {
    const { board } = facts
    this.words = maskWords(board.geometry)
    this.peers = peerMasks(board.geometry)
    this.holders = holderMask(facts, digit)
  }

  /** Do both far ends see a place that neither of the near ones does? */
  any(near: number, otherNear: number, far: number, otherFar: number): boolean {
    const { words, peers, holders } = this
    for (let w = 0; w < words; w++) {
      const seen = holders[w]! & peers[far * words + w]! & peers[otherFar * words + w]!
      if (seen & ~peers[near * words + w]! & ~peers[otherNear * words + w]!) return true
    }
    return false
  }
}

const WAYS_TO_JOIN = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
] as const

/** Parallel lines whose far ends share a line as well: an X-wing says it all. */
function isXWing(geometry: Geometry, one: number, other: number, far: readonly [number, number]): boolean {
  const layout = layoutOf(geometry)
  const kind = layout.houses[one]!.kind
  if (kind !== layout.houses[other]!.kind || (kind !== 'row' && kind !== 'column')) return false
  const across = layout.housesOf[far[0]]!.find((house) => {
    const { kind: own } = layout.houses[house]!
    return own !== kind && (own === 'row' || own === 'column')
  })
  return across !== undefined && layout.positionIn(across, far[1]) >= 0
}

/** What sees both far ends, but for what one of the two links removes alone. */
function removalsBy(
  board: Board,
  digit: number,
  near: readonly [number, number],
  far: readonly [number, number],
): Candidate[] {
  if (far[0] === far[1] || near.includes(far[0]) || near.includes(far[1])) return []
  const { geometry } = board
  const layout = layoutOf(geometry)
  return candidatesSeenByAll(board, digit, far)
    .filter((cell) => !layout.arePeers(cell, near[0]) && !layout.arePeers(cell, near[1]))
    .filter((cell) => !near.includes(cell))
    .map((cell) => ({ cell, digit }))
}

function turbot(
  geometry: Geometry,
  digit: number,
  one: Bilocal,
  other: Bilocal,
  near: readonly [number, number],
  far: readonly [number, number],
  removals: Candidate[],
): Step {
  const layout = layoutOf(geometry)
  const joint = layout.housesOf[near[0]]!.filter((house) => layout.positionIn(house, near[1]) >= 0)
  const name = nameOf(geometry, one.house, other.house, joint)
  const node = (cell: number): ChainNode => ({ digit, cells: [cell] })
  return {
    technique: name,
    level: 'pattern',
    placements: [],
    removals,
    premises: [one, other].map(
      ({ house, ends }): Premise => ({ kind: 'house', house, digit, cells: [...ends] }),
    ),
    pattern: {
      shape: 'chain',
      loop: false,
      links: [
        { from: node(far[0]), to: node(near[0]), kind: 'strong', by: { kind: 'house', house: one.house } },
        { from: node(near[0]), to: node(near[1]), kind: 'weak', by: { kind: 'house', house: joint[0]! } },
        { from: node(near[1]), to: node(far[1]), kind: 'strong', by: { kind: 'house', house: other.house } },
      ],
    },
  }
}

function nameOf(geometry: Geometry, one: number, other: number, joint: readonly number[]): Name {
  const layout = layoutOf(geometry)
  const kind = (house: number): HouseKind => layout.houses[house]!.kind
  const isLine = (house: number): boolean => kind(house) === 'row' || kind(house) === 'column'
  if (isLine(one) && isLine(other)) {
    if (kind(one) === kind(other) && joint.some(isLine)) return 'skyscraper'
    if (kind(one) !== kind(other) && joint.some((house) => !isLine(house))) return 'two-string-kite'
  }
  return 'turbot-fish'
}

const technique = (name: Name): Technique => patternByDigit(name, turbots)

export const skyscraper = technique('skyscraper')
export const twoStringKite = technique('two-string-kite')
export const turbotFish = technique('turbot-fish')
