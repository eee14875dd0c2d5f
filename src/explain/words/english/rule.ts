import { digitRange } from '../../../grid/digit-names.js'
import type { Geometry } from '../../../grid/geometry.js'
import type { House } from '../../../grid/layout.js'
import { layoutOf } from '../../../grid/layout.js'
import type { Names } from '../../names.js'
import { count, englishTerms, list } from './terms.js'

/**
 * `Each row, column and 3×3 box holds the digits 1 to 9 once each.` A second sentence says which diagonals count as
 * well, or which region has which number, so that later sentences can name them.
 */
export function englishRule(names: Names): string {
  const { geometry, digits: style } = names
  const { cell } = englishTerms(names)
  const { order } = geometry
  const { houses } = layoutOf(geometry)
  const boxes = houses.filter(({ kind }) => kind === 'box')
  const regions = houses.filter(({ kind }) => kind === 'region')
  const diagonals = houses.filter(({ kind }) => kind === 'diagonal')
  const kinds = [
    'row',
    'column',
    ...(boxes.length > 0 ? [boxName(geometry, boxes[0]!)] : []),
    ...(regions.length > 0 ? ['outlined region'] : []),
  ]
  const letters = order > 9 && style !== 'numbers' ? ' (A stands for 10)' : ''
  const sentences = [
    `Each ${kinds.slice(0, -1).join(', ')} and ${kinds[kinds.length - 1]} holds the digits ${digitRange(order, style)} once each${letters}.`,
  ]
  if (diagonals.length > 0) {
    const where = diagonals.map(
      ({ name, cells }) => `${name} from ${cell(cells[0]!)} to ${cell(cells[order - 1]!)}`,
    )
    sentences.push(
      diagonals.length === 2 ? `So do both long diagonals: ${list(where)}.` : `So does ${list(where)}.`,
    )
  }
  if (regions.length > 0) {
    const first = regions.map(({ name, cells }) => `${name} at ${cell(cells[0]!)}`)
    sentences.push(`Seen row by row, the regions begin with ${list(first)}.`)
  }
  if (geometry.furtherPeers) sentences.push('Some further cells must not hold the same digit either.')
  return sentences.join(' ')
}

/** `3×3 box`; where the sides differ, which is which. */
function boxName({ order }: Geometry, { cells }: House): string {
  const rows = new Set(cells.map((cell) => Math.floor(cell / order))).size
  const columns = order / rows
  const sides = `${rows}×${columns} box`
  return rows === columns ? sides : `${sides} (${count(rows)} rows high, ${count(columns)} columns wide)`
}
