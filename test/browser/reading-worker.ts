// Reads photos in a web worker of the test, as an app would.
import { outcomeOf, type Question } from './read-there.js'

interface WorkerScope {
  onmessage: ((event: { data: Question }) => void) | null
  postMessage(message: unknown): void
}
const scope = globalThis as unknown as WorkerScope
scope.onmessage = async ({ data }) => scope.postMessage(await outcomeOf(data))
