import { availableParallelism } from 'node:os'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['test/**/*.test.ts'],
    testTimeout: 60_000,
    // The default leaves one core free, which is half of them on a machine with two.
    maxWorkers: availableParallelism(),
  },
})
