import type { Step } from '../steps/step.js'

/**
 * Is the step's chain, if it is explained as one, no longer than so many links? Strong and weak links take turns, so n
 * strong ones make 2n - 1 links; the weak link that closes a loop is not counted.
 */
export function isWithinLength({ pattern }: Step, maxLinks: number | undefined): boolean {
  if (maxLinks === undefined || pattern.shape !== 'chain') return true
  let strong = 0
  for (const { kind } of pattern.links) if (kind === 'strong') strong++
  return 2 * strong - 1 <= maxLinks
}

/** The most strong links of a chain no longer than so many links: n strong ones have n - 1 weak ones between them. */
export function strongLinks(maxLinks = Number.POSITIVE_INFINITY): number {
  return Math.floor((maxLinks + 1) / 2)
}

/** Longest chain when all lengths are asked for and no limit is named: there are too many longer ones. */
export const LINKS_OF_ALL = 7
