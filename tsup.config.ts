import { readFile, writeFile } from 'node:fs/promises'
import { defineConfig } from 'tsup'

const WEIGHTS = {
  'digit-net': 'src/photo/digits/digit-net.bin',
  'number-net': 'src/photo/digits/number-net.bin',
  'page-net': 'src/photo/find/page-net.bin',
  'figure-net': 'src/photo/print-or-hand/figure-net.bin',
  'page-context': 'src/photo/print-or-hand/page-context.bin',
  'entry-net': 'src/photo/print-or-hand/entry-net.bin',
} as const
export type WeightsName = keyof typeof WEIGHTS

/**
 * The module that stands in the package for `src/photo/weights/NAME.ts`: it holds a network's weights as text. Bundlers
 * take it as any other module, where they differ in what they make of a file beside the code.
 */
export async function packedWeights(name: WeightsName): Promise<string> {
  const base64 = (await readFile(new URL(WEIGHTS[name], import.meta.url))).toString('base64')
  return `import { fromBase64 } from '../base64.js'\nexport const packedBytes = async () => fromBase64('${base64}')\n`
}

// One file a module, as in the sources: a bundler leaves out what an app does not use, and what is made when a module
// is loaded (techniques, schemas, checks of options) keeps no other module in.
export default defineConfig({
  entry: ['src/**/*.ts'],
  bundle: false,
  format: ['esm'],
  target: 'node20',
  platform: 'neutral',
  dts: {
    entry: {
      index: 'src/index.ts',
      german: 'src/german.ts',
      schemas: 'src/schemas.ts',
      photo: 'src/photo.ts',
      'photo-browser': 'src/photo-browser.ts',
      batch: 'src/batch.ts',
      'photo-worker': 'src/batch/threads/web-worker.ts',
    },
  },
  clean: true,
  // The files are as readable as the sources; maps would double the package.
  sourcemap: false,
  onSuccess: async () => {
    for (const name of Object.keys(WEIGHTS) as WeightsName[])
      await writeFile(`dist/photo/weights/${name}.js`, await packedWeights(name))
  },
})
