import type { GradeRecord } from '../batch/grade-folder.js'
import type { BatchError } from '../batch/jobs.js'
import { gradeShape } from '../grade/grade.js'
import { geometryShape } from '../grid/json.js'
import * as shape from '../shape.js'

type Graded = Extract<GradeRecord, { readonly grade: unknown }>
type Ungraded = Extract<GradeRecord, { readonly error: unknown }>

const line = shape.whole(1)

/** A puzzle with its grade, and one that has none. */
export const RECORD_SHAPES: readonly shape.Shape<GradeRecord>[] = [
  shape.object<Graded>({
    file: shape.text,
    line,
    title: shape.optional(shape.text),
    puzzle: shape.text,
    geometry: geometryShape,
    grade: gradeShape,
  }),
  shape.object<Ungraded>({
    file: shape.text,
    line: shape.optional(line),
    title: shape.optional(shape.text),
    error: shape.object<BatchError>({
      code: shape.text,
      message: shape.text,
      line: shape.optional(line),
      column: shape.optional(line),
    }),
  }),
]
