import { runNow } from '../../../src/limits.js'
import { findingTask, latticeSearch } from '../../../src/photo/find/find-lattices.js'
import { loadPageNet } from '../../../src/photo/find/page-net.js'
import type { GrayImage, Lattice } from '../../../src/photo.js'

export const pageNet = await loadPageNet()

/** What `findLattices` finds, at once: for properties that are tried hundreds of times. */
export function latticesNow(image: GrayImage): Lattice[] {
  const found = runNow({}, (watch) => findingTask(latticeSearch(pageNet, image), watch))
  return found.map(({ lattice }) => lattice)
}
