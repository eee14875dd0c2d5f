import { describe, expect, it } from 'vitest'
import { drawPicture } from '../../../fixtures/draw/scenes.js'
import { createPhotoReader } from '../../../src/photo.js'

/** Pages from which something about cutting cells was learnt, drawn anew: what they show, and the seed. */
const PAGES = [
  ['a page on its side, its figures heavy and light on a coloured ground', 1525435581],
  ['stripes of colour, blurred', 1222434654],
  ['soft black print on a coloured cell', 2427438281],
  ['light figures on a dark ground that hardly differ from it', 1426435279],
] as const

describe('cells of drawn pages', () => {
  it.each(PAGES)('are cut dark on light: %s', async (_, seed) => {
    const { data, label } = await drawPicture({ kind: 'photos', seed, fonts: 'kept-aside', name: 'page' })
    const reader = await createPhotoReader()
    const {
      readings: [reading],
    } = await reader.read(data)
    await reader.close()
    expect(reading.puzzle.givens.join('')).toBe(label.grids[0]!.givens)
    expect(reading.status).toBe('certain')
  })
})
