import { type PuzzleJson, puzzleFromJson, puzzleToJson } from '../grid/json.js'
import type { Reading } from '../photo/reading.js'

/** A reading whose puzzle is plain data, so that it can travel between threads. */
export type PackedReading = Omit<Reading, 'puzzle'> & { readonly puzzle: PuzzleJson }

export function packReadings(readings: readonly Reading[]): PackedReading[] {
  return readings.map((reading) => ({ ...reading, puzzle: puzzleToJson(reading.puzzle) }))
}

export function unpackReadings(packed: readonly PackedReading[]): Reading[] {
  return packed.map((reading) => ({ ...reading, puzzle: puzzleFromJson(reading.puzzle) }))
}
