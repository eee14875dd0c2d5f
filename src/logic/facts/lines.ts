import type { House } from '../../grid/layout.js'
import { perLayout } from '../../grid/per-layout.js'

/** A geometry's rows, columns and blocks (boxes or regions), sorted out once. */
export interface Lines {
  readonly rows: readonly House[]
  readonly columns: readonly House[]
  readonly blocks: readonly House[]
  /** cell -> index of its block in `geometry.houses`. */
  readonly blockOf: readonly number[]
}

export const linesOf = perLayout(({ houses, cellCount }): Lines => {
  const blocks = houses.filter(({ kind }) => kind === 'box' || kind === 'region')
  const blockOf = new Array<number>(cellCount).fill(-1)
  for (const { cells, index } of blocks) for (const cell of cells) blockOf[cell] = index
  return {
    rows: houses.filter(({ kind }) => kind === 'row'),
    columns: houses.filter(({ kind }) => kind === 'column'),
    blocks,
    blockOf,
  }
})
