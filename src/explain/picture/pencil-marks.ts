import type { Candidate } from '../../grid/board.js'
import type { Layout } from './layout.js'
import { LOOKS, type Look, paintOf } from './looks.js'
import { drawMark } from './marks.js'
import type { Role } from './roles.js'
import type { Theme } from './theme.js'
import { element } from './xml.js'

export interface PencilManner {
  /** Marks without a part in the step are smaller and paler than the others. */
  readonly dim: boolean
  /** What a cell's marks stand on. */
  ground(cell: number): string
  digit(digit: number): string
}

/** Pencil marks, those with a role in their shapes; a mark that matters without one (yet) is bold. */
export function drawPencilMarks(
  layout: Layout,
  theme: Theme,
  marks: readonly (Candidate & { readonly role: Role | undefined })[],
  shown: ReadonlyMap<number, readonly number[]>,
  manner: PencilManner,
): string {
  let shapes = ''
  let plain = ''
  let marked = ''
  for (const [cell, digits] of shown) {
    const ground = manner.ground(cell)
    const halo = ground === theme.paper ? undefined : ground
    for (const digit of digits) {
      const spot = layout.spot(cell, digit)
      const own = marks.filter((mark) => mark.cell === cell && mark.digit === digit)
      // A removed candidate may also be part of the pattern: its slash comes last, over the other mark.
      const looks = own
        .flatMap(({ role }) => (role ? [LOOKS[role]] : []))
        .sort((a, b) => Number(a.mark === 'slash') - Number(b.mark === 'slash'))
      looks.forEach((look, i) => {
        shapes += drawMark(theme, look, spot, layout.markRadius, i === 0)
      })
      const text = manner.digit(digit)
      const at = { x: spot.x, y: spot.y, dy: '.36em' }
      if (own.length === 0) {
        const font = text.length > 1 ? 0.8 * layout.smallFont : undefined
        plain += element('text', { ...at, 'font-size': font, stroke: halo }, text)
      } else {
        const font = text.length > 1 ? 0.8 * layout.markFont : undefined
        marked += element('text', { ...at, 'font-size': font, ...textPaint(theme, looks, ground) }, text)
      }
    }
  }
  // What all of them share is said once: a board can have hundreds.
  const shared = {
    'text-anchor': 'middle',
    fill: theme.faint,
    stroke: theme.paper,
    'stroke-width': 2.6,
    'paint-order': 'stroke',
  }
  const small = manner.dim ? layout.smallFont : 0.9 * layout.markFont
  return (
    shapes +
    element('g', { ...shared, 'font-size': small }, plain) +
    element('g', { ...shared, 'font-size': layout.markFont, 'font-weight': 700, fill: theme.ink }, marked)
  )
}

function textPaint(theme: Theme, looks: readonly Look[], ground: string) {
  const [first] = looks
  if (!first) return { stroke: ground }
  const { ink, tint } = paintOf(theme, first)
  if (first.filled) return { fill: theme.paper, stroke: 'none' }
  const under = first.mark === 'slash' ? tint : first.mark === 'bold' ? ground : theme.paper
  return { fill: ink, stroke: under }
}
