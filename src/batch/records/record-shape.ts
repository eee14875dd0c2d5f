import { gradeShape } from '../../grade/grade.js'
import { geometryShape } from '../../grid/json.js'
import type { Point } from '../../photo/image.js'
import { CHECK_REASONS } from '../../photo/reading.js'
import * as shape from '../../shape.js'
import type { BatchError } from '../batch-error.js'
import { SKIP_REASONS, type Skipped } from '../input/skipped.js'
import {
  type FailedRecord,
  type GradedRecord,
  type GradeRecord,
  type Origin,
  RECORD_VERSION,
  type SkippedRecord,
} from './grade-record.js'
import type { PhotoStatus, Spot } from './graded-page.js'

const number = shape.whole(1)
const point = shape.object<Point>({ x: shape.amount(), y: shape.amount() })
const text = shape.optional(shape.text)

const PLACE_PARTS = {
  version: shape.only(RECORD_VERSION),
  library: shape.text,
  options: shape.openObject<Readonly<Record<string, unknown>>>({}),
  piece: number,
  file: shape.text,
  path: shape.text,
  line: shape.optional(number),
  spot: shape.optional(
    shape.object<Spot>({ grid: number, of: number, bounds: shape.tuple(point, point, point, point) }),
  ),
  number: text,
  title: text,
  setter: text,
  date: text,
  photo: shape.optional(
    shape.object<PhotoStatus>({
      status: shape.name(['certain', 'check']),
      reasons: shape.list(shape.name(CHECK_REASONS)),
      doubtful: shape.list(shape.whole()),
      margin: shape.nullable(shape.amount()),
      turns: shape.whole(0, 3),
    }),
  ),
}

const GRADED = shape.object<GradedRecord>({
  ...PLACE_PARTS,
  puzzle: shape.text,
  geometry: geometryShape,
  canonical: shape.nullable(shape.text),
  grade: gradeShape,
  duplicateOf: shape.optional(
    shape.object<Origin>({ path: shape.text, line: shape.optional(number), grid: shape.optional(number) }),
  ),
})

const FAILED = shape.object<FailedRecord>({
  ...PLACE_PARTS,
  puzzle: text,
  geometry: shape.optional(geometryShape),
  error: shape.object<BatchError>({
    code: shape.text,
    message: shape.text,
    line: shape.optional(number),
    column: shape.optional(number),
  }),
})

const SKIPPED = shape.object<SkippedRecord>({
  ...PLACE_PARTS,
  skipped: shape.object<Skipped>({ because: shape.name(SKIP_REASONS), message: shape.text }),
})

/** A puzzle with its grade, one that has none, and what was passed over. */
export const RECORD_SHAPES: readonly shape.Shape<GradeRecord>[] = [GRADED, FAILED, SKIPPED]

/** A record from outside, or where it does not fit the kind that it looks like. */
export function fittedRecord(value: unknown): shape.Fit<GradeRecord> {
  const { error, skipped } = Object(value)
  const kind: shape.Shape<GradeRecord> =
    error !== undefined ? FAILED : skipped !== undefined ? SKIPPED : GRADED
  return shape.fitted(kind, value)
}
