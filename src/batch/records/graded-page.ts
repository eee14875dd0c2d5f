import type { Geometry } from '../../grid/geometry.js'
import type { Puzzle } from '../../grid/puzzle.js'
import { formatPuzzle } from '../../grid/text/write.js'
import type { Point } from '../../photo/image.js'
import { cornersOf } from '../../photo/lattice.js'
import type { Reading, Readings } from '../../photo/reading.js'
import { adviceOn } from '../../photo/unread.js'
import { type BatchError, batchError } from '../batch-error.js'
import type { GradedPuzzle } from './graded-puzzle.js'

/** Where a grid stands on its page. */
export interface Spot {
  /** Its number on the page, from 1: grids that were read in reading order, then those that were not. */
  readonly grid: number
  /** How many grids the page shows. */
  readonly of: number
  /** Its corners in pixels: top left, top right, bottom right, bottom left as the page is read. */
  readonly bounds: readonly [Point, Point, Point, Point]
}

/** A reading without its pictures. */
export interface PhotoStatus {
  readonly status: Reading['status']
  readonly reasons: Reading['reasons']
  /** Cells to look at, most doubtful first. */
  readonly doubtful: readonly number[]
  /** Nats between this reading and the next best one, to a tenth; null when there is no other. */
  readonly margin: number | null
  /** Quarter turns clockwise that bring the picture upright. */
  readonly turns: number
}

/** One grid of a page: read and graded, read and not graded, or seen and not read. */
export type PageGrid = { readonly spot: Spot } & (
  | ({ readonly puzzle: string; readonly geometry: Geometry; readonly photo: PhotoStatus } & (
      | GradedPuzzle
      | { readonly error: BatchError }
    ))
  | { readonly error: BatchError }
)

export type GradedPage = readonly PageGrid[]

/** Grades all that was read of a page. */
export async function gradedPage(
  { readings, unread }: Readings,
  grade: (puzzle: Puzzle) => Promise<GradedPuzzle>,
): Promise<GradedPage> {
  const of = readings.length + unread.length
  const page: PageGrid[] = []
  for (const reading of readings) {
    const { puzzle, lattice } = reading
    const what = {
      spot: { grid: page.length + 1, of, bounds: rounded(cornersOf(lattice)) },
      puzzle: formatPuzzle(puzzle, { geometryLine: false }),
      geometry: puzzle.geometry,
      photo: statusOf(reading),
    }
    try {
      page.push({ ...what, ...(await grade(puzzle)) })
    } catch (error) {
      page.push({ ...what, error: batchError(error) })
    }
  }
  for (const grid of unread) {
    const spot = { grid: page.length + 1, of, bounds: rounded(grid.bounds) }
    page.push({ spot, error: { code: 'grid-unread', message: adviceOn([grid]) } })
  }
  return page
}

function statusOf({ status, reasons, doubtful, margin, turns }: Reading): PhotoStatus {
  return {
    status,
    reasons: [...reasons],
    doubtful: [...doubtful],
    // JSON has no Infinity
    margin: Number.isFinite(margin) ? Math.round(margin * 10) / 10 : null,
    turns,
  }
}

function rounded(corners: Spot['bounds']): Spot['bounds'] {
  return corners.map(({ x, y }) => ({ x: Math.round(x), y: Math.round(y) })) as unknown as Spot['bounds']
}
