import type { Board } from '../../grid/board.js'
import { type DigitSet, digitBit, digitsOf } from '../../grid/digits.js'
import type { Facts } from '../facts/facts.js'
import { missCache, stampOfHouses } from '../facts/path-memory.js'
import type { Step } from '../steps/step.js'
import type { Technique } from '../technique.js'
import { conclusionsFrom } from '../uniqueness/conclusions.js'
import { type ExchangePattern, extrasOf } from '../uniqueness/pattern.js'
import { type Corners, type Rectangle, rectanglesOf } from '../uniqueness/rectangle.js'

const missesPart = missCache()

/**
 * Some corners hold digits that were placed, not printed. They could be exchanged with the open corners just as well,
 * so the open ones must not complete the pattern.
 */
export const avoidableRectangle: Technique = {
  name: 'avoidable-rectangle',
  level: 'pattern',
  assumes: 'one-solution',
  find(facts, report) {
    const { board, stamps } = facts
    const misses = facts.context.of(missesPart)
    let found = false
    const note = (step: Step): boolean => {
      found = true
      return report(step)
    }
    const rectangles = facts.context.of(withoutGivens).of(board)
    for (let i = 0; i < rectangles.length; i++) {
      const { index, corners, houses } = rectangles[i]!
      if (!isHalfPlaced(board, corners)) continue
      const stamp = stampOfHouses(stamps, houses)
      if (misses.has(index, stamp)) continue
      if (!areFillable(board, corners)) {
        misses.note(index, stamp)
        continue
      }
      found = false
      if (reportAvoidable(facts, corners, note)) return
      if (!found) misses.note(index, stamp)
    }
  },
}

function reportAvoidable(facts: Facts, corners: Corners, report: (step: Step) => boolean): boolean {
  const { board } = facts
  for (const pattern of avoidablePatterns(board, corners)) {
    const steps = conclusionsFrom(facts, 'avoidable-rectangle', pattern, 'locked-digit')
    for (const step of steps) if (report(step)) return true
  }
  return false
}

/** Rectangles none of whose corners is printed: the same for all boards of a puzzle's path. */
class WithoutGivens {
  private given: readonly number[] | undefined
  private rectangles: readonly Rectangle[] = []

  constructor(before?: WithoutGivens) {
    if (!before) return
    this.given = before.given
    this.rectangles = before.rectangles
  }

  of({ geometry, given }: Board): readonly Rectangle[] {
    if (given !== this.given) {
      this.given = given
      this.rectangles = rectanglesOf(geometry).filter(({ corners }) =>
        corners.every((corner) => !given[corner]),
      )
    }
    return this.rectangles
  }
}

const withoutGivens = (before?: WithoutGivens): WithoutGivens => new WithoutGivens(before)

/** At least one corner is placed and one open. */
function isHalfPlaced({ digits }: Board, corners: Corners): boolean {
  let placed = 0
  for (let i = 0; i < 4; i++) if (digits[corners[i]!]) placed++
  return placed > 0 && placed < 4
}

/** Could either diagonal hold one digit twice? */
function areFillable(board: Board, corners: Corners): boolean {
  return (
    (maySet(board, corners[0]) & maySet(board, corners[3])) !== 0 &&
    (maySet(board, corners[1]) & maySet(board, corners[2])) !== 0
  )
}

/** The fillings of a rectangle that its placed corners allow. */
function* avoidablePatterns(board: Board, corners: Corners): Generator<ExchangePattern> {
  const diagonal = maySet(board, corners[0]) & maySet(board, corners[3])
  const across = maySet(board, corners[1]) & maySet(board, corners[2])
  for (const a of digitsOf(diagonal)) {
    for (const b of digitsOf(across & ~digitBit(a))) {
      const allowed = [digitBit(a), digitBit(b), digitBit(b), digitBit(a)]
      const extras = extrasOf(board, corners, allowed)
      if (extras.length > 0) yield { cells: corners, allowed, extras }
    }
  }
}

/** The digit of a cell, or its candidates. */
function maySet({ digits, candidates }: Board, cell: number): DigitSet {
  return digits[cell] ? digitBit(digits[cell]!) : candidates[cell]!
}
