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

/** Obstacles by where they are, so that a point is held against those near it alone. */
export class Nearby {
  readonly #squares = new Map<number, Obstacle[]>()

  constructor(obstacles: readonly Obstacle[]) {
    for (const o of obstacles) {
      const reach = o.radius + BESIDE
      for (let row = Math.floor((o.y - reach) / WIDE); row <= Math.floor((o.y + reach) / WIDE); row++)
        for (let at = Math.floor((o.x - reach) / WIDE); at <= Math.floor((o.x + reach) / WIDE); at++) {
          const key = (row + 64) * 4096 + at + 64
          const square = this.#squares.get(key)
          if (square) square.push(o)
          else this.#squares.set(key, [o])
        }
    }
  }

  at({ x, y }: Spot): readonly Obstacle[] {
    return this.#squares.get((Math.floor(y / WIDE) + 64) * 4096 + Math.floor(x / WIDE) + 64) ?? []
  }

  /** Does a line through this point run into something firm? */
  hitsFirm(spot: Spot): boolean {
    return this.at(spot).some((o) => o.firm && Math.hypot(spot.x - o.x, spot.y - o.y) < o.radius + BESIDE)
  }
}

const WIDE = 24

/** Where lines have been drawn, in squares, so that asking takes no longer the more there are. */
export class Crowd {
  readonly #squares = new Set<number>()

  add({ samples }: Curve): void {
    for (const { x, y } of samples)
      for (let down = -1; down <= 1; down++)
        for (let right = -1; right <= 1; right++)
          this.#squares.add(squareOf(x + right * SQUARE, y + down * SQUARE))
  }

  has({ x, y }: Spot): boolean {
    return this.#squares.has(squareOf(x, y))
  }
}

const SQUARE = 4
const squareOf = (x: number, y: number) => (Math.round(y / SQUARE) + 64) * 4096 + Math.round(x / SQUARE) + 64
