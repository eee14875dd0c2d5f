import { beforeAll, describe, expect, it } from 'vitest'
import { openCount } from '../../src/grid/board/ask.js'
import { applyTo } from '../../src/grid/board/edit.js'
import { canonicalBoardKey } from '../../src/grid/canonical-board.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { randomTransform, transformPuzzle } from '../../src/grid/symmetry.js'
import { readPuzzles } from '../../src/grid/text/stream.js'
import type { Exercise } from '../../src/lessons/exercise.js'
import { findExercises } from '../../src/lessons/find-exercises.js'
import { needsTechnique } from '../../src/lessons/needs-technique.js'
import { verifyStep } from '../../src/logic/proof/proof.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import { TECHNIQUE_NAMES, type TechniqueName } from '../../src/logic/technique-names.js'
import { WORKADAY_TECHNIQUES } from '../../src/route/workaday.js'
import { randomPuzzle } from '../support/random-boards.js'

/** Random puzzles, most of which need more than everyday techniques. */
const PUZZLES_TRIED = [
  1, 19, 28, 2, 49, 78, 3, 81, 88, 91, 95, 4, 110, 137, 5, 262, 325, 355, 6, 375, 430,
].map((seed) => randomPuzzle(seed))

async function all(exercises: AsyncIterable<Exercise>): Promise<Exercise[]> {
  const found: Exercise[] = []
  for await (const exercise of exercises) found.push(exercise)
  return found
}

const lineOf = ({ givens }: Puzzle) => `${givens.join('')}\n`

