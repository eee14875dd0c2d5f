import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { copyFile, mkdir, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as batch from '../../src/batch.js'
import * as german from '../../src/german.js'
import * as core from '../../src/index.js'
import * as photo from '../../src/photo.js'
import { asProgram } from './docstrings.js'

const root = fileURLToPath(new URL('../../', import.meta.url))
const guides = join(root, 'examples/guides')
const GUIDES = readdirSync(guides).filter((file) => file.endsWith('.md'))
const PAGES = [
  ...GUIDES.map((file) => join(guides, file)),
  join(root, 'README.md'),
  join(root, 'CHANGELOG.md'),
]

const MODULES: Readonly<Record<string, unknown>> = {
  gridreason: core,
  'gridreason/german': german,
  'gridreason/photo': photo,
  'gridreason/batch': batch,
  'node:fs/promises': await import('node:fs/promises'),
}

/** The code of a page, one program from top to bottom. */
function programOf(page: string): string {
  const blocks = [...page.matchAll(/^```ts\n([\s\S]*?)^```$/gm)].map(([, code]) => code!)
  // imports are taken from the sources, and checked to be there
  const code = blocks
    .join('\n')
    .replace(
      /^import (\{[^}]*\}) from '([^']+)'$/gm,
      (_, names, from) => `const ${names} = imported('${from}')`,
    )
  return asProgram(code)
}

describe('guides', () => {
  const folder = mkdtempSync(join(tmpdir(), 'guides-'))
  const cwd = process.cwd()
  const text = '5...6.....6.1.27..4...7...3.....95.4..4..7...2..3......8..2....7....3.9..3...42..'

  beforeAll(async () => {
    process.chdir(folder)
    await copyFile(join(root, 'fixtures/pages/1-front-page.jpg'), 'page.jpg')
    await copyFile(join(root, 'examples/archive/fennmoor-lantern-drawer.txt'), 'drawer.txt')
    await mkdir('puzzles')
    await writeFile('puzzles/november.txt', `${text}\n`)
  })
  afterAll(() => {
    process.chdir(cwd)
    rmSync(folder, { recursive: true })
  })

  it.each([...GUIDES, '../../README.md'])('the code of %s does what the page says', async (file) => {
    const program = programOf(readFileSync(join(guides, file), 'utf8'))
    const upload = readFileSync('page.jpg')
    const around = {
      text,
      upload,
      input: { files: [new Blob([upload])] },
      request: { signal: new AbortController().signal },
      console: { log: () => {} },
      same: (value: unknown, said: unknown) => expect(value).toEqual(said),
      imported: (from: string) =>
        new Proxy(MODULES[from] as Record<string, unknown>, {
          get(all, name) {
            expect(Object.keys(all), `${from} has ${String(name)}`).toContain(name)
            return all[name as string]
          },
        }),
    }
    const AsyncFunction = (async () => {}).constructor as FunctionConstructor
    await new AsyncFunction(...Object.keys(around), program)(...Object.values(around))
  })

  it('no link is dead, in the repository or in the package', () => {
    // what the build makes is checked in the packed tarball
    const shipped = [...PAGES, join(root, 'LICENSE'), join(root, 'DEVELOPERS.md')]
    const dead = PAGES.flatMap((page) => {
      const links = [...readFileSync(page, 'utf8').matchAll(/\]\(([^)#\s]+)[^)]*\)/g)].map(
        ([, link]) => link!,
      )
      return links
        .filter((link) => !/^https?:/.test(link))
        .map((link) => resolve(dirname(page), link))
        .filter((file) => !file.startsWith(join(root, 'dist')))
        .filter((file) => !existsSync(file) || !(shipped.includes(file) || file.startsWith(guides)))
    })
    expect(dead).toEqual([])
  })
})
