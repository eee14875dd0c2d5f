import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { drawPicture, type Kind } from '../../fixtures/draw/scenes.js'
import { boxedGeometry, regionGeometry } from '../../src/grid/geometry.js'
import {
  createPhotoReader,
  NoGridFound,
  type PhotoReader,
  PictureError,
  settleCells,
} from '../../src/photo.js'

const pages = new URL('../../fixtures/pages/', import.meta.url)
const path = (name: string) => new URL(name, pages).pathname

/** file -> the givens of its grids, in reading order, as labels.csv has them. */
const labels = new Map<string, number[][]>()
for (const line of readFileSync(new URL('labels.csv', pages), 'utf8').trim().split('\n').slice(1)) {
  const [file = '', , givens = ''] = line.split(',')
  labels.set(file, [...(labels.get(file) ?? []), [...givens].map(Number)])
}

let reader: PhotoReader
beforeAll(async () => {
  reader = await createPhotoReader()
})
afterAll(() => reader.close())

describe('a photo reader', () => {
  for (const file of ['1-front-page.jpg', '2-poor-light.jpg', '3-upside-down.jpg']) {
    it(`reads ${file} exactly`, async () => {
      const {
        readings: [reading],
      } = await reader.read(path(file))
      expect(reading.puzzle.givens).toEqual(labels.get(file)![0])
      expect(reading.verdict.kind).toBe('unique')
    })
  }

  it('reads both puzzles of a page, in reading order', async () => {
    const { readings } = await reader.read(path('4-two-puzzles.jpg'))
    expect(readings.map(({ puzzle }) => puzzle.givens)).toEqual(labels.get('4-two-puzzles.jpg'))
  })

  it('is certain of the clear front page', async () => {
    const {
      readings: [reading],
    } = await reader.read(path('1-front-page.jpg'))
    expect([reading.status, reading.turns]).toEqual(['certain', 0])
  })

  it('takes bytes and raw pixels as it takes a file', async () => {
    const bytes = readFileSync(path('3-upside-down.jpg'))
    const {
      readings: [reading],
    } = await reader.read(bytes)
    expect(reading.puzzle.givens).toEqual(labels.get('3-upside-down.jpg')![0])
    const { default: sharp } = await import('sharp')
    const { data, info } = await sharp(bytes).autoOrient().raw().toBuffer({ resolveWithObject: true })
    const raw = { width: info.width, height: info.height, channels: 3 as const, data: new Uint8Array(data) }
    const {
      readings: [again],
    } = await reader.read(raw)
    expect(again.puzzle.givens).toEqual(reading.puzzle.givens)
  })

  it('reads the givens of a screen, not its small pencil marks', async () => {
    const {
      readings: [reading],
    } = await reader.read(path('6-screen.jpg'))
    expect(reading.puzzle.givens).toEqual(labels.get('6-screen.jpg')![0])
  })

  it('lets an unsound page stand as printed and says so', async () => {
    const {
      readings: [reading],
    } = await reader.read(path('8-unsound.jpg'))
    expect(reading.puzzle.givens).toEqual(labels.get('8-unsound.jpg')![0])
    expect(reading.verdict.kind).not.toBe('unique')
    expect(reading.status).toBe('check')
    expect(reading.reasons).toContain('not-sound')
  })

  it('reads the givens of a half-solved page and says what was filled in by hand', async () => {
    const {
      readings: [reading],
    } = await reader.read(path('5-half-solved.jpg'))
    expect(reading.puzzle.givens).toEqual(labels.get('5-half-solved.jpg')![0])
    const page = JSON.parse(readFileSync(path('labels.json'), 'utf8')).find(
      ({ file }: { file: string }) => file === '5-half-solved.jpg',
    )
    const filledIn: number[] = page.grids[0].handwriting.map(({ cell }: { cell: number }) => cell)
    expect(filledIn.length).toBeGreaterThan(20)
    for (const cell of filledIn) expect(reading.cells[cell]!.handwritten).toBeGreaterThan(0.5)
  })

  it('invents no grid on a crossword', async () => {
    await expect(reader.read(path('7-crossword.jpg'))).rejects.toThrow(NoGridFound)
  })

  it('says what is wrong with a picture, each with its code', async () => {
    const whole = readFileSync(path('2-poor-light.jpg'))
    const cases: [string | Uint8Array, string][] = [
      [path('missing.jpg'), 'file-unreadable'],
      [new TextEncoder().encode('no picture at all'), 'picture-unreadable'],
      [whole.subarray(0, whole.length / 2), 'picture-truncated'],
    ]
    for (const [picture, code] of cases) {
      const failure = await reader.read(picture).catch((error: unknown) => error)
      expect(failure).toBeInstanceOf(PictureError)
      expect((failure as PictureError).code).toBe(code)
    }
    const small = await createPhotoReader({ maxPixels: 1000 })
    await expect(small.read(whole)).rejects.toMatchObject({ code: 'picture-too-large' })
    await small.close()
  })

  it('stops when its caller does', async () => {
    const read = reader.read(path('2-poor-light.jpg'), { signal: AbortSignal.abort() })
    await expect(read).rejects.toMatchObject({ code: 'aborted' })
  })

  it('hears its caller while it looks for grids', async () => {
    // decoded in a few milliseconds, then looked at in every way there is: were finding deaf, it would end in
    // NoGridFound
    const bytes = readFileSync(path('7-crossword.jpg'))
    const controller = new AbortController()
    setTimeout(() => controller.abort(), 40)
    const read = reader.read(bytes, { signal: controller.signal })
    await expect(read).rejects.toMatchObject({ code: 'aborted' })
  })
})

