import { digitName } from '../../../grid/digit-names.js'
import type { Geometry } from '../../../grid/geometry.js'
import { type House, layoutOf } from '../../../grid/layout.js'
import type { Names } from '../../names.js'
import { count, germanTerms, list } from './terms.js'

/**
 * The rule of the puzzle: which houses hold every digit once, where diagonals run, and which region has which number.
 */
export function germanRule(names: Names): string {
  const { geometry, digits: style } = names
  const { order } = geometry
  const t = germanTerms(names)
  const { houses } = layoutOf(geometry)
  const ofKind = (kind: House['kind']) => houses.filter((house) => house.kind === kind)
  const [boxes, regions, diagonals] = [ofKind('box'), ofKind('region'), ofKind('diagonal')]
  const kinds = [
    'jede Zeile',
    'jede Spalte',
    ...(boxes.length > 0 ? [`jeder ${boxName(geometry, boxes[0]!)}`] : []),
    ...(regions.length > 0 ? ['jede umrandete Region'] : []),
  ]
  const lettered = order > 9 && style !== 'numbers'
  const range = !lettered
    ? `1 bis ${order}`
    : `1 bis 9 und ${order === 10 ? 'A' : `A bis ${digitName(order, style)}`}`
  const sentence = `${kinds.slice(0, -1).join(', ')} und ${kinds[kinds.length - 1]} enthält jede der Ziffern ${range} genau einmal${lettered ? ' (A steht für 10)' : ''}.`
  const sentences = [sentence.charAt(0).toUpperCase() + sentence.slice(1)]
  if (diagonals.length > 0) {
    const where = diagonals.map(
      ({ index, cells }) => `${t.house(index)} von ${t.cell(cells[0]!)} bis ${t.cell(cells[order - 1]!)}`,
    )
    sentences.push(
      diagonals.length === 2
        ? `Dasselbe gilt für beide langen Diagonalen: ${list(where)}.`
        : `Dasselbe gilt für ${list(where)}.`,
    )
  }
  if (regions.length > 0) {
    const first = regions.map(({ index, cells }) => `${t.house(index)} bei ${t.cell(cells[0]!)}`)
    sentences.push(`Zeile für Zeile gelesen beginnen die Regionen so: ${list(first)}.`)
  }
  if (geometry.furtherPeers) sentences.push('Auch einige weitere Zellen dürfen nicht dieselbe Ziffer haben.')
  return sentences.join(' ')
}

/** `3×3-Block`; where the sides differ, which is which. */
function boxName({ order }: Geometry, { cells }: House): string {
  const rows = new Set(cells.map((cell) => Math.floor(cell / order))).size
  const columns = order / rows
  const sides = `${rows}×${columns}-Block`
  return rows === columns ? sides : `${sides} (${count(rows)} Zeilen hoch, ${count(columns)} Spalten breit)`
}
