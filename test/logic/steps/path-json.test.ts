import { describe, expect, it } from 'vitest'
import { parsePuzzle } from '../../../src/grid/text/parse.js'
import { solve } from '../../../src/logic/solving/solve.js'
import { pathFromJson, pathToJson } from '../../../src/logic/steps/path-json.js'
import { pathSchema } from '../../../src/schemas.js'
import { randomPuzzle } from '../../support/random-boards.js'

const path = solve(randomPuzzle(1))
const argument = (message: RegExp) =>
  expect.objectContaining({ code: 'argument', message: expect.stringMatching(message) })

describe('a path as saved data', () => {
  it.each([
    ['solved', randomPuzzle(1), {}],
    ['stuck', randomPuzzle(2), { techniques: [] }],
    ['invalid', parsePuzzle('11'.padEnd(81, '.')), {}],
    ['stopped', randomPuzzle(3), { timeLimit: 0 }],
  ] as const)('reads back the same when %s', (status, puzzle, options) => {
    const path = solve(puzzle, options)
    expect(path.status).toBe(status)
    const text = JSON.stringify(pathToJson(path))
    expect(pathFromJson(JSON.parse(text))).toStrictEqual(path)
    expect(pathSchema.safeParse(JSON.parse(text)).success).toBe(true)
  })

  it('names its board once', () => {
    expect(JSON.stringify(pathToJson(path)).match(/"geometry"/g)).toHaveLength(1)
  })

  it('is refused when its steps do not lead from board to board', () => {
    const steps = [path.steps[0]!, { ...path.steps[1]!, before: path.board, restsOn: [] }]
    expect(() => pathToJson({ ...path, steps })).toThrow(argument(/path\.steps\[1\]/))
  })

  it('is refused when it is none, or its numbers are on no such board', () => {
    const saved = pathToJson(path)
    for (const data of [undefined, {}, { ...saved, status: 'lost' }, { ...saved, steps: [{}] }])
      expect(() => pathFromJson(data)).toThrow(expect.objectContaining({ code: 'json-shape' }))
    const [first, ...rest] = saved.steps
    const far = { ...first!, placements: [{ cell: 81, digit: 1 }] }
    expect(() => pathFromJson({ ...saved, steps: [far, ...rest] })).toThrow(argument(/81/))
    const early = { ...first!, restsOn: [5] }
    expect(() => pathFromJson({ ...saved, steps: [early, ...rest] })).toThrow(argument(/restsOn/))
  })
})
