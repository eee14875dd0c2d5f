import { readdirSync, readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createPhotoReader } from '../../src/photo.js'
import { hasChromium, launch, noteMissing } from './chromium.js'
import type { PoolAnswer, PoolPage } from './pool-page.js'
import { bundled, serve } from './served.js'

noteMissing('no pool of web workers is tried')

const pages = new URL('../../fixtures/pages/', import.meta.url)
const FILES = readdirSync(pages).filter((file) => file.endsWith('.jpg'))

// Chromium is no package of npm; machines without one (Debian: `apt-get install chromium`) pass these over.
describe.skipIf(!hasChromium)('a pool of web workers', { timeout: 120_000 }, () => {
  let browser: Browser
  let page: Page
  let server: Awaited<ReturnType<typeof serve>>
  const inNode = new Map<string, PoolAnswer>()

  beforeAll(async () => {
    const files = await bundled({
      page: 'test/browser/pool-page.ts',
      'web-worker': 'src/batch/threads/web-worker.ts',
    })
    const reader = await createPhotoReader()
    for (const file of FILES) {
      const bytes = readFileSync(new URL(file, pages))
      files.set(`/${file}`, bytes)
      inNode.set(
        file,
        await reader.read(bytes).then(
          ({ readings }) => ({
            grids: readings.map(({ status, puzzle }) => ({ status, givens: puzzle.givens })),
          }),
          ({ name, code }) => ({ name, code }),
        ),
      )
    }
    await reader.close()
    files.set('/broken.jpg', readFileSync(new URL(FILES[0]!, pages)).subarray(0, 20_000))
    server = await serve(files)
    browser = await launch()
    page = await browser.newPage()
    await page.goto(server.url)
    await page.waitForFunction('globalThis.readAll')
  }, 120_000)
  afterAll(async () => {
    await browser?.close()
    server?.close()
  })

  const readAll = (files: readonly string[], how: Parameters<PoolPage['readAll']>[1]) =>
    page.evaluate(([files, how]) => (globalThis as unknown as PoolPage).readAll(files, how), [
      files.map((file) => `/${file}`),
      how,
    ] as const)

  it('reads all fixture pages at once as Node does, errors included', async () => {
    const { answers, stall } = await readAll([...FILES, 'broken.jpg'], { as: 'blob' })
    expect(answers).toEqual([
      ...FILES.map((file) => inNode.get(file)),
      { name: 'PictureError', code: 'picture-truncated' },
    ])
    console.log(`longest stall of the page: ${stall.toFixed(0)} ms`)
  })
  it('takes what a browser draws', async () => {
    const { answers } = await readAll(FILES.slice(0, 2), { as: 'bitmap' })
    expect(answers).toEqual(FILES.slice(0, 2).map((file) => inNode.get(file)))
  })
  it('keeps time limits', async () => {
    const { answers } = await readAll(FILES.slice(0, 1), { as: 'blob', timeLimit: 5 })
    expect(answers).toEqual([{ name: 'StoppedError', code: 'time-limit' }])
  })
  it('gives up one picture without losing its worker', async () => {
    const file = FILES[0]!
    const answers = await page.evaluate(
      (asked) => (globalThis as unknown as PoolPage).abortOne(asked),
      `/${file}`,
    )
    expect(answers).toEqual([{ name: 'StoppedError', code: 'aborted' }, inNode.get(file)])
  })
  it('reads in the page where its worker is not to be had', async () => {
    const { answers } = await readAll(FILES.slice(0, 1), { as: 'blob', workerFile: '/nowhere.js' })
    expect(answers).toEqual([inNode.get(FILES[0]!)])
  })
})
