import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { build, type Plugin } from 'esbuild'
import { packedWeights, type WeightsName } from '../../tsup.config.js'

/** Puts the modules with the weights where the package has them. */
export const weights: Plugin = {
  name: 'weights',
  setup({ onLoad }) {
    onLoad(
      { filter: /weights\/(digit-net|number-net|page-net|figure-net|page-context|entry-net)\.ts$/ },
      async ({ path }) => ({
        contents: await packedWeights(/[a-z-]+(?=\.ts$)/.exec(path)![0] as WeightsName),
        loader: 'js',
      }),
    )
  },
}

/** Modules for a browser, by their paths: the entries, and what they load when it is asked for. */
export async function bundled(entries: Readonly<Record<string, string>>): Promise<Map<string, Uint8Array>> {
  const { outputFiles } = await build({
    entryPoints: { ...entries },
    absWorkingDir: fileURLToPath(new URL('../../', import.meta.url)),
    outdir: '/',
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'browser',
    conditions: ['browser'],
    plugins: [weights],
    write: false,
    logLevel: 'error',
  })
  return new Map(outputFiles.map(({ path, contents }) => [path, contents]))
}

/** The strictest policy under which photos are read: WebAssembly, and nothing from elsewhere. */
const POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'"

/** An empty page at `/`, and files; `close` ends it. */
export async function serve(
  files: ReadonlyMap<string, Uint8Array>,
): Promise<{ readonly url: string; close(): void }> {
  const server: Server = createServer(({ url = '/' }, response) => {
    const file = files.get(url)
    const isScript = url.endsWith('.js')
    response.setHeader('Content-Security-Policy', POLICY)
    response.setHeader('Content-Type', isScript ? 'text/javascript' : file ? 'image/jpeg' : 'text/html')
    response.statusCode = file || url === '/' ? 200 : 404
    response.end(file ?? '<!doctype html><title>Photos</title><script type="module" src="/page.js"></script>')
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return { url: `http://127.0.0.1:${port}/`, close: () => server.close() }
}
