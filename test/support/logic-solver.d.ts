/** The part of the general SAT library `logic-solver` (which ships no types) that the project uses. */
declare module 'logic-solver' {
  type Operand = string | Formula
  interface Formula {
    readonly type: string
  }
  interface Solution {
    getTrueVars(): string[]
    evaluate(operand: Operand): boolean
  }
  class Solver {
    require(...operands: readonly Operand[]): void
    forbid(...operands: readonly Operand[]): void
    solve(): Solution | null
    solveAssuming(operand: Operand): Solution | null
  }
  interface LogicSolver {
    readonly Solver: typeof Solver
    or(...operands: readonly Operand[]): Formula
    and(...operands: readonly Operand[]): Formula
    not(operand: Operand): Formula
  }
  const Logic: LogicSolver
  export = Logic
}
