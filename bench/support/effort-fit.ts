import { EFFORT_NUMBERS, type EffortNumbers, looksFor } from '../../src/grade/ease.js'
import { type Round, roundsTask } from '../../src/grade/rounds.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { seededRandom, shuffled } from '../../src/grid/random.js'
import { runNow } from '../../src/limits.js'
import { pearson, ranks } from './rank-correlation.js'

/** The rounds of a puzzle with one solution. */
export function roundsOf(puzzle: Puzzle): readonly Round[] {
  return runNow({}, (watch) => roundsTask(puzzle, {}, true, watch)).rounds
}

export function effortOf(rounds: readonly Round[], numbers: EffortNumbers = EFFORT_NUMBERS): number {
  return rounds.reduce((sum, { seen, steps }) => sum + steps * looksFor(seen, numbers), 0)
}

/** What is fitted: every choice of these. The exponent of sizes is not, as too few puzzles need more than singles. */
const TRIED: readonly EffortNumbers[] = [1 / 3, 0.4, 0.5, 0.6].flatMap((line) =>
  [3, 4, 6, 8, 12].flatMap((lastCandidate) =>
    [0.6, 0.675, 0.75, 0.825, 0.9].flatMap((sooner) =>
      [2, 2.5, 3, 3.5, 4].map((perLevel) => ({ ...EFFORT_NUMBERS, line, lastCandidate, sooner, perLevel })),
    ),
  ),
)

const FOLDS = 10

/**
 * Efforts out of fold: each puzzle's by the numbers that fit the nine tenths best that it is not in, in units of their
 * median effort, so that all folds can be compared.
 */
export function fittedOutOfFold(
  all: readonly (readonly Round[])[],
  seconds: readonly number[],
): { out: readonly number[]; chosen: ReadonlyMap<string, number> } {
  const order = shuffled(
    all.map((_, i) => i),
    seededRandom(2024),
  )
  const efforts = TRIED.map((numbers) => all.map((rounds) => effortOf(rounds, numbers)))
  const out = new Array<number>(all.length)
  const chosen = new Map<string, number>()
  for (let fold = 0; fold < FOLDS; fold++) {
    const training = order.filter((_, place) => place % FOLDS !== fold)
    const wanted = ranks(training.map((i) => seconds[i]!))
    let best = 0
    let bestRho = -1
    for (const [t, own] of efforts.entries()) {
      const rho = pearson(ranks(training.map((i) => own[i]!)), wanted)
      if (rho <= bestRho) continue
      best = t
      bestRho = rho
    }
    const { line, lastCandidate, sooner, perLevel } = TRIED[best]!
    const name = `line ${line.toFixed(2)}, lastCandidate ${lastCandidate}, sooner ${sooner}, perLevel ${perLevel}`
    chosen.set(name, (chosen.get(name) ?? 0) + 1)
    const own = efforts[best]!
    const middle = training.map((i) => own[i]!).sort((a, b) => a - b)[training.length >> 1]!
    for (const [place, i] of order.entries()) if (place % FOLDS === fold) out[i] = own[i]! / middle
  }
  return { out, chosen }
}
