import type { Point } from './image.js'

/** An upright part of a picture, in pixels. */
export interface Frame {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** The smallest frame around some points. */
export function frameOf(points: readonly Point[]): Frame {
  const xs = points.map(({ x }) => x)
  const ys = points.map(({ y }) => y)
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
}

export function widened({ left, top, right, bottom }: Frame, room: number): Frame {
  return { left: left - room, top: top - room, right: right + room, bottom: bottom + room }
}

/** The longer of its sides. */
export function extentOf({ left, top, right, bottom }: Frame): number {
  return Math.max(right - left, bottom - top)
}

export function meanPoint(points: readonly Point[]): Point {
  let x = 0
  let y = 0
  for (const p of points) {
    x += p.x
    y += p.y
  }
  return { x: x / points.length, y: y / points.length }
}
