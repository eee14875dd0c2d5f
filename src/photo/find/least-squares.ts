/**
 * Weighted least squares by normal equations, for the few unknowns (up to some twenty) of smooth models: add a row for
 * each measurement, then solve. A small pull towards zero keeps what the measurements leave open at rest.
 */
export class LeastSquares {
  private readonly matrix: Float64Array
  private readonly right: Float64Array

  constructor(private readonly unknowns: number) {
    this.matrix = new Float64Array(unknowns * unknowns)
    this.right = new Float64Array(unknowns)
  }

  /** Forgets all rows. */
  clear(): void {
    this.matrix.fill(0)
    this.right.fill(0)
  }

  /** @param first where in `row` the row begins */
  add(row: ArrayLike<number>, value: number, weight: number, first = 0): void {
    const { unknowns, matrix, right } = this
    for (let i = 0, at = 0; i < unknowns; i++, at += unknowns) {
      const scaled = row[first + i]! * weight
      if (scaled === 0) continue
      for (let j = 0; j <= i; j++) matrix[at + j] = matrix[at + j]! + scaled * row[first + j]!
      right[i] = right[i]! + scaled * value
    }
  }

  /** @param pull added to the diagonal, in units of measurement weight; a number or one for each unknown */
  solve(pull: number | ArrayLike<number>): Float64Array | undefined {
    const { unknowns: n, right } = this
    const lower = Float64Array.from(this.matrix)
    for (let i = 0; i < n; i++) {
      lower[i * n + i] = lower[i * n + i]! + (typeof pull === 'number' ? pull : pull[i]!)
    }
    for (let j = 0; j < n; j++) {
      for (let i = j; i < n; i++) {
        let sum = lower[i * n + j]!
        for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!
        if (i > j) lower[i * n + j] = sum / lower[j * n + j]!
        else if (sum > 1e-12) lower[j * n + j] = Math.sqrt(sum)
        else return undefined
      }
    }
    const solution = Float64Array.from(right)
    for (let i = 0; i < n; i++) {
      let sum = solution[i]!
      for (let k = 0; k < i; k++) sum -= lower[i * n + k]! * solution[k]!
      solution[i] = sum / lower[i * n + i]!
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = solution[i]!
      for (let k = i + 1; k < n; k++) sum -= lower[k * n + i]! * solution[k]!
      solution[i] = sum / lower[i * n + i]!
    }
    return solution
  }
}

/** Tukey's biweight: 1 for no residual, falling smoothly to 0 at `reach` and beyond. */
export function biweight(residual: number, reach: number): number {
  const q = residual / reach
  if (q >= 1 || q <= -1) return 0
  const w = 1 - q * q
  return w * w
}
