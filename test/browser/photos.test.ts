import { readdirSync, readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createPhotoReader, type RawPicture } from '../../src/photo.js'
import { hasChromium, launch, noteMissing } from './chromium.js'
import type { Reading } from './page.js'
import type { Question } from './read-there.js'
import { bundled, serve } from './served.js'

noteMissing('photos are not read in one')

const pages = new URL('../../fixtures/pages/', import.meta.url)
const FILES = readdirSync(pages).filter((file) => file.endsWith('.jpg'))

type Outcome =
  | { readonly readings: { status: string; puzzle: { givens: number[] } }[] }
  | { readonly code: string }
const asJson = (value: unknown) => JSON.parse(JSON.stringify(value))

/** Where two values differ, and how. */
function differences(one: unknown, other: unknown, path = ''): string[] {
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return Object.is(one, other) ? [] : [`${path}: ${one} and ${other}`]
  const keys = new Set([...Object.keys(one), ...Object.keys(other)])
  return [...keys].flatMap((key) => differences(one[key as never], other[key as never], `${path}.${key}`))
}

/** The pixels of a page, as Node decodes them. */
async function pixelsOf(file: string): Promise<RawPicture> {
  const { data, info } = await sharp(readFileSync(new URL(file, pages)))
    .autoOrient()
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  return { width: info.width, height: info.height, data: new Uint8Array(data) }
}

// Chromium is no package of npm; machines without one (Debian: `apt-get install chromium`) pass these over.
describe.skipIf(!hasChromium)('in Chromium', { timeout: 300_000 }, () => {
  let browser: Browser
  let page: Page
  let server: Awaited<ReturnType<typeof serve>>
  const pixels = new Map<string, RawPicture>()

  beforeAll(async () => {
    const files = await bundled({
      page: 'test/browser/page.ts',
      worker: 'test/browser/reading-worker.ts',
    })
    for (const file of FILES) {
      files.set(`/${file}`, readFileSync(new URL(file, pages)))
      pixels.set(file, await pixelsOf(file))
      files.set(`/${file}.raw`, pixels.get(file)!.data as Uint8Array)
    }
    const camera = sharp(readFileSync(new URL(FILES[0]!, pages))).resize(640, 480, { fit: 'inside' })
    files.set('/frame.jpg', new Uint8Array(await camera.jpeg().toBuffer()))
    server = await serve(files)
    browser = await launch()
    page = await browser.newPage()
    await page.goto(server.url)
    await page.waitForFunction('globalThis.looked')
  }, 300_000)
  afterAll(async () => {
    await browser?.close()
    server?.close()
  })

  const inPage = (question: Question): Promise<Outcome> =>
    page.evaluate((asked) => (globalThis as unknown as Reading).outcomeOf(asked) as never, question)
  const inWorker = (question: Question): Promise<Outcome> =>
    page.evaluate((asked) => (globalThis as unknown as Reading).inWorker(asked) as never, question)

  async function inNode(picture: Uint8Array | RawPicture) {
    const reader = await createPhotoReader()
    try {
      return { readings: asJson((await reader.read(picture)).readings) }
    } catch (error) {
      return { code: (error as { code: string }).code }
    }
  }
  const said = (outcome: Outcome) =>
    'code' in outcome ? outcome.code : outcome.readings.map(({ status, puzzle }) => [status, puzzle.givens])

  describe.each([
    ['a page', inPage],
    ['a worker', inWorker],
  ])('%s', (_, read) => {
    it.each(FILES)('reads the pixels of %s to the same bits as Node', async (file) => {
      const { width, height, data } = pixels.get(file)!
      const own = await inNode({ width, height, data })
      const there = await read({ file: `/${file}.raw`, as: 'pixels', width, height })
      expect(said(there)).toEqual(said(own as Outcome))
      if ('readings' in own)
        expect(differences(asJson((there as { readings: unknown }).readings), own.readings)).toEqual([])
    })
    it.each(FILES)('reads the same givens off the file %s as Node, and is as sure', async (file) => {
      const own = await inNode(readFileSync(new URL(file, pages)))
      expect(said(await read({ file: `/${file}`, as: 'blob' }))).toEqual(said(own as Outcome))
    })
    it.each(['bytes', 'bitmap', 'canvas', 'image-data'] as const)('takes a picture as %s', async (as) => {
      const file = `/${FILES[0]}`
      expect(said(await read({ file, as }))).toEqual(said(await read({ file, as: 'blob' })))
    })
    it('says that the end of a file is missing', async () => {
      expect(await read({ file: `/${FILES[0]}`, as: 'cut-file' })).toMatchObject({
        code: 'picture-truncated',
      })
    })
  })

  it('a frame of a camera is looked at quickly', async () => {
    const { seen, ms } = await page.evaluate(() => (globalThis as unknown as Reading).looked('/frame.jpg'))
    expect(seen).toMatchObject({ sureness: expect.any(Number), bounds: expect.any(Array) })
    console.log(`findGrid, 640 × 480: ${ms.toFixed(1)} ms`)
  })
})
