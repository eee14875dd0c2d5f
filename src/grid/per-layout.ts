import type { Geometry } from './geometry.js'
import { type Layout, layoutOf } from './layout.js'

/**
 * What follows from a layout, worked out when first asked for: `const linesOf = perLayout(makeLines)`. Geometries with
 * the same key share one value, which lasts as long as the layout does.
 */
export function perLayout<T extends object>(
  make: (layout: Layout, geometry: Geometry) => T,
): (geometry: Geometry) => T {
  const byGeometry = new WeakMap<Geometry, T>()
  const byLayout = new WeakMap<Layout, T>()
  return (geometry) => {
    let value = byGeometry.get(geometry)
    if (value === undefined) {
      const layout = layoutOf(geometry)
      value = byLayout.get(layout)
      if (value === undefined) {
        value = make(layout, geometry)
        byLayout.set(layout, value)
      }
      byGeometry.set(geometry, value)
    }
    return value
  }
}
