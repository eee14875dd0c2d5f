import type { ChainLink, ChainNode } from '../../logic/step.js'
import { type Curve, type CurveSpace, routeCurve } from './curves.js'
import type { Layout, Spot } from './layout.js'
import { INK } from './looks.js'
import { element, short } from './xml.js'

/** Strong links are solid and heavy, weak ones dashed and light. */
export const LINK_STYLES = {
  strong: { stroke: INK, 'stroke-width': 3, 'stroke-linecap': 'round' },
  weak: { stroke: INK, 'stroke-width': 1.7, 'stroke-dasharray': '6 4.5' },
} as const

/** The pair of spots, one of each node, that are closest to each other. */
function closest(layout: Layout, from: ChainNode, to: ChainNode): [Spot, Spot] {
  let best: [Spot, Spot] | undefined
  let shortest = Number.POSITIVE_INFINITY
  for (const a of from.cells) {
    for (const b of to.cells) {
      const p = layout.spot(a, from.digit)
      const q = layout.spot(b, to.digit)
      const distance = Math.hypot(p.x - q.x, p.y - q.y)
      if (distance < shortest) {
        shortest = distance
        best = [p, q]
      }
    }
  }
  return best!
}

/** All links, each as one curve; a pair of nodes joined twice is drawn once, strong before weak. */
export function drawLinks(layout: Layout, links: readonly ChainLink[], space: CurveSpace): string {
  const drawn: Curve[] = []
  const done = new Set<string>()
  const ordered = [...links].sort((a, b) => Number(a.kind === 'weak') - Number(b.kind === 'weak'))
  let out = ''
  for (const { from, to, kind } of ordered) {
    const [start, end] = closest(layout, from, to)
    const key = [start, end].map(({ x, y }) => `${short(x)},${short(y)}`).sort()
    if (done.has(key.join(' ')) || key[0] === key[1]) continue
    done.add(key.join(' '))
    const curve = routeCurve(start, end, layout.markRadius + 1, space, drawn)
    drawn.push(curve)
    const at = ({ x, y }: Spot) => `${short(x)} ${short(y)}`
    const d = `M${at(curve.from)}C${at(curve.bends[0])} ${at(curve.bends[1])} ${at(curve.to)}`
    // A paper-coloured edge keeps a link apart from grid lines, hatching and other links that it crosses.
    out += element('path', {
      d,
      fill: 'none',
      stroke: '#ffffff',
      'stroke-width': 5.4,
      'stroke-opacity': 0.85,
    })
    out += element('path', { d, fill: 'none', ...LINK_STYLES[kind] })
  }
  return out
}

/** A frame around the marks of a grouped node. */
export function drawGroup(layout: Layout, node: ChainNode, ink: string): string {
  const spots = node.cells.map((cell) => layout.spot(cell, node.digit))
  const margin = layout.markRadius + 2
  const left = Math.min(...spots.map(({ x }) => x)) - margin
  const top = Math.min(...spots.map(({ y }) => y)) - margin
  const right = Math.max(...spots.map(({ x }) => x)) + margin
  const bottom = Math.max(...spots.map(({ y }) => y)) + margin
  return element('rect', {
    x: left,
    y: top,
    width: right - left,
    height: bottom - top,
    rx: margin,
    fill: 'none',
    stroke: ink,
    'stroke-width': 1.3,
  })
}
