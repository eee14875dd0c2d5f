import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import * as z from 'zod'
import { gradeFolder } from '../src/batch.js'
import { gradeShape } from '../src/grade/grade.js'
import { boardShape, puzzleShape } from '../src/grid/json.js'
import * as core from '../src/index.js'
import { pathShape } from '../src/logic/steps/path-json.js'
import { stepShape } from '../src/logic/steps/step-shape.js'
import { concludeReading } from '../src/photo/conclude.js'
import { readingShape, readingToJson } from '../src/photo/reading-json.js'
import * as schemas from '../src/schemas.js'
import { fitted, type Shape } from '../src/shape.js'
import { SEED } from './grid/arbitraries.js'
import { PRINTED, straightLattice, sureEvidence } from './photo/evidence.js'
import { changed } from './support/data-changes.js'
import { PUZZLES } from './support/puzzles.js'
import { randomPuzzle } from './support/random-boards.js'

const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

const { SCHEMA_VERSION, ...all } = schemas
const ALL = Object.entries<z.ZodType>(all)

const puzzles = [1, 2, 3].map((seed) => randomPuzzle(seed))
const paths = puzzles.map((puzzle) => core.solve(puzzle))
const boards = paths.map(({ steps, board }) => steps[steps.length >> 1]?.before ?? board)
const clashing = core.makePuzzle(Array.from({ length: 81 }, (_, cell) => (cell < 2 ? 1 : 0)))
const sixBySix = core.newBoard(core.makePuzzle(new Array<number>(36).fill(0), core.boxedGeometry(2, 3)))
const wrongBoard = core.applyTo(boards[0]!, { placements: [wrongCandidate(boards[0]!)], removals: [] })
const keySteps = paths.flatMap(({ steps }) => [steps[core.keyStep(steps) ?? 0]!])
const reading = readingToJson(concludeReading(core.STANDARD, straightLattice(), 0, sureEvidence(PRINTED)))

function wrongCandidate(board: core.Board): core.Candidate {
  const verdict = core.checkUniqueness(core.puzzleOf(board))
  if (verdict.kind !== 'unique') throw new Error('the board has no one solution')
  const cell = board.digits.indexOf(0)
  return { cell, digit: core.digitsOf(board.candidates[cell]!).find((d) => d !== verdict.solution[cell])! }
}

/** Of a folder with a puzzle, a text that is none, a picture and a file that is passed over. */
async function records(): Promise<unknown[]> {
  const folder = mkdtempSync(join(tmpdir(), 'gridreason-records-'))
  const page = new URL('../fixtures/pages/1-front-page.jpg', import.meta.url)
  writeFileSync(join(folder, 'a.txt'), `# Monday\n${core.formatPuzzle(puzzles[0]!)}\n`)
  writeFileSync(join(folder, 'b.txt'), '12345\n')
  writeFileSync(join(folder, 'c.doc'), 'no puzzle')
  cpSync(page, join(folder, 'd.jpg'))
  const found: unknown[] = []
  for await (const record of gradeFolder(folder, { workers: 0 })) found.push(record)
  rmSync(folder, { recursive: true })
  expect(
    found.map((record) => Object.keys(record as object).filter((key) => /grade|error|skipped/.test(key))),
  ).toEqual(expect.arrayContaining([['grade'], ['error']]))
  return found
}

/** Values of each kind, as varied as the core makes them. */
const VALUES: Readonly<Record<string, readonly unknown[]>> = {
  geometrySchema: [core.STANDARD, core.boxedGeometry(2, 3), core.boxedGeometry(4, 4)],
  puzzleSchema: puzzles.map(core.puzzleToJson),
  boardSchema: [...boards, wrongBoard, sixBySix].map(core.boardToJson),
  stepSchema: paths.flatMap(({ steps }) => steps.map((step) => JSON.parse(core.formatStep(step)))),
  foundStepSchema: boards.flatMap((board) => [...core.findSteps(board, { preset: 'branch', limit: 40 })]),
  pathSchema: [...paths, core.solve(clashing), core.solve(sixBySix)].map(core.pathToJson),
  routeSchema: [core.findRoute(puzzles[0]!, { alternatives: 1 }), core.findRoute(sixBySix)],
  verdictSchema: [
    core.checkUniqueness(puzzles[0]!),
    core.checkUniqueness(clashing),
    core.checkUniqueness(core.puzzleOf(sixBySix)),
    core.checkUniqueness(core.puzzleOf(sixBySix), { nodeBudget: 1 }),
  ],
  progressSchema: [
    core.checkProgress(puzzles[0]!, boards[0]!),
    core.checkProgress(core.puzzleOf(wrongBoard), wrongBoard, {
      history: [{ kind: 'placement', candidate: wrongCandidate(boards[0]!) }],
    }),
    core.checkProgress(clashing, core.newBoard(clashing)),
  ],
  hintSchema: [...boards, wrongBoard, core.newBoard(clashing), paths[0]!.board].flatMap((board) =>
    core.HINT_DEPTHS.map((depth) => core.hint(board, { depth })),
  ),
  frameSchema: keySteps.flatMap((step) => core.frames(step)),
  huntSchema: keySteps.flatMap((step) => [core.hunt(step), core.hunt(step, { pictures: false })]),
  gradeSchema: [...puzzles, clashing].map((puzzle) => core.gradePuzzle(puzzle)),
  gradeRecordSchema: await records(),
  readingSchema: [reading],
}

describe('schemas', () => {
  it('there are values to try for each', () => {
    expect(Object.keys(VALUES).sort()).toEqual(ALL.map(([name]) => name).sort())
  })
  it.each(ALL)('%s takes what the package gives, and nothing is lost', (name, schema) => {
    for (const value of VALUES[name]!) expect(schema.parse(asJson(value))).toStrictEqual(asJson(value))
  })
  it.each(ALL)('%s has a JSON Schema with an id of its own', (name, schema) => {
    const { id } = z.globalRegistry.get(schema) ?? {}
    expect(id).toMatch(new RegExp(`^gridreason-[a-z-]+-v${SCHEMA_VERSION}$`))
    expect(JSON.stringify(z.toJSONSchema(schema)).length, name).toBeGreaterThan(100)
  })
  it('every pattern of the example puzzles is taken', () => {
    for (const puzzle of Object.values(PUZZLES))
      for (const { restsOn: _, ...step } of core.solve(puzzle).steps)
        expect(schemas.foundStepSchema.safeParse(asJson(step)).error).toBe(undefined)
  })
})

describe('a schema takes exactly what the check of its shape takes', () => {
  const PAIRS: readonly (readonly [string, Shape<unknown>])[] = [
    ['puzzleSchema', puzzleShape],
    ['boardSchema', boardShape],
    ['stepSchema', stepShape],
    ['pathSchema', pathShape],
    ['gradeSchema', gradeShape],
    ['readingSchema', readingShape],
  ]
  it.each(PAIRS)('%s', (name, shape) => {
    const values = VALUES[name]!.map(asJson)
    let refused = 0
    fc.assert(
      fc.property(fc.constantFrom(...values).chain(changed), (value) => {
        const result = fitted(shape, value)
        expect(all[name as keyof typeof all].safeParse(value).success).toBe(result.ok)
        if (result.ok) expect(result.value).toStrictEqual(value)
        else refused++
      }),
      { seed: SEED, numRuns: 300 },
    )
    expect(refused).toBeGreaterThan(50)
  })
})