describe('a reading with a time limit', () => {
  it('ends soon after it, with an error that says so', async () => {
    const bytes = readFileSync(path('7-crossword.jpg'))
    const start = performance.now()
    await expect(reader.read(bytes, { timeLimit: 40 })).rejects.toMatchObject({ code: 'time-limit' })
    // generous, since machines that run tests are busy
    expect(performance.now() - start).toBeLessThan(2000)
  })

  it('is read as ever where there is time enough', async () => {
    const {
      readings: [reading],
    } = await reader.read(path('6-screen.jpg'), { timeLimit: 1e12 })
    expect(reading.puzzle.givens).toEqual(labels.get('6-screen.jpg')![0])
  })
})

describe('a page of grids that cannot be read', () => {
  const drawn = async (kind: Kind, seed: number) =>
    (await drawPicture({ kind, seed, fonts: 'kept-aside', name: 'page' })).data

  it('of irregular regions is told apart from a page without a grid, and read once its regions are handed in', async () => {
    const { data, label } = await drawPicture({
      kind: 'irregular',
      seed: 3930311926,
      fonts: 'kept-aside',
      name: 'page',
    })
    const failure = await reader.read(data).catch((error: unknown) => error)
    expect(failure).toBeInstanceOf(NoGridFound)
    const { unread, message } = failure as NoGridFound
    expect(unread).toMatchObject([{ because: 'irregular', order: 9 }])
    expect(message).toMatch(/irregular regions \(9×9\).*regionGeometry/)
    expect(message).not.toMatch(/sharper/)
    const [corner] = unread[0]!.bounds
    const [x, y] = label.grids[0]!.lattice[0]!
    expect(unread[0]!.bounds.some((place) => Math.hypot(place.x - x, place.y - y) < 20)).toBe(true)
    expect(corner.x).toBeGreaterThan(0)
    const geometry = regionGeometry('of the page', label.grids[0]!.regions!)
    const {
      readings: [reading],
    } = await reader.read(data, { geometry })
    expect(reading.puzzle.geometry).toBe(geometry)
    expect(reading.puzzle.givens.join('')).toBe(label.grids[0]!.givens)
    expect(reading.evidence.geometrySource).toBe('caller')
  })

  it('of more rows than digits says so, alone and beside a grid that is read', async () => {
    const failure = await reader
      .read(await drawn('large-orders', 3930311921))
      .catch((error: unknown) => error)
    expect((failure as NoGridFound).message).toMatch(/16×16|12×12|10×10/)
    const { readings, unread } = await reader.read(await drawn('unread-beside', 4030312220))
    expect(readings).toHaveLength(1)
    expect(unread).toMatchObject([{ because: 'order', order: 16 }])
  })
})

describe('a page whose boxes may lie either way', () => {
  it('is certain where heavy lines show how they lie', async () => {
    const { data, label } = await drawPicture({
      kind: 'orders',
      seed: 3830311651,
      fonts: 'kept-aside',
      name: 'page',
    })
    const [grid] = label.grids
    const {
      readings: [reading],
    } = await reader.read(data)
    expect(reading.puzzle.geometry).toBe(boxedGeometry(grid!.boxRows!, grid!.boxColumns!))
    expect([reading.status, reading.evidence.geometrySource]).toEqual(['certain', 'lines'])
    // where the caller says otherwise, it asks
    const {
      readings: [other],
    } = await reader.read(data, { geometry: boxedGeometry(grid!.boxColumns!, grid!.boxRows!) })
    expect(other.reasons).toContain('box-shape')
    expect(other.status).toBe('check')
  })

  it('asks where they do not, until the caller says so', async () => {
    const { data, label } = await drawPicture({
      kind: 'orders',
      seed: 3830311658,
      fonts: 'kept-aside',
      name: 'page',
    })
    const [grid] = label.grids
    const geometry = boxedGeometry(grid!.boxRows!, grid!.boxColumns!)
    const {
      readings: [asking],
    } = await reader.read(data)
    expect(asking.reasons).toEqual(['box-shape'])
    const settled = settleCells(asking, [], { geometry })
    const {
      readings: [answered],
    } = await reader.read(data, { geometry })
    for (const reading of [settled, answered]) {
      expect(reading.status).toBe('certain')
      expect(reading.puzzle.geometry).toBe(geometry)
      expect(reading.puzzle.givens.join('')).toBe(grid!.givens)
    }
  })
})

describe('what is handed to a reader', () => {
  it.each([{ geometry: '3x2' }, { timeLimit: '5' }, { signal: {} }, { geometri: 1 }])(
    'is refused when it is %o',
    async (options) => {
      await expect(reader.read(path('6-screen.jpg'), options as never)).rejects.toMatchObject({
        name: 'InputError',
        code: 'argument',
      })
    },
  )
})
