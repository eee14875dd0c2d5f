import type { Candidate } from '../grid/board.js'
import type { ChainLink, ChainNode, FoundStep } from '../logic/steps/step.js'

/**
 * Chains with a common part and two ends, each as one step: where a chain begins as another one goes all its way, the
 * longer proves what both conclude. Read from either end; a chain whose links need a supposition, and a ring, stay
 * alone.
 */
export function oneStory(steps: readonly FoundStep[]): FoundStep[] {
  const shorter = new Map<string, FoundStep[]>()
  for (const step of steps)
    for (const links of bothWays(step)) {
      const key = keyOf(links)
      const own = shorter.get(key)
      if (own) own.push(step)
      else shorter.set(key, [step])
    }
  const stories: FoundStep[] = []
  for (const step of steps)
    for (const links of bothWays(step)) {
      const removals = new Map(step.removals.map((removal) => [numberOf(removal), removal]))
      const own = removals.size
      // after every strong link the chain has come to an end of its own
      for (let length = 3; length < links.length; length += 2)
        for (const other of shorter.get(keyOf(links.slice(0, length))) ?? [])
          for (const removal of other.removals) removals.set(numberOf(removal), removal)
      if (removals.size === own || step.pattern.shape !== 'chain') continue
      stories.push({
        ...step,
        pattern: { ...step.pattern, links },
        removals: [...removals.values()].sort((a, b) => numberOf(a) - numberOf(b)),
      })
    }
  return stories
}

/** The links of a chain that is strong at both ends, from the one and from the other; none of any other step. */
function bothWays({ pattern, placements }: FoundStep): (readonly ChainLink[])[] {
  if (pattern.shape !== 'chain' || pattern.loop || placements.length > 0) return []
  const { links } = pattern
  const isFree = links.every(
    ({ kind, by, fins }, i) => kind === (i % 2 === 0 ? 'strong' : 'weak') && by.kind !== 'premises' && !fins,
  )
  if (!isFree || links.length % 2 === 0) return []
  const back = [...links].reverse().map((link): ChainLink => ({ ...link, from: link.to, to: link.from }))
  return [links, back]
}

const nodeKey = ({ digit, cells }: ChainNode) => `${digit}:${cells.join()}`

function keyOf(links: readonly ChainLink[]): string {
  return links.map(({ from, to, by }) => `${nodeKey(from)}=${nodeKey(to)}/${JSON.stringify(by)}`).join(' ')
}

function numberOf({ cell, digit }: Candidate): number {
  return cell * 32 + digit
}
