// gridreason/schemas: zod schemas of all data that crosses a boundary. Runs anywhere; the only part that needs zod.

import * as z from 'zod'
import type { GradeRecord } from './batch/records/grade-record.js'
import { RECORD_SHAPES } from './batch/records/record-shape.js'
import type { Verdict } from './count/check-uniqueness.js'
import type { Hint } from './explain/hint.js'
import type { Hunt } from './explain/hunt.js'
import type { Frame } from './explain/picture/frame-row.js'
import { type Grade, gradeShape } from './grade/grade.js'
import type { Geometry } from './grid/geometry.js'
import { type BoardJson, boardShape, geometryShape, type PuzzleJson, puzzleShape } from './grid/json.js'
import type { Progress } from './logic/claims/check-progress.js'
import { type PathJson, pathShape } from './logic/steps/path-json.js'
import type { FoundStep, Step } from './logic/steps/step.js'
import { stepShape } from './logic/steps/step-shape.js'
import { type ReadingJson, readingShape } from './photo/reading-json.js'
import type { Route } from './route/find-route.js'
import {
  foundStepShape,
  frameShape,
  HINT_SHAPES,
  huntShape,
  progressShape,
  routeShape,
  verdictShape,
} from './schemas/answers.js'
import { toZod } from './schemas/to-zod.js'
import type { Shape } from './shape.js'

/** Raised when data that fitted no longer does, or the other way round; part of every schema's id. */
export const SCHEMA_VERSION = 1

/** A geometry, which is its own saved form. */
export const geometrySchema: z.ZodType<Geometry> = named('geometry', geometryShape)
/** What `puzzleToJson` gives. */
export const puzzleSchema: z.ZodType<PuzzleJson> = named('puzzle', puzzleShape)
/** What `boardToJson` gives. */
export const boardSchema: z.ZodType<BoardJson> = named('board', boardShape)
/** What `formatStep` writes. */
export const stepSchema: z.ZodType<Step> = named('step', stepShape)
/** A step with the board that it was found on, as `findSteps` gives it. */
export const foundStepSchema: z.ZodType<FoundStep> = named('found-step', foundStepShape)
/** What `pathToJson` gives. */
export const pathSchema: z.ZodType<PathJson> = named('path', pathShape)
/** What `findRoute` gives. */
export const routeSchema: z.ZodType<Route> = named('route', routeShape)
/** What `checkUniqueness` gives. */
export const verdictSchema: z.ZodType<Verdict> = named('verdict', verdictShape)
/** What `checkProgress` gives. */
export const progressSchema: z.ZodType<Progress> = named('progress', progressShape)
/** What `hint` gives, at any depth. */
export const hintSchema: z.ZodType<Hint> = union<Hint>('hint', HINT_SHAPES)
/** One of what `frames` gives. */
export const frameSchema: z.ZodType<Frame> = named('frame', frameShape)
/** What `hunt` gives, with pictures and without. */
export const huntSchema: z.ZodType<Hunt> = named('hunt', huntShape)
/** What `gradePuzzle` gives. */
export const gradeSchema: z.ZodType<Grade> = named('grade', gradeShape)
/** What `gradeFolder`, `gradeFiles` and `gradeStream` give. */
export const gradeRecordSchema: z.ZodType<GradeRecord> = union<GradeRecord>('grade-record', RECORD_SHAPES)
/** What `readingToJson` gives. */
export const readingSchema: z.ZodType<ReadingJson> = named('reading', readingShape)

function named<T>(name: string, shape: Shape<T>): z.ZodType<T> {
  const schema = toZod(shape)
  z.globalRegistry.add(schema, { id: idOf(name) })
  return schema
}

function union<T>(name: string, shapes: readonly Shape<T>[]): z.ZodType<T> {
  const schema = z.union(shapes.map(toZod) as [z.ZodType<T>])
  return schema.meta({ id: idOf(name) })
}

function idOf(name: string): string {
  return `gridreason-${name}-v${SCHEMA_VERSION}`
}
