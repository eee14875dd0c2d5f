import assert from 'node:assert/strict'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { build as esbuild } from 'esbuild'
import { createLogger, build as vite } from 'vite'
import webpack from 'webpack'

interface Entry {
  readonly from: string
  readonly platform: 'browser' | 'node'
  /** The file of an app that imports it, and the folder that its bundle is for. */
  readonly file: string
  readonly out: string
}

const ENTRIES = [
  { from: 'gridreason', platform: 'browser' },
  { from: 'gridreason/photo', platform: 'browser' },
  { from: 'gridreason/photo', platform: 'node' },
  { from: 'gridreason/batch', platform: 'node' },
  { from: 'gridreason/batch', platform: 'browser' },
] as const

/** What an app on a server adds itself, and no bundler takes in. */
const NATIVE = ['sharp', 'tesseract.js']

/**
 * Bundles of everything tell of their size, which is for the app to judge: the ceilings of one function each stand in
 * `check.ts`.
 */
const BUNDLERS: Readonly<Record<string, (entry: Entry) => Promise<readonly string[]>>> = {
  async esbuild({ file, platform, out }) {
    const { warnings } = await esbuild({
      entryPoints: [file],
      outdir: out,
      bundle: true,
      splitting: true,
      format: 'esm',
      platform,
      external: platform === 'node' ? NATIVE : [],
      logLevel: 'silent',
    })
    return warnings.map(({ text }) => text)
  },

  async vite({ file, platform, out }) {
    const warnings: string[] = []
    const keep = (message: string) => void warnings.push(message)
    await vite({
      root: join(file, '..'),
      configFile: false,
      customLogger: { ...createLogger('silent'), warn: keep, warnOnce: keep, error: keep },
      ssr: { noExternal: ['gridreason'] },
      build: {
        outDir: out,
        minify: false,
        chunkSizeWarningLimit: Number.POSITIVE_INFINITY,
        ...(platform === 'node' ? { ssr: file } : { rollupOptions: { input: file } }),
      },
    })
    return warnings
  },

  async webpack({ file, platform, out }) {
    const stats = await new Promise<webpack.Stats>((resolve, reject) => {
      webpack(
        {
          mode: 'production',
          target: platform === 'node' ? 'node20' : 'web',
          context: join(file, '..'),
          entry: file,
          output: { path: out },
          externals: platform === 'node' ? NATIVE : [],
          externalsType: platform === 'node' ? 'commonjs' : 'var',
          optimization: { minimize: false },
          performance: { hints: false },
        },
        (error, stats) => (error ? reject(error) : resolve(stats!)),
      )
    })
    const { warnings = [], errors = [] } = stats.toJson({ all: false, warnings: true, errors: true })
    return [...errors, ...warnings].map(({ message }) => message)
  },
}

/**
 * Every entry in every bundler, for the platforms it is for, without a warning. `app` is a folder that has the package.
 */
export async function checkBundlers(app: string): Promise<void> {
  for (const { from, platform } of ENTRIES) {
    const name = `${from.replace('/', '-')}-${platform}`
    const file = join(app, `${name}.js`)
    // all of it is used, so that nothing is dropped before it could be warned of
    writeFileSync(file, `import * as all from '${from}'\nconsole.log(all)\n`)
    for (const [bundler, bundle] of Object.entries(BUNDLERS)) {
      const warnings = await bundle({ from, platform, file, out: join(app, 'bundles', bundler, name) })
      assert.deepEqual(warnings, [], `${bundler} bundles ${from} for ${platform} without a warning`)
    }
  }
}
