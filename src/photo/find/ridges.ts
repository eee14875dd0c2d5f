import type { GrayImage } from '../image.js'
import { PixelMaps } from './pixel-maps.js'

/** A pixel lighter than this share of the paper is no ridge. */
const INKED = 0.985
/** A pixel darker than this share of it is dark: the inside of rules and frames wider than the widest ridge. */
const DARK = 0.55

/**
 * Where thin dark lines run, whatever their direction, and wherever the light comes from: how much darker than both its
 * sides each pixel is, in thousandths of the paper's brightness there (0 to 1000), and 1000 for what is dark itself.
 * Asked again, it hands out the same map.
 *
 * A pixel of a rule is darker than the paper on both its sides; an edge of a shaded cell or of a chessboard square is
 * darker than one side only. So the strength is the larger, over four directions and two distances (3 pixels for fine
 * rules, 6 for thick or blurred ones), of `min(side, opposite side) - pixel`, taken from 3 × 3 means against noise and
 * divided by the brightness of the paper near by, because light and shadow multiply. A side that would lie outside the
 * picture is taken from its edge: rules that run into it still part the cells there.
 */
export function ridgeMap(image: GrayImage): Uint16Array {
  let map = maps.get(image)
  if (!map) {
    map = new PixelMaps(image).ridges(INKED, DARK)
    maps.set(image, map)
  }
  return map
}

/** Maps of pictures still in use. */
const maps = new WeakMap<GrayImage, Uint16Array>()
