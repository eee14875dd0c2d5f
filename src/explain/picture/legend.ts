import { namesOf, type Voice } from '../voice.js'
import type { PictureWording } from '../words/wording.js'
import { LINK_STYLES } from './draw-links.js'
import { LABELS, type Layout } from './layout.js'
import { LOOKS, type Look, paintOf } from './looks.js'
import { drawCell, drawMark } from './marks.js'
import type { PicturePlan } from './plan-builder.js'
import { ROLES } from './roles.js'
import type { Theme } from './theme.js'
import { element, escapeText } from './xml.js'

const SWATCH = 32
const LINE = 40
const FONT = 20
const GAP = 18
/** Room between the grid and the legend. */
const ABOVE = 14

interface Entry {
  readonly label: string
  draw(x: number, y: number): string
}

interface Uses {
  readonly cell: boolean
  readonly mark: boolean
  readonly outline: boolean
  readonly digit: boolean
}

/** A swatch shows the parts of a look that the picture uses: hatched cell, mark, outline. */
function swatch(theme: Theme, look: Look, uses: Uses) {
  const { ink } = paintOf(theme, look)
  return (x: number, y: number): string => {
    const centre = { x: x + SWATCH / 2, y: y + SWATCH / 2 }
    let out = uses.cell ? drawCell(theme, [look], { x, y }, SWATCH) : ''
    if (uses.outline) {
      out += element('rect', {
        x: x + 2,
        y: y + 4,
        width: SWATCH - 4,
        height: SWATCH - 8,
        fill: 'none',
        stroke: ink,
        'stroke-width': look.weight,
        'stroke-dasharray': look.dash,
      })
    }
    if (uses.digit) {
      out += element('circle', {
        cx: centre.x,
        cy: centre.y,
        r: 12,
        fill: 'none',
        stroke: ink,
        'stroke-width': look.weight,
      })
    } else if (uses.mark) out += drawMark(theme, look, centre, 9)
    return out
  }
}

function entries(
  layout: Layout,
  theme: Theme,
  plan: PicturePlan,
  voice: Voice<PictureWording>,
  hasFound: boolean,
): Entry[] {
  const { wording } = voice
  const names = namesOf(voice, layout.geometry)
  const out: Entry[] = [
    { label: wording.picture.given, draw: (x, y) => sample(theme, x, y, true) },
    ...(hasFound
      ? [{ label: wording.picture.found, draw: (x: number, y: number) => sample(theme, x, y, false) }]
      : []),
  ]
  const cellRoles = new Set([...plan.cells.values()].flat())
  const markRoles = new Set(plan.candidates.map(({ role }) => role))
  const outlined = new Set([...plan.houses, ...plan.areas].map(({ role }) => role))
  for (const role of ROLES) {
    const uses = {
      cell: cellRoles.has(role) && role !== 'blocker',
      mark: markRoles.has(role),
      outline: outlined.has(role),
      digit: role === 'blocker' && cellRoles.has(role),
    }
    if (Object.values(uses).some(Boolean))
      out.push({ label: wording.role(role, names), draw: swatch(theme, LOOKS[role], uses) })
  }
  const kinds = [
    ['strong', wording.picture.strongLink],
    ['weak', wording.picture.weakLink],
    ['then', wording.picture.thenLink],
  ] as const
  for (const [kind, label] of kinds) {
    if (!plan.links.some((link) => link.kind === kind)) continue
    out.push({
      label,
      draw: (x, y) =>
        element('path', {
          d: `M${x} ${y + SWATCH / 2 + 4}q${SWATCH / 2} -12 ${SWATCH} 0`,
          fill: 'none',
          stroke: theme.ink,
          ...LINK_STYLES[kind],
        }),
    })
  }
  return out
}

function sample(theme: Theme, x: number, y: number, given: boolean): string {
  return element(
    'text',
    {
      x: x + SWATCH / 2,
      y: y + SWATCH / 2,
      dy: '.35em',
      'font-size': 26,
      'font-weight': given ? 700 : 400,
      'font-style': given ? undefined : 'italic',
      fill: given ? theme.ink : theme.found,
      'text-anchor': 'middle',
    },
    '5',
  )
}

/** The legend of the roles that a picture uses, below the grid, in rows that fit its width. */
export function drawLegend(
  layout: Layout,
  theme: Theme,
  plan: PicturePlan,
  voice: Voice<PictureWording>,
  hasFound: boolean,
): { readonly markup: string; readonly height: number } {
  const left = LABELS
  const top = LABELS + layout.side + ABOVE
  let x = left
  let y = top
  let markup = ''
  for (const { label, draw } of entries(layout, theme, plan, voice, hasFound)) {
    const room = SWATCH + 7 + label.length * FONT * 0.57 + GAP
    if (x > left && x + room - GAP > left + layout.side) {
      x = left
      y += LINE
    }
    markup += draw(x, y)
    markup += element(
      'text',
      { x: x + SWATCH + 7, y: y + SWATCH / 2, dy: '.35em', 'font-size': FONT, fill: theme.ink },
      escapeText(label),
    )
    x += room
  }
  return { markup, height: y + LINE - top }
}
