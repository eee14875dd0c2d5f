import type { InputError } from '../../errors.js'
import type { Geometry } from '../geometry.js'
import type { Sheet } from './sheet.js'

/** A grid of a file, or why there is none, with what was said about it. */
export interface SheetEntry {
  readonly line: number
  readonly title: string | undefined
  readonly comments: readonly string[]
  readonly sheet?: Sheet
  /** Its geometry, where the caller or a line above it says one. */
  readonly geometry?: Geometry | undefined
  readonly error?: InputError
}
