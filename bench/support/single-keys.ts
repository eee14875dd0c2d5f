import { hasCandidate, openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import type { Board, Conclusion } from '../../src/grid/board.js'
import { runNow } from '../../src/limits.js'
import { findTask } from '../../src/logic/solving/find.js'
import type { FoundStep } from '../../src/logic/steps/step.js'
import type { TechniqueName } from '../../src/logic/technique-names.js'
import { choiceOf, type RouteRules, resolveRules } from '../../src/route/rules.js'
import { restWithin } from '../../src/route/workaday.js'

/**
 * A single step after which the workaday techniques finish, on a board where they rest: of the easiest technique that
 * has one, or undefined when every step of every technique was tried.
 *
 * What a step opens depends on its conclusion alone, so one step for each conclusion is enough. Of most patterns the
 * finders report every instance; of chains, which they cut down to a shortest against each candidate, every set of
 * removals is asked for as well. Workaday techniques find no less where more candidates are gone, so where taking away
 * all that a technique removes does not finish the puzzle, no single step of it does.
 */
export function singleKey(board: Board, options: RouteRules): FoundStep | undefined {
  const rules = resolveRules(options)
  const tried = new Set<string>()
  for (const technique of rules.beyond) {
    const steps = instancesOf(technique)
    if (!finishes(board, all(board, steps))) continue
    for (const step of steps) {
      const key = JSON.stringify([step.placements, step.removals])
      if (tried.has(key)) continue
      tried.add(key)
      if (finishes(board, step)) return step
    }
  }
  return undefined

  function instancesOf(technique: TechniqueName): FoundStep[] {
    const choice = choiceOf(rules, [technique])
    return [false, true].flatMap((everyRemoval) =>
      runNow({}, (watch) => findTask(board, { ...choice, everyRemoval }, watch)),
    )
  }

  function finishes(from: Board, conclusion: Conclusion): boolean {
    const after = applyTo(from, conclusion)
    return openCount(runNow({}, (watch) => restWithin(watch, after, rules.workaday)).board) === 0
  }
}

/** All conclusions of the steps at once. */
function all(board: Board, steps: readonly FoundStep[]): Conclusion {
  const placements = new Map(steps.flatMap((step) => step.placements.map((placed) => [placed.cell, placed])))
  const removals = new Map(
    steps.flatMap((step) => step.removals.map((removed) => [removed.cell * 32 + removed.digit, removed])),
  )
  return {
    placements: [...placements.values()],
    removals: [...removals.values()].filter(
      ({ cell, digit }) => !placements.has(cell) && hasCandidate(board, cell, digit),
    ),
  }
}
