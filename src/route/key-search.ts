import { isTimeOver } from '../errors.js'
import { openCount } from '../grid/board/ask.js'
import type { Board } from '../grid/board.js'
import type { Watch } from '../limits.js'
import type { Context } from '../logic/facts/context.js'
import type { FoundStep } from '../logic/steps/step.js'
import { type Opening, openingsBy } from './keys.js'
import type { ResolvedRules } from './rules.js'

export interface KeySearch {
  /**
   * Lines of keys: with the workaday techniques run to rest before and after each, they finish the puzzle. All have the
   * same number of keys; those of the easiest techniques come first. None when nothing was found.
   */
  readonly lines: readonly (readonly FoundStep[])[]
  /**
   * `proven`: no line has fewer keys, as far as the techniques find all there is. Lines of one key and of two are
   * proven; longer ones are the best of those that were followed.
   */
  readonly best: 'proven' | 'found'
  /** Openings tried. */
  readonly tried: number
  /** Did the time limit end the search? */
  readonly stopped: boolean
}

/** Boards followed beyond the first: those with the fewest candidates left. */
const WIDTH = 6

/** More keys than anybody would follow. */
const DEEPEST = 12

interface Position {
  /** Where the workaday techniques rest. */
  readonly board: Board
  readonly context: Context
  readonly keys: readonly FoundStep[]
  /** How many of the techniques that must be shown are not among the keys yet. */
  readonly missing: number
  readonly left: number
}

/**
 * Searches breadth first from a board where the workaday techniques rest: lines of one key, else of two, and so on. All
 * of the first board's openings are tried, and all of each board followed after that.
 *
 * @param context what is known of the board
 * @param wanted how many lines to look for before harder techniques are left alone
 */
export function* searchKeys(
  start: Board,
  context: Context,
  rules: ResolvedRules,
  wanted: number,
  watch: Watch,
): Generator<undefined, KeySearch> {
  let tried = 0
  let positions: readonly Position[] = [
    { board: start, context, keys: [], missing: rules.show.length, left: 0 },
  ]
  for (let depth = 1; depth <= DEEPEST && positions.length > 0; depth++) {
    const lines: (readonly FoundStep[])[] = []
    const next = new Map<string, Position>()
    for (const { board, context: own, keys } of positions) {
      const seen = new Set<string>()
      for (const technique of rules.beyond) {
        let found: readonly Opening[]
        try {
          found = yield* openingsBy(technique, board, own, rules, seen, watch)
        } catch (error) {
          if (!isTimeOver(error)) throw error
          return { lines, best: 'found', tried, stopped: true }
        }
        tried += found.length
        for (const { step, after, context: known, left } of found) {
          const line = [...keys, step]
          const missing = missingOf(rules, line)
          if (openCount(after) === 0) {
            if (missing === 0) lines.push(line)
          } else {
            const state = `${missing};${after.candidates.join()}`
            if (!next.has(state)) next.set(state, { board: after, context: known, keys: line, missing, left })
          }
        }
        if (lines.length >= wanted) break
      }
      if (lines.length >= wanted) break
    }
    if (lines.length > 0) return { lines, best: depth <= 2 ? 'proven' : 'found', tried, stopped: false }
    positions = [...next.values()].sort((a, b) => a.missing - b.missing || a.left - b.left).slice(0, WIDTH)
  }
  return { lines: [], best: 'found', tried, stopped: false }
}

function missingOf({ show }: ResolvedRules, keys: readonly FoundStep[]): number {
  let missing = 0
  for (const name of show) if (!keys.some(({ technique }) => technique === name)) missing++
  return missing
}
