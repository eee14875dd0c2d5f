import type { Geometry } from '../grid/geometry.js'
import type { House } from '../grid/layout.js'
import { layoutOf } from '../grid/layout.js'

/** A geometry's rows, columns and blocks (boxes or regions), sorted out once. */
export interface Lines {
  readonly rows: readonly House[]
  readonly columns: readonly House[]
  readonly blocks: readonly House[]
  /** cell -> index of its block in `geometry.houses`. */
  readonly blockOf: readonly number[]
}

const known = new WeakMap<Geometry, Lines>()

export function linesOf(geometry: Geometry): Lines {
  let lines = known.get(geometry)
  if (!lines) {
    const { houses } = layoutOf(geometry)
    const blocks = houses.filter(({ kind }) => kind === 'box' || kind === 'region')
    const blockOf = new Array<number>(geometry.cellCount).fill(-1)
    for (const { cells, index } of blocks) for (const cell of cells) blockOf[cell] = index
    lines = {
      rows: houses.filter(({ kind }) => kind === 'row'),
      columns: houses.filter(({ kind }) => kind === 'column'),
      blocks,
      blockOf,
    }
    known.set(geometry, lines)
  }
  return lines
}
