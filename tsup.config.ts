import { defineConfig } from 'tsup'

export default defineConfig({
  entry: {
    index: 'src/index.ts',
    photo: 'src/photo.ts',
    batch: 'src/batch.ts',
  },
  format: ['esm'],
  target: 'node20',
  platform: 'neutral',
  dts: true,
  clean: true,
  splitting: true,
  sourcemap: true,
  // Node built-ins and the packages of `dependencies` stay imports; everything else is ours.
  external: [/^node:/],
})
