import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import {
  createPhotoReader,
  overlaySvg,
  type PhotoReader,
  type Readings,
  readingFromJson,
  readingToJson,
  settleCells,
} from '../../src/photo.js'

const PAGE = readFileSync(new URL('../../fixtures/pages/5-half-solved.jpg', import.meta.url))

/** Of a slim reading, as a line of JSON. */
const MOST_BYTES = 100_000

describe('what was read of a picture', () => {
  let reader: PhotoReader
  let found: Readings
  beforeAll(async () => {
    reader = await createPhotoReader()
    found = await reader.read(PAGE)
  })
  afterAll(() => reader.close())

  it.each([
    ['JSON', (value: Readings): Readings => JSON.parse(JSON.stringify(value))],
    ['a clone', (value: Readings): Readings => structuredClone(value)],
  ])('goes through %s and serves there as here', (_, carry) => {
    const copy = carry(found)
    expect(copy).toStrictEqual(found)
    const [own, other] = [found.readings[0], copy.readings[0]]
    const change = [{ cell: own.doubtful[0] ?? 0, digit: 0 }]
    expect(settleCells(other, change)).toStrictEqual(settleCells(own, change))
    expect(readingToJson(other)).toStrictEqual(readingToJson(own))
    expect(overlaySvg({ width: 900, height: 900 }, copy.readings)).toBe(
      overlaySvg({ width: 900, height: 900 }, found.readings),
    )
  })

  it('is slim, unless pictures of its cells are asked for', async () => {
    const [slim] = found.readings
    expect(JSON.stringify(slim).length).toBeLessThan(MOST_BYTES)
    expect(JSON.stringify(readingToJson(slim)).length).toBeLessThan(MOST_BYTES / 2)
    const { readings } = await reader.read(PAGE, { cellPictures: true })
    expect(readings[0].evidence.pictures).toHaveLength(81)
    const { pictures: _, ...evidence } = readings[0].evidence
    expect({ ...readings[0], evidence }).toStrictEqual(slim)
    expect(readingFromJson(JSON.parse(JSON.stringify(readingToJson(readings[0]))))).toStrictEqual(readings[0])
  })
})
