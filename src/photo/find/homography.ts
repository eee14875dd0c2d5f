import type { Point } from '../image.js'
import { biweight, LeastSquares } from './least-squares.js'

/** A plane seen in perspective: (u, v) on the plane to a place on the picture. Nine numbers, row by row. */
export class Homography {
  constructor(private readonly h: Float64Array) {}

  apply(u: number, v: number): Point {
    const { h } = this
    const w = h[6]! * u + h[7]! * v + h[8]!
    return { x: (h[0]! * u + h[1]! * v + h[2]!) / w, y: (h[3]! * u + h[4]! * v + h[5]!) / w }
  }

  inverse(): Homography {
    const [a, b, c, d, e, f, g, h, i] = this.h as unknown as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ]
    return new Homography(
      Float64Array.of(
        e * i - f * h,
        c * h - b * i,
        b * f - c * e,
        f * g - d * i,
        a * i - c * g,
        c * d - a * f,
        d * h - e * g,
        b * g - a * h,
        a * e - b * d,
      ),
    )
  }

  /**
   * The homography that best takes plane places to picture places, little moved by a few that are far off. Places are
   * centred and scaled first, as the direct linear method needs. `undefined` for fewer than four or when they lie on
   * one line.
   */
  static fit(plane: readonly Point[], picture: readonly Point[]): Homography | undefined {
    const count = plane.length
    if (count < 4) return undefined
    const from = normalisation(plane)
    const to = normalisation(picture)
    const weights = new Float64Array(count).fill(1)
    const away = new Float64Array(count)
    const system = new LeastSquares(8)
    const forX = new Float64Array(8)
    const forY = new Float64Array(8)
    forX[2] = 1
    forY[5] = 1
    let fitted: Homography | undefined
    for (let round = 0; round < 4; round++) {
      system.clear()
      for (let k = 0; k < count; k++) {
        const u = (plane[k]!.x - from.x) * from.scale
        const v = (plane[k]!.y - from.y) * from.scale
        const x = (picture[k]!.x - to.x) * to.scale
        const y = (picture[k]!.y - to.y) * to.scale
        forX[0] = u
        forX[1] = v
        forX[6] = -u * x
        forX[7] = -v * x
        forY[3] = u
        forY[4] = v
        forY[6] = -u * y
        forY[7] = -v * y
        system.add(forX, x, weights[k]!)
        system.add(forY, y, weights[k]!)
      }
      const h = system.solve(1e-9)
      if (!h) return undefined
      fitted = denormalised(Float64Array.of(...h, 1), from, to)
      for (let k = 0; k < count; k++) {
        const { x, y } = fitted.apply(plane[k]!.x, plane[k]!.y)
        away[k] = Math.hypot(x - picture[k]!.x, y - picture[k]!.y)
      }
      const middle = Float64Array.from(away).sort()[count >> 1]!
      for (let k = 0; k < count; k++) weights[k] = biweight(away[k]!, middle * 5 + 0.5)
    }
    return fitted
  }
}

interface Normalisation extends Point {
  readonly scale: number
}

function normalisation(points: readonly Point[]): Normalisation {
  const x = points.reduce((sum, p) => sum + p.x, 0) / points.length
  const y = points.reduce((sum, p) => sum + p.y, 0) / points.length
  const spread = points.reduce((sum, p) => sum + Math.hypot(p.x - x, p.y - y), 0) / points.length
  return { x, y, scale: Math.SQRT2 / Math.max(spread, 1e-9) }
}

/** T(to)^-1 × h × T(from), where T(p) = scale × (p - centre). */
function denormalised(h: Float64Array, from: Normalisation, to: Normalisation): Homography {
  const out = new Float64Array(9)
  for (let row = 0; row < 3; row++) {
    const a = h[row * 3]! * from.scale
    const b = h[row * 3 + 1]! * from.scale
    out[row * 3] = a
    out[row * 3 + 1] = b
    out[row * 3 + 2] = h[row * 3 + 2]! - a * from.x - b * from.y
  }
  for (let column = 0; column < 3; column++) {
    const w = out[6 + column]!
    out[column] = out[column]! / to.scale + to.x * w
    out[3 + column] = out[3 + column]! / to.scale + to.y * w
  }
  return new Homography(out)
}
