import { describe, expect, it } from 'vitest'
import { gradePuzzle } from '../../src/grade/grade-puzzle.js'
import { formatPuzzle } from '../../src/grid/text/write.js'
import { needsTechnique } from '../../src/lessons/needs-technique.js'
import { type PickQuery, pick, pickAsync } from '../../src/lessons/pick.js'
import { randomPuzzle } from '../support/random-boards.js'

const RECORDS = Array.from({ length: 40 }, (_, i) => {
  const puzzle = randomPuzzle(i + 1)
  return { name: `no. ${i + 1}`, puzzle, geometry: puzzle.geometry, grade: gradePuzzle(puzzle) }
})
const namesOf = (records: readonly { name: string }[]) => records.map(({ name }) => name)
const rising = [...RECORDS].sort((a, b) => a.grade.effort - b.grade.effort)

describe('pick', () => {
  it('gives all with rising effort, so many of them, or in another order', () => {
    expect(namesOf(pick(RECORDS))).toEqual(namesOf(rising))
    expect(namesOf(pick(RECORDS, { count: 4 }))).toEqual(namesOf(rising.slice(0, 4)))
    expect(namesOf(pick(RECORDS, { order: 'falling', count: 2 }))).toEqual(
      namesOf(rising.slice(-2).reverse()),
    )
    expect(namesOf(pick(RECORDS, { order: 'as-given' }))).toEqual(namesOf(RECORDS))
  })

  it('looks at key, level, effort and the techniques of the path', () => {
    const key = RECORDS.map(({ grade }) => grade.bottleneck!.technique).find((name) => name.includes('-'))!
    const median = rising[20]!.grade.effort
    const cases: [PickQuery, (record: (typeof RECORDS)[number]) => boolean][] = [
      [{ key }, ({ grade }) => grade.bottleneck!.technique === key],
      [{ key: [key, 'xy-wing'] }, ({ grade }) => [key, 'xy-wing'].includes(grade.bottleneck!.technique)],
      [{ level: 'chain' }, ({ grade }) => grade.level === 'chain'],
      [{ level: ['mark', 'pattern'] }, ({ grade }) => ['mark', 'pattern'].includes(grade.level!)],
      [{ effort: { from: median } }, ({ grade }) => grade.effort >= median],
      [{ effort: { to: median } }, ({ grade }) => grade.effort <= median],
      [
        { uses: ['pointing', 'naked-pair'] },
        ({ grade: { techniques: t } }) => !!t.pointing && !!t['naked-pair'],
      ],
      [{ avoids: ['xy-chain'] }, ({ grade }) => !grade.techniques['xy-chain']],
    ]
    for (const [query, fits] of cases) {
      const picked = namesOf(pick(RECORDS, query))
      expect(picked, JSON.stringify(query)).toEqual(namesOf(rising.filter(fits)))
      expect(picked.length).toBeGreaterThan(0)
      expect(picked.length).toBeLessThanOrEqual(RECORDS.length)
    }
  })

  it('says which puzzles need a technique', () => {
    const some = RECORDS.slice(0, 20)
    const expected = rising.filter(
      (record) => some.includes(record) && needsTechnique(record.puzzle, 'xy-chain', { maxLinks: 9 }),
    )
    expect(namesOf(pick(some, { needs: 'xy-chain', maxLinks: 9 }))).toEqual(namesOf(expected))
    expect(expected.length).toBeGreaterThan(0)
    const asText = some.map((record) => ({ ...record, puzzle: formatPuzzle(record.puzzle) }))
    expect(namesOf(pick(asText, { needs: 'xy-chain', maxLinks: 9, count: 1 }))).toEqual(
      namesOf(expected.slice(0, 1)),
    )
    const { puzzle: _, ...bare } = some[0]!
    expect(() => pick([bare], { needs: 'xy-chain' })).toThrow(expect.objectContaining({ code: 'argument' }))
  })

  it('passes over what has no grade or was not solved', () => {
    const [record] = RECORDS
    const stuck = { ...record!, grade: { ...record!.grade, status: 'stuck' as const } }
    expect(pick([stuck, { error: 'unreadable' } as object, record!])).toEqual([record])
  })

  it('takes a stream as a promise, and keeps its limits', async () => {
    async function* stream() {
      yield* RECORDS
    }
    expect(namesOf(await pickAsync(stream(), { count: 3 }))).toEqual(namesOf(rising.slice(0, 3)))
    await expect(pickAsync(stream(), { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'aborted',
    })
    await expect(pickAsync('records' as never)).rejects.toMatchObject({ code: 'argument' })
    expect(() => pick(RECORDS, { needs: 'xy-chain', timeLimit: 0 })).toThrow(
      expect.objectContaining({ code: 'time-limit' }),
    )
  })
})
