import Logic from 'logic-solver'

/**
 * The general SAT library `logic-solver` (MiniSat compiled to JavaScript) as a solver of standard puzzles: the rules
 * are clauses made once, a puzzle's givens are assumed.
 */
export function satSolver(): { solve(givens: ArrayLike<number>): boolean } {
  const solver = new Logic.Solver()
  const name = (row: number, column: number, digit: number): string => `r${row}c${column}d${digit}`
  const nine = Array.from({ length: 9 }, (_, i) => i)
  const groups: string[][] = []
  for (const a of nine) {
    for (const b of nine) {
      groups.push(nine.map((digit) => name(a, b, digit)))
      groups.push(nine.map((column) => name(a, column, b)))
      groups.push(nine.map((row) => name(row, a, b)))
      groups.push(nine.map((i) => name(3 * Math.floor(a / 3) + Math.floor(i / 3), 3 * (a % 3) + (i % 3), b)))
    }
  }
  for (const group of groups) {
    solver.require(Logic.or(...group))
    for (let i = 0; i < 9; i++)
      for (let j = i + 1; j < 9; j++) solver.require(Logic.or(`-${group[i]}`, `-${group[j]}`))
  }
  return {
    solve(givens) {
      const assumed: string[] = []
      for (let cell = 0; cell < 81; cell++) {
        if (givens[cell]) assumed.push(name(Math.floor(cell / 9), cell % 9, givens[cell]! - 1))
      }
      return solver.solveAssuming(Logic.and(...assumed)) !== null
    },
  }
}
