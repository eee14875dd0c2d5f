/**
 * The worker of a batch run from its TypeScript source: a thread takes its loader from nobody, so it brings its own.
 */
import { register } from 'tsx/esm/api'

register()
await import('../../src/batch/threads/batch-worker.ts')
