import type { Point } from './image.js'
import { cornersOf, type Lattice } from './lattice.js'

/**
 * Why a grid that a picture shows was not read: `irregular`: heavy lines part it into regions that are no boxes;
 * `order`: it has more rows than there are single digits.
 */
export const UNREAD_REASONS = ['irregular', 'order'] as const
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

/** What a person can do about grids that were not read, a sentence for each reason. */
export function adviceOn(unread: readonly UnreadGrid[]): string {
  const sizes = (because: UnreadReason) => [
    ...new Set(unread.filter((grid) => grid.because === because).map(({ order }) => `${order}×${order}`)),
  ]
  const [irregular, large] = [sizes('irregular'), sizes('order')]
  return [
    ...(irregular.length > 0
      ? [
          `It shows a grid of irregular regions (${irregular.join(', ')}), which are not read from pictures: hand them in, ` +
            '`read(picture, { geometry: regionGeometry(…) })`.',
        ]
      : []),
    ...(large.length > 0
      ? [
          `It shows a grid of ${large.join(' and of ')} cells, and only single digits are read from pictures: type it in and use \`parsePuzzle\`.`,
        ]
      : []),
  ].join(' ')
}
