import { object } from '../../check-arguments.js'
import { InputError } from '../../errors.js'
import { type Board, boardOf, type Candidate, type Conclusion, checkBoard, checkList } from '../board.js'
import { allDigits, type DigitSet, digitBit } from '../digits.js'
import { layoutOf } from '../layout.js'
import { leftIn, marksLeft, showPeers, strikePeers } from './marks.js'
import { assertCandidate, assertOwn, assertWithin } from './numbers.js'

/**
 * A new board with digits placed (and their peers' marks struck out) and candidates removed. A digit placed on another
 * one takes its place: the board is then the one that would be had the other never been there. A removal is kept where
 * the candidate does not show, too, since a digit rules it out or stands in the cell; one from a given changes nothing.
 *
 * @throws InputError `argument` for a cell or digit that there is not, or a digit placed on another that was given
 *
 * @example
 * const next = applyTo(board, { placements: [{ cell: 64, digit: 4 }], removals: [] })
 * next.digits[64] // → 4
 */
export function applyTo(board: Board, conclusion: Conclusion): Board {
  checkBoard(board)
  object(conclusion, 'conclusion')
  const { placements, removals } = conclusion
  checkList(placements, 'conclusion.placements')
  checkList(removals, 'conclusion.removals')
  const { geometry, given } = board
  const candidates = board.candidates.slice()
  let { digits, removed }: { digits: readonly number[]; removed: readonly DigitSet[] } = board
  if (removals.length > 0) {
    const struck = removed.slice()
    for (const { cell, digit } of removals) {
      assertCandidate(geometry, cell, digit)
      if (given[cell]) continue
      candidates[cell] = candidates[cell]! & ~digitBit(digit)
      struck[cell] = struck[cell]! | digitBit(digit)
    }
    removed = struck
  }
  if (placements.length > 0) {
    const { peersOf } = layoutOf(geometry)
    const placed = digits.slice()
    for (const { cell, digit } of placements) {
      assertCandidate(geometry, cell, digit)
      const before = placed[cell]!
      if (before === digit) continue
      if (given[cell])
        throw new InputError(
          'argument',
          `Cell ${cell} has the given ${before}, so ${digit} cannot be placed there.`,
        )
      placed[cell] = digit
      candidates[cell] = 0
      if (before !== 0) showPeers(geometry, placed, removed, candidates, cell, before)
      strikePeers(peersOf[cell]!, candidates, digit)
    }
    digits = placed
  }
  return boardOf(geometry, given, digits, candidates, removed, board.noted)
}

/**
 * A new board without the digit of a cell: the one that would be had it never been placed, with the marks that were
 * there and around it. An open cell stays as it is.
 *
 * @throws InputError `argument` for a cell that there is not, or one with a given
 *
 * @example
 * const next = applyTo(board, { placements: [{ cell: 64, digit: 4 }], removals: [] })
 * eraseDigit(next, 64).digits[64] // → 0
 */
export function eraseDigit(board: Board, cell: number): Board {
  checkBoard(board)
  assertOwn(board, cell, 'erased')
  const { geometry, removed } = board
  const before = board.digits[cell]!
  if (before === 0) return board
  const digits = board.digits.slice()
  const candidates = board.candidates.slice()
  digits[cell] = 0
  candidates[cell] = leftIn(geometry, digits, cell) & ~removed[cell]!
  showPeers(geometry, digits, removed, candidates, cell, before)
  return boardOf(geometry, board.given, digits, candidates, removed, board.noted)
}

/**
 * A new board with removals undone: the candidates show again, but for those that a digit rules out.
 *
 * @throws InputError `argument` for a cell or digit that there is not
 *
 * @example
 * const gone = applyTo(board, { placements: [], removals: [{ cell: 64, digit: 1 }] })
 * hasCandidate(gone, 64, 1) // → false
 * hasCandidate(restoreCandidates(gone, [{ cell: 64, digit: 1 }]), 64, 1) // → true
 */
export function restoreCandidates(board: Board, candidates: readonly Candidate[]): Board {
  checkBoard(board)
  checkList(candidates, 'candidates')
  const removed = board.removed.slice()
  for (const { cell, digit } of candidates) {
    assertCandidate(board.geometry, cell, digit)
    removed[cell] = removed[cell]! & ~digitBit(digit)
  }
  return withRemovals(board, removed, board.noted)
}

/**
 * A new board with the marks of a cell written anew: of the candidates that the digits around it leave, those in the
 * set are restored and the others removed. A candidate that is ruled out now and not in the set stays what it was:
 * nobody had the choice to note it. `undefined` clears the cell: nothing noted, nothing removed.
 *
 * @throws InputError `argument` for a cell that there is not, one with a given, or a set with other digits than there
 *   are
 *
 * @example
 * const noted = noteMarks(board, 64, digitSet([1, 4]))
 * isNoted(noted, 64) // → true
 * digitsOf(noted.candidates[64]!) // → [1, 4]
 */
export function noteMarks(board: Board, cell: number, marks: DigitSet | undefined): Board {
  checkBoard(board)
  assertOwn(board, cell, 'noted in')
  const { geometry } = board
  if (marks !== undefined) assertWithin('set of candidates', marks, 0, allDigits(geometry.order), cell)
  const removed = board.removed.slice()
  const noted = board.noted.slice()
  noted[cell] = marks === undefined ? 0 : 1
  removed[cell] = marks === undefined ? 0 : (removed[cell]! | leftIn(geometry, board.digits, cell)) & ~marks
  return withRemovals(board, removed, noted)
}

function withRemovals(
  { geometry, given, digits }: Board,
  removed: readonly DigitSet[],
  noted: readonly number[],
): Board {
  return boardOf(geometry, given, digits, marksLeft(geometry, digits, removed), removed, noted)
}