describe('findExercises', () => {
  const chosen = { instances: 2 } as const
  let exercises: Exercise[] = []
  beforeAll(async () => {
    exercises = await all(findExercises(PUZZLES_TRIED, 'xy-chain', chosen))
  })

  it('finds boards where nothing known gives anything and the technique does, in few places', () => {
    expect(exercises.length).toBeGreaterThanOrEqual(3)
    for (const { board, answer, instances } of exercises) {
      expect(findSteps(board, { techniques: WORKADAY_TECHNIQUES })).toEqual([])
      const steps = findSteps(board, { techniques: ['xy-chain'], maxLinks: 9, allLengths: true })
      expect(steps).toHaveLength(instances)
      expect(instances).toBeLessThanOrEqual(2)
      expect(answer.technique).toBe('xy-chain')
      expect(verifyStep(board, answer)).toEqual({ proven: true })
    }
  })

  it('says what the answer opens, and a digit falls', () => {
    for (const { board, answer, opens } of exercises) {
      const after = solve(applyTo(board, answer), { techniques: WORKADAY_TECHNIQUES })
      expect(opens.placed).toBe(openCount(board) - openCount(after.board))
      expect(opens.placed).toBeGreaterThan(0)
      expect(opens.finishes).toBe(after.status === 'solved')
    }
  })

  it('takes puzzles only that need the technique', () => {
    for (const { from } of exercises)
      expect(needsTechnique(PUZZLES_TRIED[from.index]!, 'xy-chain', { maxLinks: 9 })).toBe(true)
  })

  it('gives no answer that an easier technique gives', () => {
    const easier = TECHNIQUE_NAMES.slice(0, TECHNIQUE_NAMES.indexOf('xy-chain'))
    for (const { board, answer } of exercises)
      for (const other of findSteps(board, { techniques: easier })) {
        const gone = new Set(other.removals.map(({ cell, digit }) => `${cell}.${digit}`))
        expect(answer.removals.every(({ cell, digit }) => gone.has(`${cell}.${digit}`))).toBe(false)
      }
  })

  it('comes with rising effort, with words and two pictures', () => {
    const efforts = exercises.map(({ effort }) => effort)
    expect(efforts).toEqual([...efforts].sort((a, b) => a - b))
    for (const { hints, explanation, pictures, answer } of exercises) {
      expect(hints).toHaveLength(3)
      expect(hints[1]).toContain('XY-chain')
      expect(explanation.sentences.length).toBeGreaterThan(0)
      expect(pictures.board).toMatch(/^<svg/)
      expect(pictures.answer).toMatch(/^<svg/)
      expect(pictures.answer).not.toBe(pictures.board)
      expect(explanation.conclusion).not.toBe('')
      expect(answer.removals.length + answer.placements.length).toBeGreaterThan(0)
    }
  })

  it('is plain data: it can be cloned', () => {
    const { board: _, answer: __, ...rest } = exercises[0]!
    expect(structuredClone(rest)).toEqual({ ...rest, pictures: { ...rest.pictures } })
  })

  it('gives no board twice, however its puzzle is turned', async () => {
    const turned = PUZZLES_TRIED.flatMap((puzzle, i) => [
      puzzle,
      transformPuzzle(puzzle, randomTransform(puzzle.geometry, i)),
    ])
    const keys = (await all(findExercises(turned, 'xy-chain', chosen))).map(({ board }) =>
      canonicalBoardKey(board),
    )
    expect(keys.length).toBeGreaterThan(0)
    expect(new Set(keys).size).toBe(keys.length)
  })

  it('hands out the easiest of a window, and no more than asked for', async () => {
    const efforts = async (options: object) =>
      (await all(findExercises(PUZZLES_TRIED, 'xy-chain', { ...chosen, ...options }))).map(
        ({ effort }) => effort,
      )
    const sorted = exercises.map(({ effort }) => effort)
    expect(await efforts({ count: 2, window: 1000 })).toEqual(sorted.slice(0, 2))
    expect(await efforts({ window: 1 })).toHaveLength(sorted.length)
    const some = await efforts({ count: 2 })
    expect(some).toHaveLength(2)
    expect(some[0]).toBeLessThanOrEqual(some[1]!)
    expect(await efforts({ count: 0 })).toEqual([])
  })

  it('reads no further than it has to', async () => {
    let read = 0
    async function* endless() {
      for (let i = 0; ; i++) {
        read++
        yield PUZZLES_TRIED[i % PUZZLES_TRIED.length]!
      }
    }
    expect(await all(findExercises(endless(), 'xy-chain', { ...chosen, count: 2 }))).toHaveLength(2)
    expect(read).toBeLessThanOrEqual(PUZZLES_TRIED.length)
  })

  it('takes puzzles from text, from entries and from boards alike', async () => {
    const some = PUZZLES_TRIED.slice(4, 10)
    const text = some.map(lineOf).join('')
    const key = ({ board }: Exercise) => canonicalBoardKey(board)
    const options = { instances: 2 }
    const expected = (await all(findExercises(some, 'xy-chain', options))).map(key)
    expect(expected.length).toBeGreaterThan(0)
    const sources = [text, [text.slice(0, 500), text.slice(500)], readPuzzles([text])]
    for (const source of sources) {
      const found = await all(findExercises(source, 'xy-chain', options))
      expect(found.map(key)).toEqual(expected)
      for (const { from } of found) expect(from.line).toBe(from.index + 1)
    }
    const boards = exercises.map(({ board }) => board)
    const again = await all(findExercises(boards, 'xy-chain', chosen))
    expect(new Set(again.map(key))).toEqual(new Set(boards.map((board) => canonicalBoardKey(board))))
  })

  it('says which puzzles of a text it could not read', async () => {
    const unread: number[] = []
    const text = `${lineOf(PUZZLES_TRIED[0]!)}\n12345678\n\n${lineOf(PUZZLES_TRIED[1]!)}`
    await all(findExercises(text, 'xy-chain', { onUnread: ({ index }) => unread.push(index) }))
    expect(unread).toEqual([1])
    await expect(all(findExercises([PUZZLES_TRIED[0]!, 5 as never], 'xy-chain'))).rejects.toMatchObject({
      code: 'argument',
    })
  })

  it('wants more of its answers where asked', async () => {
    const loose = await all(findExercises(PUZZLES_TRIED, 'xy-chain', { instances: 9, needed: false }))
    const strict = await all(findExercises(PUZZLES_TRIED, 'xy-chain', { instances: 9, finishes: true }))
    expect(loose.length).toBeGreaterThan(strict.length)
    expect(strict.every(({ opens }) => opens.finishes)).toBe(true)
    const known: TechniqueName[] = [...WORKADAY_TECHNIQUES, 'xy-wing', 'xyz-wing']
    for (const { board } of await all(findExercises(PUZZLES_TRIED, 'xy-chain', { known, instances: 9 })))
      expect(findSteps(board, { techniques: known })).toEqual([])
  })

  it('hands out what it has when the time is over, and stops on a signal', async () => {
    const handed: Exercise[] = []
    const slow = async function* () {
      for (const puzzle of PUZZLES_TRIED) yield puzzle
      await new Promise(() => {})
    }
    const run = async () => {
      for await (const exercise of findExercises(slow(), 'xy-chain', { ...chosen, timeLimit: 4000 }))
        handed.push(exercise)
    }
    await expect(run()).rejects.toMatchObject({ code: 'time-limit' })
    expect(handed.length).toBeGreaterThan(0)
    const controller = new AbortController()
    const stopped = all(findExercises(slow(), 'xy-chain', { signal: controller.signal }))
    controller.abort()
    await expect(stopped).rejects.toMatchObject({ code: 'aborted' })
  })

  it('has exercises for everyday techniques, too, of which only easier ones are known', async () => {
    const found = await all(findExercises(PUZZLES_TRIED, 'naked-pair', { needed: false, count: 2 }))
    expect(found).toHaveLength(2)
    for (const { board } of found)
      expect(
        findSteps(board, { techniques: ['hidden-single', 'naked-single', 'pointing', 'claiming'] }),
      ).toEqual([])
  })

  it('finds nothing in an empty grid or a full one', async () => {
    const empty = makePuzzle(new Array(81).fill(0))
    const full = makePuzzle(solve(PUZZLES_TRIED[0]!).board.digits)
    expect(await all(findExercises([empty, full], 'xy-chain', { needed: false }))).toEqual([])
  })
})
