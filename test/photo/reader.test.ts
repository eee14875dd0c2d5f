import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { drawPicture, type Kind } from '../../fixtures/draw/scenes.js'
import { boxedGeometry, regionGeometry, STANDARD } from '../../src/grid/geometry.js'
import { adviceOn } from '../../src/photo/unread.js'
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

describe('a page of grids of other kinds', () => {
  const drawn = (kind: Kind, seed: number) => drawPicture({ kind, seed, fonts: 'kept-aside', name: 'page' })
  const text = (digits: readonly number[]) => digits.map((digit) => digit.toString(36).toUpperCase()).join('')

  it.each([3930311922, 3930311924, 3930311925])(
    'of irregular regions is read with them (%s)',
    async (seed) => {
      const { data, label } = await drawn('irregular', seed)
      const [grid] = label.grids
      const {
        readings: [reading],
      } = await reader.read(data)
      expect(reading.evidence.geometrySource).toBe('lines')
      expect(text(reading.puzzle.givens)).toBe(grid!.givens)
      const { regions } = reading.puzzle.geometry
      const pairs = new Set(grid!.regions!.map((region, cell) => `${region} ${regions![cell]}`))
      expect(pairs.size).toBe(grid!.order)
      expect(reading.status).toBe('certain')
    },
  )

  it.each([3006054796, 3006054756, 3006054802])(
    'is none where shades only look like regions (%s)',
    async (seed) => {
      const { data, label } = await drawn('photos', seed)
      const {
        readings: [reading],
      } = await reader.read(data)
      expect(reading.puzzle.geometry).toBe(STANDARD)
      expect(text(reading.puzzle.givens)).toBe(label.grids[0]!.givens)
    },
  )

  it('takes the regions that a caller hands in, and says when the lines show others', async () => {
    const { data, label } = await drawn('irregular', 3930311924)
    const geometry = regionGeometry('of the page', label.grids[0]!.regions!)
    const {
      readings: [reading],
    } = await reader.read(data, { geometry })
    expect(reading.puzzle.geometry).toBe(geometry)
    expect(reading.evidence.geometrySource).toBe('caller')
    const {
      readings: [other],
    } = await reader.read(data, { geometry: STANDARD })
    expect(other.reasons).toContain('box-shape')
  })

  it.each([
    [3930311921, 'numbers'],
    [3930311929, 'letters'],
  ])('of more than nine rows is read, be it in numbers or letters (%s, %s)', async (seed, above9) => {
    const { data, label } = await drawn('large-orders', seed)
    const [grid] = label.grids
    expect(grid!.look.above9).toBe(above9)
    const {
      readings: [reading],
    } = await reader.read(data)
    expect(reading.puzzle.geometry.order).toBe(grid!.order)
    expect(text(reading.puzzle.givens)).toBe(grid!.givens)
    expect(reading.verdict.kind).toBe('unique')
  })

  it('is read beside usual ones', async () => {
    const { readings, unread } = await reader.read((await drawn('unread-beside', 4030312220)).data)
    expect(readings.map(({ puzzle }) => puzzle.geometry.order).sort()).toEqual([16, 9])
    expect(unread).toEqual([])
  })
})

describe('advice on grids that were seen and not read', () => {
  const corner = { x: 0, y: 0 }
  const unread = (order: number) =>
    ({ because: 'irregular', order, bounds: [corner, corner, corner, corner] }) as const

  it('names their sizes, each once, and what to hand in', () => {
    expect(adviceOn([])).toBe('')
    expect(adviceOn([unread(7), unread(5), unread(7)])).toMatch(/\(7×7, 5×5\).*regionGeometry/)
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
