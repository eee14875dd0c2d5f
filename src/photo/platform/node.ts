import { readFile } from 'node:fs/promises'
import { argumentError } from '../../check-arguments.js'
import { loadPath } from '../decode/picture-file.js'
import { expectedPicture } from '../decode/picture-input.js'
import { decodeWithSharp } from '../decode/with-sharp.js'
import { fetched } from './fetched.js'
import type { Platform } from './platform.js'

export const NODE: Platform = {
  readUrl: async (url) => (url.protocol === 'file:' ? readFile(url) : fetched(url)),
  async load(source, _maxPixels, signal) {
    const picture = await loadPath(source, signal)
    if (picture) return picture
    throw argumentError('picture', expectedPicture('a path, a file: URL'), source)
  },
  decode: decodeWithSharp,
}
