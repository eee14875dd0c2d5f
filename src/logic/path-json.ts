import * as z from 'zod'
import { argumentError } from '../check-arguments.js'
import { applyTo } from '../grid/board/edit.js'
import type { Board } from '../grid/board.js'
import { boardFromJson, boardSchema, boardToJson, checked } from '../grid/json.js'
import { checkSolvePath } from './check-step.js'
import type { SolvePath } from './solve.js'
import type { PathStep, Step } from './step.js'
import { stepSchema } from './step-json.js'

const number = z.int().nonnegative()
const parts = {
  type: z.literal('path'),
  start: boardSchema,
  steps: z.array(stepSchema.extend({ restsOn: z.array(number) })),
}

/** A solving path as saved data: the board that it begins with, the steps from board to board, and where it got to. */
export const pathSchema = z.discriminatedUnion('status', [
  z.strictObject({ ...parts, status: z.literal('solved') }),
  z.strictObject({
    ...parts,
    status: z.literal('stuck'),
    because: z.enum(['several-solutions', 'no-step-found', 'undecided']),
  }),
  z.strictObject({
    ...parts,
    status: z.literal('invalid'),
    because: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('empty-cell'), cell: number }),
      z.strictObject({ kind: z.literal('digit-twice'), house: number, digit: number }),
      z.strictObject({ kind: z.literal('no-place'), house: number, digit: number }),
      z.strictObject({ kind: z.literal('no-solution') }),
    ]),
  }),
  z.strictObject({ ...parts, status: z.literal('stopped'), stopped: z.literal('time-limit') }),
])
export type PathJson = z.infer<typeof pathSchema>

/**
 * A path as saved data. A path is plain data as it stands; this form names a board once and not at every step, which
 * makes it a quarter as long.
 *
 * @throws InputError `argument` for what is no path, or one whose steps do not lead from board to board
 */
export function pathToJson(path: SolvePath): PathJson {
  checkSolvePath(path)
  const { steps, board, ...ending } = path
  const start = steps[0]?.before ?? board
  const saved = steps.map(({ before: _, ...step }) => step)
  const again = boardsAlong(start, saved)
  const all = [...steps.map(({ before }) => before), board]
  const odd = all.findIndex((one, i) => !sameMarks(one, again[i]!))
  if (odd > 0)
    throw argumentError(`path.steps[${odd}]`, 'on the board that the step before leads to', 'another')
  return { type: 'path', start: boardToJson(start), steps: saved, ...ending } as unknown as PathJson
}

/**
 * A path from saved data, each step with its board again.
 *
 * @throws InputError `json-shape` when the data does not fit, and `argument` when a step has numbers that its board has
 *   not
 */
export function pathFromJson(data: unknown): SolvePath {
  const { type: _, start, steps: saved, ...ending } = checked(pathSchema, data, 'path')
  const boards = boardsAlong(boardFromJson(start), saved as unknown as readonly Step[])
  const steps = saved.map((step, i) => ({ ...step, before: boards[i]! }) as PathStep)
  const path: SolvePath = { steps, board: boards[steps.length]!, ...ending }
  checkSolvePath(path)
  return path
}

/** The board before each step, and the one after the last. */
function boardsAlong(start: Board, steps: readonly Step[]): Board[] {
  const boards = [start]
  for (const [i, step] of steps.entries()) boards.push(applyTo(boards[i]!, step))
  return boards
}

function sameMarks(one: Board, other: Board): boolean {
  return (
    one.geometry.key === other.geometry.key &&
    one.digits.every((digit, cell) => digit === other.digits[cell]) &&
    one.candidates.every((set, cell) => set === other.candidates[cell]) &&
    one.removed.every((set, cell) => set === other.removed[cell])
  )
}
