import { extentOf, frameOf, meanPoint, widened } from '../frame.js'
import { type GrayImage, type Point, pixelAt } from '../image.js'
import { shrink } from '../raster/shrink.js'
import { nearest, type PageNet, type SeenPlace, seenGrids, showsGrid } from './page-net.js'

/** Pixels a side of the turned view: as many as the network can use. */
const SIDE = 512
/** Room around the places, as a share of their extent. */
const ROOM = 0.15
const COSINE = Math.SQRT1_2

/**
 * The same grid seen once more with the picture turned by 45°. A grid that stands on its corner may be counted from
 * either of two corners; the network is torn between them there and says something in between.
 *
 * @returns places on the picture; undefined where no grid is seen so
 */
export function seenTurned(
  net: PageNet,
  image: GrayImage,
  places: readonly SeenPlace[],
): SeenPlace[] | undefined {
  const around = frameOf(places.map(({ point }) => point))
  const extent = extentOf(widened(around, ROOM * extentOf(around)))
  const middle = { x: (around.left + around.right) / 2, y: (around.top + around.bottom) / 2 }
  const factor = Math.max(1, Math.floor(extent / SIDE))
  const copy = shrink(image, factor)
  const side = Math.round(Math.min(SIDE, extent / factor))
  const scale = extent / side
  const onPicture = ({ x, y }: Point): Point => {
    const [right, down] = [(x - side / 2) * scale * COSINE, (y - side / 2) * scale * COSINE]
    return { x: middle.x + right - down, y: middle.y + right + down }
  }
  const data = new Uint8Array(side * side)
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const at = onPicture({ x: x + 0.5, y: y + 0.5 })
      data[y * side + x] = copy.data[pixelAt(copy, { x: at.x / factor, y: at.y / factor })]!
    }
  }
  const groups = seenGrids(net, { width: side, height: side, data }).map((group) =>
    group.map((place) => ({ ...place, point: onPicture(place.point) })),
  )
  const turned = nearest(groups.filter(showsGrid), meanPoint(places.map(({ point }) => point)))
  return turned && [...turned]
}
