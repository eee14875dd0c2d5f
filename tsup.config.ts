import { copyFile } from 'node:fs/promises'
import { defineConfig } from 'tsup'

export default defineConfig({
  entry: {
    index: 'src/index.ts',
    german: 'src/german.ts',
    photo: 'src/photo.ts',
    batch: 'src/batch.ts',
    // What the threads of a batch run; src/batch/pool.ts finds it by this name.
    'batch-worker': 'src/batch/worker.ts',
    // No doors of their own: what is made at load (techniques, schemas, checks of options) a bundler dare not drop from a file it needs for
    // anything else, so each kind stands in a file that it can leave out whole.
    'parts-text': 'src/grid/text/parse.ts',
    'parts-stream': 'src/grid/text/stream.ts',
    'parts-techniques': 'src/logic/catalogue.ts',
    'parts-steps': 'src/logic/step-json.ts',
    'parts-find': 'src/logic/find.ts',
    'parts-progress': 'src/logic/check-progress.ts',
    'parts-claims': 'src/logic/check-claim.ts',
    'parts-rank': 'src/logic/rank.ts',
    'parts-route': 'src/route/find-route.ts',
    'parts-wishes': 'src/route/wishes.ts',
    'parts-explain': 'src/explain/explain-step.ts',
    'parts-titles': 'src/explain/words/english/technique-title.ts',
    'parts-hint': 'src/explain/hint.ts',
    'parts-picture': 'src/explain/render-svg.ts',
    'parts-walkthrough': 'src/explain/walkthrough.ts',
    'parts-canonical': 'src/grid/canonical.ts',
    'parts-distinguish': 'src/count/distinguish.ts',
    'parts-random': 'src/count/random-solution.ts',
    'parts-digit-sets': 'src/grid/digit-sets.ts',
    'parts-lessons': 'src/lessons/find-exercises.ts',
    'parts-needs': 'src/lessons/needs-technique.ts',
    'parts-pick': 'src/lessons/pick.ts',
    'parts-coverage': 'src/grade/coverage.ts',
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
  // The networks' weights are read from beside the code that runs them.
  onSuccess: async () => {
    await copyFile('src/photo/digits/digit-net.bin', 'dist/digit-net.bin')
    await copyFile('src/photo/find/page-net.bin', 'dist/page-net.bin')
  },
})
