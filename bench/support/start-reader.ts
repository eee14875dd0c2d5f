/** A program of its own: reads one photo with the digit reader named and tells, as JSON, what starting took. */
import { createRequire } from 'node:module'

const [name, photo] = process.argv.slice(2)
const started = performance.now()
const { createPhotoReader, createTesseractReader } = await import('../../src/photo.js')
const reader = await createPhotoReader(name === 'tesseract' ? { digitReader: createTesseractReader() } : {})
await reader.read(photo!)
const ms = performance.now() - started
const rssMiB = process.memoryUsage.rss() / 2 ** 20
// the engine's package is CommonJS, so a module that was loaded is in this list
const loaded = Object.keys(createRequire(import.meta.url).cache)
const engineLoaded = loaded.some((file) => file.includes('tesseract.js'))
await reader.close()
console.log(JSON.stringify({ ms, rssMiB, engineLoaded }))
