import type { Point } from './image.js'
import { cornersOf, type Lattice } from './lattice.js'

/**
 * Why a grid that a picture shows was not read: `irregular`: a grid of its order has no boxes, and its lines do not
 * show which regions it has.
 */
export const UNREAD_REASONS = ['irregular'] as const
/** Why a grid of the picture was not read. */
export type UnreadReason = (typeof UNREAD_REASONS)[number]

/** A grid that a picture shows, seen but not read. */
export interface UnreadGrid {
  readonly because: UnreadReason
  /** How many rows and columns it has. */
  readonly order: number
  /** Its corners on the picture, in pixels, clockwise from the top left one. */
  readonly bounds: readonly [Point, Point, Point, Point]
}

/** @param lattice in the frame of the full picture */
export function unreadGrid(because: UnreadReason, lattice: Lattice): UnreadGrid {
  return { because, order: lattice.order, bounds: cornersOf(lattice) }
}

/** What a person can do about grids that were not read. */
export function adviceOn(unread: readonly UnreadGrid[]): string {
  if (unread.length === 0) return ''
  const sizes = [...new Set(unread.map(({ order }) => `${order}×${order}`))]
  return (
    `It shows a grid of irregular regions (${sizes.join(', ')}) whose lines do not say which: hand them in, ` +
    '`read(picture, { geometry: regionGeometry(…) })`.'
  )
}
