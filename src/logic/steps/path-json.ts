import { argumentError } from '../../check-arguments.js'
import { applyTo } from '../../grid/board/edit.js'
import type { Board } from '../../grid/board.js'
import { type BoardJson, boardFromJson, boardShape, boardToJson } from '../../grid/json.js'
import * as shape from '../../shape.js'
import type { SolvePath } from '../solving/solve.js'
import { checkSolvePath } from './check-step.js'
import type { PathStep, Step } from './step.js'
import { STEP_PARTS } from './step-shape.js'

export interface SavedStep extends Step {
  readonly restsOn: readonly number[]
}

/** How a path ended. */
export type Ending<T = SolvePath> = T extends unknown ? Omit<T, 'steps' | 'board'> : never

/** A solving path as saved data: the board that it begins with, the steps from board to board, and where it got to. */
export type PathJson = {
  readonly type: 'path'
  readonly start: BoardJson
  readonly steps: readonly SavedStep[]
} & Ending

const number = shape.whole()
const parts = {
  type: shape.only('path'),
  start: boardShape,
  steps: shape.list(shape.object<SavedStep>({ ...STEP_PARTS, restsOn: shape.list(number) })),
}
type Invalid = Extract<SolvePath, { readonly status: 'invalid' }>['because']

export const invalidShape = shape.cases<Invalid, 'kind'>('kind', {
  'empty-cell': { cell: number },
  'digit-twice': { house: number, digit: number },
  'no-place': { house: number, digit: number },
  'no-solution': {},
})

export const pathShape: shape.Shape<PathJson> = shape.cases<PathJson, 'status'>('status', {
  solved: parts,
  stuck: { ...parts, because: shape.name(['many-solutions', 'no-step-found', 'undecided']) },
  invalid: { ...parts, because: invalidShape },
  stopped: { ...parts, stopped: shape.only('time-limit') },
})

/**
 * A path as saved data. A path is plain data as it stands; this form names a board once and not at every step, which
 * makes it a quarter as long.
 *
 * @throws InputError `argument` for what is no path, or one whose steps do not lead from board to board
 *
 * @example
 * const saved = JSON.stringify(pathToJson(path)) // its board is named once
 * pathFromJson(JSON.parse(saved)).status // → 'solved'
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
  return { type: 'path', start: boardToJson(start), steps: saved, ...ending }
}

/**
 * A path from saved data, each step with its board again.
 *
 * @throws InputError `json-shape` when the data does not fit, and `argument` when a step has numbers that its board has
 *   not
 *
 * @example
 * const path = pathFromJson(JSON.parse(await readFile('path.json', 'utf8')))
 */
export function pathFromJson(data: unknown): SolvePath {
  const { type: _, start, steps: saved, ...ending } = shape.savedAs(pathShape, data, 'path')
  const boards = boardsAlong(boardFromJson(start), saved)
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
