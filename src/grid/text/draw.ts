import type { Geometry } from '../geometry.js'
import { regionsOf } from '../regions.js'

/**
 * Draws one text a cell with rules between boxes, or walls round irregular regions:
 *
 * ```
 * +-------+-------+-------+
 * | . . 3 | . 2 . | 6 . . |
 * ```
 */
export function drawGrid(geometry: Geometry, texts: readonly string[]): string {
  const width = Math.max(...texts.map((text) => text.length))
  const padded = texts.map((text) => text.padEnd(width))
  return geometry.box
    ? drawBoxes(geometry.order, geometry.box, padded, width)
    : drawWalls(geometry, padded, width)
}

function drawBoxes(
  order: number,
  box: { readonly rows: number; readonly columns: number },
  texts: readonly string[],
  width: number,
): string {
  const stacks = order / box.columns
  const rule = `+${`${'-'.repeat(box.columns * (width + 1) + 1)}+`.repeat(stacks)}`
  const lines = [rule]
  for (let r = 0; r < order; r++) {
    let line = '|'
    for (let s = 0; s < stacks; s++) {
      const from = r * order + s * box.columns
      line += ` ${texts.slice(from, from + box.columns).join(' ')} |`
    }
    lines.push(line)
    if ((r + 1) % box.rows === 0) lines.push(rule)
  }
  return lines.join('\n')
}

/** A post at every crossing, walls where regions meet. */
function drawWalls(geometry: Geometry, texts: readonly string[], width: number): string {
  const { order } = geometry
  const regions = regionsOf(geometry)
  const isEdge = (r: number, c: number, r2: number, c2: number) =>
    r < 0 || c < 0 || r2 === order || c2 === order || regions[r * order + c] !== regions[r2 * order + c2]
  const lines: string[] = []
  for (let r = 0; r <= order; r++) {
    let rule = '+'
    let line = '|'
    for (let c = 0; c < order; c++) {
      rule += `${(isEdge(r - 1, c, r, c) ? '-' : ' ').repeat(width + 2)}+`
      line += ` ${texts[r * order + c] ?? ''} ${isEdge(r, c, r, c + 1) ? '|' : ' '}`
    }
    lines.push(rule)
    if (r < order) lines.push(line)
  }
  return lines.join('\n')
}
