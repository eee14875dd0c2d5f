import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { CELL, type Layout, type Spot } from './layout.js'
import { type Look, paintOf } from './looks.js'
import type { Theme } from './theme.js'
import { element, short } from './xml.js'

/** The box or region of a cell. */
function regionOf(geometry: Geometry, cell: number): number | undefined {
  const gridLayout = layoutOf(geometry)
  return gridLayout.housesOf[cell]!.find((house) => {
    const { kind } = gridLayout.houses[house]!
    return kind === 'box' || kind === 'region'
  })
}

/** The grid lines: thin between cells, thick between boxes or regions and around the whole. */
export function drawRules(layout: Layout, theme: Theme): string {
  const { geometry, side } = layout
  const { order } = geometry
  const thin: string[] = []
  const thick: string[] = []
  for (let cell = 0; cell < geometry.cellCount; cell++) {
    const { x, y } = layout.corner(cell)
    const region = regionOf(geometry, cell)
    if (cell % order < order - 1) {
      const into = regionOf(geometry, cell + 1) === region ? thin : thick
      into.push(`M${short(x + CELL)} ${short(y)}v${CELL}`)
    }
    if (cell + order < geometry.cellCount) {
      const into = regionOf(geometry, cell + order) === region ? thin : thick
      into.push(`M${short(x)} ${short(y + CELL)}h${CELL}`)
    }
  }
  const { x, y } = layout.corner(0)
  return (
    element('path', { d: thin.join(''), stroke: theme.rule, 'stroke-width': 1, fill: 'none' }) +
    element('path', {
      d: thick.join(''),
      stroke: theme.ink,
      'stroke-width': 2.6,
      'stroke-linecap': 'square',
      fill: 'none',
    }) +
    element('rect', { x, y, width: side, height: side, fill: 'none', stroke: theme.ink, 'stroke-width': 3.4 })
  )
}

/** Diagonal houses are shown by a faint line through their cells, from corner to corner of the grid. */
export function drawDiagonals(layout: Layout, theme: Theme): string {
  return layoutOf(layout.geometry)
    .houses.filter((house) => house.kind === 'diagonal')
    .map((house) => {
      const from = layout.centre(house.cells[0]!)
      const to = layout.centre(house.cells[house.cells.length - 1]!)
      const beyond = { x: (Math.sign(to.x - from.x) * CELL) / 2, y: (Math.sign(to.y - from.y) * CELL) / 2 }
      return element('line', {
        x1: from.x - beyond.x,
        y1: from.y - beyond.y,
        x2: to.x + beyond.x,
        y2: to.y + beyond.y,
        stroke: theme.rule,
        'stroke-opacity': 0.4,
        'stroke-width': 3,
      })
    })
    .join('')
}

export type Segment = readonly [Spot, Spot]

/**
 * The outline of cells, a little inside their borders, so that outlines that cross or touch stay apart and none runs
 * into a cell that it does not enclose. Cells that hang together only by a corner are outlined apart.
 */
export function outlineOf(layout: Layout, cells: readonly number[], inset: number): Segment[] {
  const inside = new Set(cells)
  const { order } = layout.geometry
  const within = (cell: number, down: number, right: number) => {
    const column = (cell % order) + right
    return column >= 0 && column < order && inside.has(cell + down * order + right)
  }
  const out: Segment[] = []
  for (const cell of inside) {
    const { x, y } = layout.corner(cell)
    const [up, down] = [within(cell, -1, 0), within(cell, 1, 0)]
    const [left, right] = [within(cell, 0, -1), within(cell, 0, 1)]
    // Each side of the cell that is border, shortened at outer corners and prolonged at inner ones.
    const at = (open: boolean, corner: boolean) => (open ? (corner ? -inset : 0) : inset)
    const far = { x: x + CELL, y: y + CELL }
    const line = (x1: number, y1: number, x2: number, y2: number) =>
      out.push([
        { x: x1, y: y1 },
        { x: x2, y: y2 },
      ])
    if (!up) {
      const y1 = y + inset
      line(x + at(left, within(cell, -1, -1)), y1, far.x - at(right, within(cell, -1, 1)), y1)
    }
    if (!right) {
      const x1 = far.x - inset
      line(x1, y + at(up, within(cell, -1, 1)), x1, far.y - at(down, within(cell, 1, 1)))
    }
    if (!down) {
      const y1 = far.y - inset
      line(far.x - at(right, within(cell, 1, 1)), y1, x + at(left, within(cell, 1, -1)), y1)
    }
    if (!left) {
      const x1 = x + inset
      line(x1, far.y - at(down, within(cell, 1, -1)), x1, y + at(up, within(cell, -1, -1)))
    }
  }
  return out
}

/** Segments joined end to end, so that dashes run on around corners. */
function joined(segments: readonly Segment[]): string {
  const key = ({ x, y }: Spot) => `${short(x)} ${short(y)}`
  const open = new Map<string, Segment>()
  for (const segment of segments) open.set(key(segment[0]), segment)
  let path = ''
  for (const [first] of segments) {
    let at = key(first)
    if (!open.has(at)) continue
    path += `M${at}`
    for (let next = open.get(at); next; next = open.get(at)) {
      open.delete(at)
      at = key(next[1])
      path += at === key(first) ? 'Z' : `L${at}`
    }
  }
  return path
}

/** An outline in the stroke of a look. */
export function drawOutline(
  layout: Layout,
  theme: Theme,
  cells: readonly number[],
  look: Look,
  inset: number,
): string {
  return element('path', {
    d: joined(outlineOf(layout, cells, inset)),
    stroke: paintOf(theme, look).ink,
    'stroke-width': look.weight,
    'stroke-dasharray': look.dash,
    'stroke-linejoin': 'round',
    fill: 'none',
  })
}
