import type { CaseTree, FoundStep } from '../../logic/steps/step.js'
import { argueCases, refutationFacts } from './argue-cases.js'
import { type Consequence, followDenial, type Refutation, refuteDenial } from './consequence.js'
import type { Fact } from './facts.js'

/** How a supposition fails: by what follows, or case by case. */
export type NetStory = Consequence | Refutation

/**
 * The story of a net is often shorter than the search that found it, since cells which have as many digits left as
 * they are settle what took cases there. `undefined` for the net as it was found.
 */
export function netStory(step: FoundStep, tree: CaseTree): NetStory | undefined {
  const [removal, more] = step.removals
  const isNet = tree.split.kind === 'suppose' && tree.branches.some(({ end }) => end.kind === 'split')
  if (!isNet || !removal || more || step.placements.length > 0) return undefined
  const { geometry } = step.before
  const denial = { supposed: removal, isTrue: true }
  const story = followDenial(geometry, step.premises, denial) ?? refuteDenial(geometry, step.premises, denial)
  return story && weightOf(storyFacts(step, story)) < weightOf(argueCases(step, tree)) ? story : undefined
}

export function storyFacts({ removals }: FoundStep, story: NetStory): Fact[] {
  const suppose: Fact = { kind: 'suppose', candidates: removals }
  return 'ways' in story
    ? [suppose, ...refutationFacts(story)]
    : [suppose, { kind: 'follows', forced: story.forced, end: story.end ?? 'exchange' }]
}

/** How much there is to follow. */
function weightOf(facts: readonly Fact[]): number {
  return facts.reduce((sum, fact) => {
    const follows = fact.kind === 'branch' ? fact.follows : fact.kind === 'follows' ? fact.forced : []
    // cells that are locked take as long to say as two others
    return sum + 1 + follows.reduce((own, one) => own + ('locked' in one ? 2 : 1), 0)
  }, 0)
}
