import { describe, expect, it } from 'vitest'
import type { FontSet } from '../../../fixtures/draw/font-families.js'
import { drawPicture, type Kind } from '../../../fixtures/draw/scenes.js'
import { type FoundLattice, latticeSearch } from '../../../src/photo/find/find-lattices.js'
import { closerView, seenGrids, showsGrid } from '../../../src/photo/find/page-net.js'
import { seenTurned } from '../../../src/photo/find/turned-view.js'
import { createPhotoReader, decodePicture, type GrayImage, NoGridFound } from '../../../src/photo.js'
import { pageNet } from './lattices-now.js'

/** Pages that something about finding grids was learnt from: drawn anew here. */
async function page(kind: Kind, seed: number, fonts: FontSet) {
  const { data, label } = await drawPicture({ kind, seed, fonts, name: 'page' })
  return { data, label, picture: await decodePicture(data) }
}

function allFound(image: GrayImage): FoundLattice[] {
  return ended(latticeSearch(pageNet, image))
}

function ended<T>(search: Generator<void, T>): T {
  for (;;) {
    const step = search.next()
    if (step.done) return step.value
  }
}

describe('grids on drawn pages', () => {
  it('are found where they stand on a corner and rules are few: the network looks again with the picture turned', async () => {
    const { label, picture } = await page('photos', 2301608445, 'kept-aside')
    const scale = picture.gray.width / picture.fullWidth
    const corners = [0, 9, 90, 99].map((k) => label.grids[0]!.lattice[k]!.map((value) => value * scale))
    const { places } = ended(closerView(pageNet, picture.gray, seenGrids(pageNet, picture.gray)[0]!))
    const turned = seenTurned(pageNet, picture.gray, places)!
    expect(showsGrid(turned)).toBe(true)
    const [found, ...others] = allFound(picture.gray)
    expect(others).toEqual([])
    const side = Math.hypot(corners[0]![0]! - corners[1]![0]!, corners[0]![1]! - corners[1]![1]!) / 9
    for (const [x, y] of corners) {
      const off = [0, 9, 90, 99].map((k) =>
        Math.hypot(found!.lattice.points[k]!.x - x!, found!.lattice.points[k]!.y - y!),
      )
      expect(Math.min(...off)).toBeLessThan(0.2 * side)
    }
  })

  it('are found between stripes of colour: without colours, where none shows with them', async () => {
    const { data, label, picture } = await page('photos', 1206386080, 'kept-aside')
    expect(allFound(picture.gray)).toEqual([])
    const reader = await createPhotoReader()
    const {
      readings: [reading, ...others],
    } = await reader.read(data)
    await reader.close()
    expect(others).toEqual([])
    expect(reading.puzzle.givens.join('')).toBe(label.grids[0]!.givens)
  })

  it('are none where nine columns go on beyond the picture and their figures are no puzzle', async () => {
    const { data, picture } = await page('non-grids', 2900610224, 'all')
    expect(allFound(picture.gray)).toMatchObject([
      { needsSoundPuzzle: true, lattice: { order: 9, cut: true } },
    ])
    const reader = await createPhotoReader()
    await expect(reader.read(data)).rejects.toThrow(NoGridFound)
    await reader.close()
  })

  it('are none on a crossword under veiling light, nor on noisy window panes', async () => {
    const reader = await createPhotoReader()
    for (const seed of [305717272, 400717551]) {
      const { data } = await page('non-grids', seed, 'all')
      await expect(reader.read(data)).rejects.toThrow(NoGridFound)
    }
    await reader.close()
  })
})
