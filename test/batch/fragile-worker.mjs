/** A worker that ends at its first job, as one does that runs out of memory. */
import { parentPort } from 'node:worker_threads'

parentPort.on('message', () => process.exit(7))
parentPort.postMessage('ready')
