import type { Candidate } from '../../grid/board.js'
import { exclude } from '../../logic/proof/exclude.js'
import type { CaseTree, FoundStep } from '../../logic/steps/step.js'
import type { Refutation } from './consequence.js'
import type { Fact } from './facts.js'

/** A tree of cases, case by case, each with what follows in it and how it ends. */
export function argueCases(
  step: FoundStep,
  tree: CaseTree,
  path: readonly number[] = [],
  truths: readonly Candidate[] = [],
  earlier = new Map<string, readonly number[]>(),
): Fact[] {
  const { split, branches } = tree
  const supposed = split.kind === 'suppose'
  const left = branches.map(({ assume }) => assume)
  // A supposition has one case, and that case says all of it.
  const facts: Fact[] = supposed ? [] : [{ kind: 'split', premise: split, left, path }]
  branches.forEach(({ assume, follows, end }, i) => {
    const here = supposed ? path : [...path, i + 1]
    const known = [...truths, assume, ...follows.map(({ candidate }) => candidate)]
    const within = end.kind === 'split' ? JSON.stringify(end.tree) : ''
    const like = earlier.get(within)
    facts.push({
      kind: 'branch',
      path: here,
      supposed,
      assume,
      follows,
      end:
        end.kind === 'contradiction'
          ? { contradiction: end.premise }
          : end.kind === 'claim'
            ? { by: provenBy(step, known), removed: step.removals }
            : like
              ? { like }
              : 'split',
    })
    if (end.kind !== 'split' || like) return
    earlier.set(within, here)
    facts.push(...argueCases(step, end.tree, here, known, earlier))
  })
  return facts
}

/** Of what is true in a case, those that rule out what is to be removed. */
function provenBy(step: FoundStep, known: readonly Candidate[]): Candidate[] {
  const found: Candidate[] = []
  for (const removal of step.removals) {
    const by = known.filter((candidate) => exclude(step.before.geometry, candidate, removal))
    const last = by[by.length - 1]
    if (last && !by.some((candidate) => found.includes(candidate))) found.push(last)
  }
  return found
}

/** The cases of a refutation, all of which fail. */
export function refutationFacts({ premise, ways }: Refutation, path: readonly number[] = []): Fact[] {
  const facts: Fact[] = [{ kind: 'split', premise, left: ways.map(({ assume }) => assume), path }]
  ways.forEach(({ assume, fails }, i) => {
    const here = [...path, i + 1]
    const isSplit = 'ways' in fails
    facts.push({
      kind: 'branch',
      path: here,
      supposed: false,
      assume,
      follows: isSplit ? [] : fails.forced,
      end: isSplit ? 'split' : { contradiction: fails.end ?? 'exchange' },
    })
    if (isSplit) facts.push(...refutationFacts(fails, here))
  })
  return facts
}
