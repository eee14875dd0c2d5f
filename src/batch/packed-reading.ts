import { type PuzzleJson, puzzleFromJson, puzzleToJson } from '../grid/json.js'
import type { Reading, Readings } from '../photo/reading.js'

/** A reading whose puzzle is plain data, so that it can travel between threads. */
export type PackedReading = Omit<Reading, 'puzzle'> & { readonly puzzle: PuzzleJson }

/** What was read of a picture, and what was not. */
export interface PackedReadings {
  readonly readings: readonly PackedReading[]
  readonly unread: Readings['unread']
}

export function packReadings(readings: Readings): PackedReadings {
  return {
    readings: readings.map((reading) => ({ ...reading, puzzle: puzzleToJson(reading.puzzle) })),
    unread: readings.unread,
  }
}

export function unpackReadings({ readings, unread }: PackedReadings): Pick<Readings, 'unread'> & {
  readonly readings: readonly Reading[]
} {
  return {
    readings: readings.map((reading) => ({ ...reading, puzzle: puzzleFromJson(reading.puzzle) })),
    unread,
  }
}
