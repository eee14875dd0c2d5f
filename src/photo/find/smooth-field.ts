import { biweight, LeastSquares } from './least-squares.js'

/** One measurement of a field: its value at (u, v), and how far it can be trusted. */
export interface FieldSample {
  readonly u: number
  readonly v: number
  readonly value: number
  readonly weight: number
}

/** The rectangle of the plane a field is known on; beyond it the field keeps the value of its edge. */
export interface Extent {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/**
 * A smooth function of two variables: a polynomial of a total degree. It says how far a page bends away from a plane.
 */
export class SmoothField {
  private constructor(
    private readonly extent: Extent,
    private readonly degree: number,
    private readonly coefficients: Float64Array,
  ) {}

  static flat(extent: Extent): SmoothField {
    return new SmoothField(extent, 0, new Float64Array(1))
  }

  at(u: number, v: number): number {
    if (this.degree === 0) return this.coefficients[0]!
    terms(this.extent, this.degree, u, v, scratch, 0)
    return product(scratch, 0, this.coefficients)
  }

  /** The coefficients of the same field as a polynomial of a degree at least as high. */
  private raisedTo(degree: number): Float64Array {
    const raised: number[] = []
    for (let i = 0, k = 0; i <= degree; i++) {
      for (let j = 0; j <= degree - i; j++) raised.push(i + j <= this.degree ? this.coefficients[k++]! : 0)
    }
    return Float64Array.from(raised)
  }

  /**
   * Fits samples, leaving out those that lie further than a shrinking `reach` from what the others agree on. Where
   * samples say nothing, the field stays what it was at the start.
   */
  static fit(
    extent: Extent,
    degree: number,
    samples: readonly FieldSample[],
    start: SmoothField,
    reaches: readonly number[],
  ): SmoothField {
    let field = start
    const pull = pulls(degree)
    const size = pull.length
    const rows = new Float64Array(samples.length * size)
    for (let k = 0; k < samples.length; k++)
      terms(extent, degree, samples[k]!.u, samples[k]!.v, rows, k * size)
    const system = new LeastSquares(size)
    const prior = start.raisedTo(degree)
    for (const reach of reaches) {
      system.clear()
      for (let k = 0; k < samples.length; k++) {
        const { u, v, value, weight } = samples[k]!
        const known = field === start ? start.at(u, v) : product(rows, k * size, field.coefficients)
        const w = weight * biweight(value - known, reach)
        if (w > 0) system.add(rows, value - product(rows, k * size, prior), w, k * size)
      }
      const solved = system.solve(pull)
      if (!solved) return field
      field = new SmoothField(extent, degree, sum(solved, prior))
    }
    return field
  }
}

/**
 * What each term must be worth, in measurements: pages bend gently, so the wilder a term the more it has to explain, or
 * noise bends the corners where nothing is measured. With these, and the pulls in `refine.ts`, the farthest crossing of
 * 720 drawn grids was off by more than a tenth of a cell in 53 instead of 73, by more than a fifth in 2 instead of 6.
 */
const PULL_OF_DEGREE = [0.02, 0.02, 0.8, 6, 20] as const

/** Where `at` lays its terms, so that asking costs no memory. */
const scratch = new Float64Array(15)

function pulls(degree: number): Float64Array {
  const pull: number[] = []
  for (let i = 0; i <= degree; i++) for (let j = 0; j <= degree - i; j++) pull.push(PULL_OF_DEGREE[i + j]!)
  return Float64Array.from(pull)
}

function product(row: Float64Array, first: number, coefficients: Float64Array): number {
  let sum = 0
  for (let k = 0; k < coefficients.length; k++) sum += row[first + k]! * coefficients[k]!
  return sum
}

function sum(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, k) => value + b[k]!)
}

/**
 * Products of Chebyshev polynomials of the scaled coordinates: well conditioned, all within -1..1; written into `row`
 * from `first` on.
 */
function terms(extent: Extent, degree: number, u: number, v: number, row: Float64Array, first: number): void {
  const x = scaled(u, extent.left, extent.right)
  const y = scaled(v, extent.top, extent.bottom)
  let k = first
  let px = 1
  let nextX = x
  for (let i = 0; i <= degree; i++) {
    let py = 1
    let nextY = y
    for (let j = 0; j <= degree - i; j++) {
      row[k++] = px * py
      const after = 2 * y * nextY - py
      py = nextY
      nextY = after
    }
    const after = 2 * x * nextX - px
    px = nextX
    nextX = after
  }
}

function scaled(value: number, low: number, high: number): number {
  const t = (2 * (value - low)) / (high - low) - 1
  return t < -1 ? -1 : t > 1 ? 1 : t
}
