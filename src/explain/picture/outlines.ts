import type { Geometry } from '../../grid/geometry.js'
import { layoutOf } from '../../grid/layout.js'
import { CELL, type Layout } from './layout.js'
import { INK, type Look, RULE } from './looks.js'
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
export function drawRules(layout: Layout): string {
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
    element('path', { d: thin.join(''), stroke: RULE, 'stroke-width': 1, fill: 'none' }) +
    element('path', {
      d: thick.join(''),
      stroke: INK,
      'stroke-width': 2.6,
      'stroke-linecap': 'square',
      fill: 'none',
    }) +
    element('rect', { x, y, width: side, height: side, fill: 'none', stroke: INK, 'stroke-width': 3.4 })
  )
}

/** Diagonal houses are shown by a faint line through their cells, from corner to corner of the grid. */
export function drawDiagonals(layout: Layout): string {
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
        stroke: RULE,
        'stroke-opacity': 0.4,
        'stroke-width': 3,
      })
    })
    .join('')
}

/**
 * The outline of a house, drawn a little inside its border so that houses that cross or touch stay apart. Cells that
 * do not hang together (a diagonal) are outlined one by one.
 */
export function drawHouse(layout: Layout, house: number, look: Look, inset: number): string {
  const { geometry } = layout
  const { cells, kind } = layoutOf(geometry).houses[house]!
  const inside = new Set(cells)
  const { order } = geometry
  const within = (cell: number, down: number, right: number) => {
    const column = (cell % order) + right
    if (kind === 'diagonal' || column < 0 || column >= order) return false
    return inside.has(cell + down * order + right)
  }
  const stroke = {
    stroke: look.ink,
    'stroke-width': look.weight,
    'stroke-dasharray': look.dash,
    fill: 'none',
  }
  const first = layout.corner(cells[0]!)
  const last = layout.corner(cells[cells.length - 1]!)
  const width = last.x - first.x + CELL
  const height = last.y - first.y + CELL
  if (kind !== 'diagonal' && width * height === cells.length * CELL * CELL) {
    const box = {
      x: first.x + inset,
      y: first.y + inset,
      width: width - 2 * inset,
      height: height - 2 * inset,
    }
    return element('rect', { ...box, rx: 3, ...stroke })
  }
  const commands: string[] = []
  for (const cell of cells) {
    const { x, y } = layout.corner(cell)
    const up = within(cell, -1, 0)
    const down = within(cell, 1, 0)
    const left = within(cell, 0, -1)
    const right = within(cell, 0, 1)
    // Each side of the cell that is border of the house, shortened at outer corners and prolonged at inner ones.
    const at = (open: boolean, corner: boolean) => (open ? (corner ? -inset : 0) : inset)
    const near = {
      left: x + at(left, within(cell, -1, -1)),
      right: x + CELL - at(right, within(cell, -1, 1)),
    }
    const far = {
      left: x + at(left, within(cell, 1, -1)),
      right: x + CELL - at(right, within(cell, 1, 1)),
    }
    const flank = {
      leftTop: y + at(up, within(cell, -1, -1)),
      leftBottom: y + CELL - at(down, within(cell, 1, -1)),
      rightTop: y + at(up, within(cell, -1, 1)),
      rightBottom: y + CELL - at(down, within(cell, 1, 1)),
    }
    if (!up) commands.push(`M${short(near.left)} ${short(y + inset)}H${short(near.right)}`)
    if (!down) commands.push(`M${short(far.left)} ${short(y + CELL - inset)}H${short(far.right)}`)
    if (!left) commands.push(`M${short(x + inset)} ${short(flank.leftTop)}V${short(flank.leftBottom)}`)
    if (!right)
      commands.push(`M${short(x + CELL - inset)} ${short(flank.rightTop)}V${short(flank.rightBottom)}`)
  }
  return element('path', { d: commands.join(''), 'stroke-linecap': 'square', ...stroke })
}
