import { existsSync } from 'node:fs'
import type { Browser } from 'playwright-core'

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium'

/** Chromium is no package of npm: where the system has none, there is nothing to run tests in. */
export const hasChromium = existsSync(CHROMIUM)

/** Says what is not tested, if there is no browser. */
export function noteMissing(what: string): void {
  if (!hasChromium) console.log(`note: no browser at ${CHROMIUM}; ${what} (apt install chromium)`)
}

export async function launch(): Promise<Browser> {
  const { chromium } = await import('playwright-core')
  return chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] })
}
