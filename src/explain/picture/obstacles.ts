import type { Spot } from './layout.js'

/** Something a line should not run over; never, if it is firm. */
export interface Obstacle extends Spot {
  readonly radius: number
  readonly firm?: boolean
}

/** The way of a line between two marks, from where the one ends to where the other begins. */
export interface Curve {
  /** As the `d` of a path. */
  readonly path: string
  /** Points along it, close together. */
  readonly samples: readonly Spot[]
}

export interface CurveSpace {
  readonly obstacles: readonly Obstacle[]
  /** The grid: curves stay inside, near enough. */
  readonly left: number
  readonly top: number
  readonly side: number
  /** Lines of the net on which detours are looked for, across and down: they run between pencil marks. */
  readonly net: { readonly xs: readonly number[]; readonly ys: readonly number[] }
}

/** Room left beside what is firm: half the width of a line, and a little. */
export const BESIDE = 1.8

export function hitsFirm({ x, y }: Spot, obstacles: readonly Obstacle[]): boolean {
  return obstacles.some((o) => o.firm && Math.hypot(x - o.x, y - o.y) < o.radius + BESIDE)
}
