import { MessageChannel, receiveMessageOnPort } from 'node:worker_threads'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import * as core from '../src/index.js'
import { anyBoard, GEOMETRIES, SEED } from './grid/arbitraries.js'
import { CORE } from './support/entries.js'
import { randomPuzzle } from './support/random-boards.js'

type Callable = (...args: unknown[]) => unknown
type Carry = <T>(value: T) => T

const ENTRIES = { ...core } as unknown as Readonly<Record<string, Callable>>

/** The ways in which a value leaves a program, or a thread of it, and comes back. */
const CARRIERS: Readonly<Record<string, Carry>> = {
  'a clone': (value) => structuredClone(value),
  JSON: (value) => (value === undefined ? value : JSON.parse(JSON.stringify(value))),
  'a message': (value) => {
    const { port1, port2 } = new MessageChannel()
    port1.postMessage(value)
    const message = receiveMessageOnPort(port2)!.message
    port1.close()
    return message
  },
}

/** What a call gives, as data; of a stream all that comes. */
async function outcome(call: () => unknown): Promise<unknown> {
  const result = await call()
  if (typeof result !== 'object' || result === null || !('next' in result || Symbol.asyncIterator in result))
    return result
  const all: unknown[] = []
  for await (const one of result as AsyncIterable<unknown> | Iterable<unknown>) all.push(one)
  return all
}

/** Answers that are no data: errors keep their class, and a layout is looked up again where it is needed. */
const GIVES_NO_DATA = new Set([
  'safeParseBoard',
  'safeParsePuzzle',
  'safeParseStep',
  'readBoards',
  'readPuzzles',
  'layoutOf',
])

describe.each(Object.entries(CARRIERS))('through %s', (_, carry) => {
  it.each(Object.entries(CORE))(
    '%s takes what it took before, and its answer travels',
    async (name, args) => {
      const call = ENTRIES[name]!
      const good = args.map((argument) => argument.good)
      const answer = await outcome(() => call(...good))
      expect(await outcome(() => call(...good.map(carry)))).toStrictEqual(answer)
      if (!GIVES_NO_DATA.has(name) && typeof answer === 'object')
        expect(carry(answer), 'the answer').toStrictEqual(answer)
    },
  )

  it.each(GEOMETRIES.map((geometry) => [geometry.name, geometry] as const))(
    'any board of %s is the same board',
    (_, geometry) => {
      fc.assert(
        fc.property(anyBoard(geometry), (board) => {
          const copy = carry(board)
          expect(copy).toStrictEqual(board)
          expect(core.formatPuzzle(copy, { style: 'json' })).toBe(core.formatPuzzle(board, { style: 'json' }))
          expect(core.contradictionOf(copy)).toEqual(core.contradictionOf(board))
          expect(core.findSteps(copy, { preset: 'mark', limit: 5 })).toEqual(
            core.findSteps(board, { preset: 'mark', limit: 5 }),
          )
          expect(core.newBoard(carry(core.puzzleOf(board)))).toEqual(core.newBoard(core.puzzleOf(board)))
        }),
        { seed: SEED, numRuns: 5 },
      )
    },
  )

  it.each([1, 2, 3, 4, 5, 6])('the path of a random puzzle, step by step (%i)', (seed) => {
    const path = core.solve(randomPuzzle(seed))
    const copy = carry(path)
    expect(copy).toStrictEqual(path)
    expect(core.pathFromJson(carry(core.pathToJson(copy)))).toEqual(path)
    expect(core.keyStep(copy.steps)).toBe(core.keyStep(path.steps))
    expect(core.walkthrough(copy)).toBe(core.walkthrough(path))
    expect(core.cutBack(copy.steps)).toEqual(core.cutBack(path.steps))
    path.steps.forEach((step, i) => {
      const own = copy.steps[i]!
      expect(core.explainStep(own)).toEqual(core.explainStep(step))
      expect(core.renderSvg(own.before, { step: own })).toBe(core.renderSvg(step.before, { step }))
      expect(core.renderSvg(step.before, { step: own })).toBe(core.renderSvg(step.before, { step }))
      expect(core.verifyStep(own.before, own)).toEqual({ proven: true })
      expect(core.stepEffort(own)).toEqual(core.stepEffort(step))
      expect(core.setUp(copy.steps, i)).toEqual(core.setUp(path.steps, i))
    })
  })
})
