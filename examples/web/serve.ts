/**
 * A page to look at: a photo is read, looked through, played and explained, all in the browser.
 *
 *     npm run example:web [-- --port 8080]
 *
 * The page takes the package as it is built, as any other page would.
 */

import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { argv } from 'node:process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { type BuildOptions, build } from 'esbuild'

const root = new URL('../../', import.meta.url)
const page = new URL('page/', import.meta.url)

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css',
  js: 'text/javascript',
  jpg: 'image/jpeg',
}

/** What a page needs that reads photos: WebAssembly, and nothing from elsewhere. */
const POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' blob: data:"

/** The package as it is built, not the sources that the type checker is sent to. */
const BUILT: BuildOptions = { tsconfigRaw: {} }

/** The page's files by their paths. */
async function pageFiles(packageFrom: BuildOptions): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>()
  const add = async (path: string, file: URL) => void files.set(path, await readFile(file))
  await add('/', new URL('index.html', page))
  await add('/style.css', new URL('style.css', page))
  for (const name of ['front-page', 'half-solved']) {
    const number = { 'front-page': 1, 'half-solved': 5 }[name]
    await add(`/samples/${name}.jpg`, new URL(`fixtures/pages/${number}-${name}.jpg`, root))
  }
  const { outputFiles } = await build({
    entryPoints: { app: './app.ts', 'photo-worker': 'gridreason/photo-worker' },
    absWorkingDir: fileURLToPath(page),
    outdir: '/',
    bundle: true,
    splitting: true,
    minify: true,
    format: 'esm',
    platform: 'browser',
    logLevel: 'error',
    ...packageFrom,
    write: false,
  })
  for (const { path, contents } of outputFiles) files.set(path, contents)
  return files
}

/**
 * Serves the page until `close` is called.
 *
 * @param packageFrom how the bundler finds the package
 */
export async function servePage(
  port = 0,
  packageFrom = BUILT,
): Promise<{ readonly url: string; close(): void }> {
  const files = await pageFiles(packageFrom)
  const server = createServer(({ url = '/' }, response) => {
    const { pathname } = new URL(url, 'http://localhost')
    const file = files.get(pathname)
    response.setHeader('Content-Security-Policy', POLICY)
    response.setHeader('Content-Type', TYPES[/\.(\w+)$/.exec(pathname)?.[1] ?? 'html'] ?? 'text/plain')
    response.statusCode = file ? 200 : 404
    response.end(file ?? 'There is nothing here.')
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, '127.0.0.1', resolve)
  })
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () => {
      server.close()
      server.closeAllConnections()
    },
  }
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const { values } = parseArgs({ options: { port: { type: 'string', default: '8080' } } })
  const { url } = await servePage(Number(values.port))
  console.log(`The puzzle desk is open at ${url}`)
}
