import { type DecodedPicture, toFullFrame } from '../decode/decode-picture.js'
import type { Point } from '../image.js'
import { Homography } from './homography.js'
import { LIKELY_SEEN, likelyOrders, type PageNet, seenGrids, showsGrid, sureness } from './page-net.js'

/** What a quick look at a picture takes for a grid. */
export interface SeenGrid {
  /** Log odds of its being one: from 5 on there is hardly a doubt. */
  readonly sureness: number
  /** How many rows and columns it seems to have. */
  readonly order: number
  /** About where its corners lie on the picture, in pixels, clockwise from the top left one. */
  readonly bounds: readonly [Point, Point, Point, Point]
}

/** The largest grid that the network sees in the whole of the picture, if it sees any. */
export function seenGrid(net: PageNet, picture: DecodedPicture): SeenGrid | undefined {
  for (const places of seenGrids(net, picture.gray)) {
    if (!showsGrid(places) || sureness(places) < LIKELY_SEEN) continue
    const map = Homography.fit(
      places.map(({ u, v }) => ({ x: u, y: v })),
      places.map(({ point }) => point),
    )
    if (!map) continue
    const corner = (u: number, v: number) => toFullFrame(picture, map.apply(u, v))
    const [order] = likelyOrders(places)
    return {
      sureness: sureness(places),
      order: order!,
      bounds: [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)],
    }
  }
  return undefined
}
