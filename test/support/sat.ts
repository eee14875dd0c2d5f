import Logic from 'logic-solver'
import { hasCandidate } from '../../src/grid/board/ask.js'
import type { Board, Candidate, Conclusion } from '../../src/grid/board.js'
import { digitsOf } from '../../src/grid/digits.js'
import { layoutOf } from '../../src/grid/layout.js'

const name = ({ cell, digit }: Candidate): string => `c${cell}d${digit}`

/**
 * The board as a formula for `logic-solver`, a general SAT library (MiniSat compiled to JavaScript): each open cell
 * takes one of its candidates, each house each digit once. `implies` asks whether denying any part of the conclusion
 * leaves no solution.
 */
export function boardFormula(board: Board): { implies(conclusion: Conclusion): boolean } {
  const { geometry, digits, candidates } = board
  const solver = new Logic.Solver()
  const alternatives: string[][] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const open = digits[cell] ? [digits[cell]!] : digitsOf(candidates[cell]!)
    alternatives.push(open.map((digit) => name({ cell, digit })))
  }
  for (const { cells } of layoutOf(geometry).houses) {
    for (let digit = 1; digit <= geometry.order; digit++) {
      const places = cells.filter((cell) => digits[cell] === digit || hasCandidate(board, cell, digit))
      alternatives.push(places.map((cell) => name({ cell, digit })))
    }
  }
  for (const group of alternatives) {
    solver.require(Logic.or(...group))
    for (let i = 0; i < group.length; i++)
      for (let j = i + 1; j < group.length; j++) solver.require(Logic.or(`-${group[i]}`, `-${group[j]}`))
  }
  return {
    implies: ({ placements, removals }) => {
      // One question a step: some part of the conclusion is denied.
      const denials = [
        ...placements.map((candidate) => `-${name(candidate)}`),
        ...removals.map((candidate) => name(candidate)),
      ]
      return solver.solveAssuming(Logic.or(...denials)) === null
    },
  }
}
