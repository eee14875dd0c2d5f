import { fileURLToPath } from 'node:url'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { servePage } from '../../examples/web/serve.js'
import { hasChromium, launch, noteMissing } from '../browser/chromium.js'
import { legibility } from '../browser/legibility.js'
import { weights } from '../browser/served.js'

noteMissing('the page of examples/web is not tried')

// The page is tried with the package's sources, since tests need no build; `npm run test:package` bundles it as built.
const SOURCES = {
  tsconfig: fileURLToPath(new URL('../../examples/web/page/tsconfig.json', import.meta.url)),
  plugins: [weights],
}
const DESKTOP: BrowserContextOptions = { viewport: { width: 1200, height: 860 } }
const PHONE: BrowserContextOptions = { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true }

// Chromium is no package of npm; machines without one (Debian: `apt-get install chromium`) pass these over.
describe.skipIf(!hasChromium)('examples/web', { timeout: 120_000 }, () => {
  let browser: Browser
  let server: Awaited<ReturnType<typeof servePage>>
  let page: Page
  const troubles: string[] = []

  beforeAll(async () => {
    server = await servePage(0, SOURCES)
    browser = await launch()
  }, 120_000)
  afterAll(async () => {
    await browser?.close()
    server?.close()
  })
  afterEach(async () => {
    await page?.context().close()
    expect(troubles.splice(0)).toEqual([])
  })

  async function open(options: BrowserContextOptions): Promise<void> {
    const context = await browser.newContext(options)
    page = await context.newPage()
    page.on('pageerror', ({ message }) => troubles.push(message))
    page.on('console', (said) => said.type() === 'error' && troubles.push(said.text()))
    // whatever goes elsewhere than to the page's own server is lost
    await context.route(
      (url) => url.protocol.startsWith('http') && !server.url.includes(url.host),
      (route) => {
        troubles.push(`asked for ${route.request().url()}`)
        return route.abort()
      },
    )
    await page.goto(server.url)
  }
  const press = (name: string | RegExp) => page.getByRole('button', { name, exact: true }).click()
  const cell = (row: number, column: number) =>
    page.getByRole('gridcell', { name: new RegExp(`^row ${row}, column ${column}:`) })
  const said = () => page.locator('.help').textContent()

  it('goes from a half-solved page to what is wrong on it, a hint and the key', async () => {
    await open(DESKTOP)
    await press('One that is half solved')
    await page.getByRole('heading', { name: 'Please look at this' }).waitFor()
    expect(await page.locator('.photo svg').count()).toBe(1)
    expect(await page.getByLabel('Row 4, column 9').inputValue()).toBe('written 2')
    await press('This is right')

    await cell(4, 7).waitFor()
    expect(await cell(4, 7).getAttribute('aria-label')).toBe('row 4, column 7: 5')
    await press('Is anything wrong?')
    await press('Why is this wrong?')
    await page.locator('.help').getByText('There are two 5s in row 4.').waitFor()
    expect(await cell(4, 7).getAttribute('aria-label')).toContain('wrong')

    await cell(4, 7).click()
    await press('Erase')
    expect(await cell(4, 7).getAttribute('aria-label')).toBe('row 4, column 7: open')
    await press('Is anything wrong?')
    await page.locator('.help').getByText('Nothing is wrong so far.').waitFor()

    await press('Hint')
    for (let deeper = 0; deeper < 3; deeper++) await press('Tell me more')
    await page.locator('.frames svg').waitFor()
    const open1 = await page.getByRole('gridcell', { name: /(open|marks)/ }).count()
    await press('Do this on my board')
    expect(await page.getByRole('gridcell', { name: /(open|marks)/ }).count()).toBe(open1 - 1)

    await press('The key step')
    await page.getByRole('heading', { name: /^The key: / }).waitFor()
    expect(await said()).toMatch(/It comes after \d+ easier steps/)
    const [first] = await page.locator('.frames figcaption').allInnerTexts()
    await press('Next')
    expect(await page.locator('.frames figcaption').allInnerTexts()).not.toEqual([first])
  })

  it('is played with the keyboard alone', async () => {
    await open(DESKTOP)
    await press('A front page')
    await press('Play')
    await cell(1, 1).focus()
    await page.keyboard.press('Shift+1')
    await page.keyboard.press('Shift+5')
    expect(await cell(1, 1).getAttribute('aria-label')).toBe('row 1, column 1: marks 1 5')
    await page.keyboard.press('8')
    expect(await cell(1, 1).getAttribute('aria-label')).toBe('row 1, column 1: 8')
    await page.keyboard.press('Control+z')
    await page.keyboard.press('Control+z')
    expect(await cell(1, 1).getAttribute('aria-label')).toBe('row 1, column 1: marks 1')
    await page.keyboard.press('Control+Shift+z')
    expect(await cell(1, 1).getAttribute('aria-label')).toBe('row 1, column 1: marks 1 5')
    await page.keyboard.press('ArrowRight')
    await page.keyboard.press('8')
    expect(await cell(1, 2).getAttribute('aria-label')).toBe('row 1, column 2: given 4')
    expect(await cell(1, 2).evaluate((element) => element.matches(':focus'))).toBe(true)
    // one stop of the tab key for all of the grid
    expect(await page.locator('[role=gridcell][tabindex="0"]').count()).toBe(1)
  })

  it.each([
    ['light', DESKTOP],
    ['dark', { ...DESKTOP, colorScheme: 'dark' as const }],
    ['on a phone', PHONE],
  ])('fits its window and can be read: %s', async (_, options) => {
    await open(options)
    await press('A front page')
    await press('Play')
    await press('The key step')
    await page.locator('.frames svg').waitFor()
    const { over, contrasts } = await page.evaluate(legibility)
    expect(over).toBeLessThanOrEqual(0)
    expect(Math.min(...contrasts)).toBeGreaterThanOrEqual(4.5)
  })

  it('says what is wrong with a picture that has no grid', async () => {
    await open(DESKTOP)
    await page.locator('#photo').setInputFiles({
      name: 'page.png',
      mimeType: 'image/png',
      buffer: Buffer.from('not a picture'),
    })
    await page.locator('.trouble').waitFor()
    expect(await page.locator('.trouble').textContent()).not.toBe('')
  })
})
