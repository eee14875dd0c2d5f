import { copyFile } from 'node:fs/promises'
import { defineConfig } from 'tsup'

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
      batch: 'src/batch.ts',
    },
  },
  clean: true,
  // The files are as readable as the sources; maps would double the package.
  sourcemap: false,
  onSuccess: async () => {
    // The networks' weights are read from next to the code that runs them.
    await copyFile('src/photo/digits/digit-net.bin', 'dist/photo/digits/digit-net.bin')
    await copyFile('src/photo/find/page-net.bin', 'dist/photo/find/page-net.bin')
  },
})
