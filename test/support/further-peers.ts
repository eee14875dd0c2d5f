import { type Geometry, withFurtherPeers } from '../../src/grid/geometry.js'

/** The same grid in which no digit stands twice a knight's move apart. */
export function withKnights(geometry: Geometry): Geometry {
  const pairs = [
    [1, 2],
    [2, 1],
  ].flatMap(([down, across]) => pairsApart(geometry, down!, across!))
  return withFurtherPeers(geometry, `${geometry.name} and a knight's move`, pairs)
}

/** The same grid in which no digit touches itself at a corner. */
export function withKings(geometry: Geometry): Geometry {
  return withFurtherPeers(geometry, `${geometry.name} and a king's move`, pairsApart(geometry, 1, 1))
}

function pairsApart({ order, cellCount }: Geometry, down: number, across: number): [number, number][] {
  const pairs: [number, number][] = []
  for (let cell = 0; cell < cellCount; cell++) {
    const row = Math.floor(cell / order) + down
    for (const column of [(cell % order) - across, (cell % order) + across])
      if (row < order && column >= 0 && column < order) pairs.push([cell, row * order + column])
  }
  return pairs
}
