import { SaxesParser } from 'saxes'
import type { PicturePlan } from '../../src/explain/picture/plan-builder.js'
import { layoutOf } from '../../src/grid/layout.js'
import type { FoundStep } from '../../src/logic/steps/step.js'

/** A picture read back from its markup alone: what is drawn where. */
export interface Drawn {
  readonly texts: readonly DrawnText[]
  /** Lines by part: each path as points close together. */
  readonly lines: readonly {
    readonly part: string
    readonly width: number
    readonly points: readonly Point[]
  }[]
  readonly badges: readonly Badge[]
}

/** Text and the colour of what lies under its middle: the last filled shape drawn before it. */
export interface Grounded {
  readonly text: string
  readonly fill: string
  readonly ground: string
}

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

export interface Badge extends Box {
  readonly round: boolean
}

export interface DrawnText extends Box {
  readonly part: string
  readonly text: string
  readonly font: number
  readonly bold: boolean
  readonly fill: string
  readonly at: Point
}

/** Digits in DejaVu Sans, bold: 0.64 of the font wide at most, 0.73 high. */
const WIDE = 0.64
const HIGH = 0.73

export function readDrawing(svg: string): Drawn {
  const texts: DrawnText[] = []
  const lines: { part: string; width: number; points: Point[] }[] = []
  const badges: Badge[] = []
  const open: Record<string, string>[] = []
  let text: { attributes: Record<string, string>; said: string } | undefined
  const parser = new SaxesParser({ fragment: false })
  parser.on('error', (error) => {
    throw error
  })
  const all = (own: Record<string, string>) => Object.assign({}, ...open, own) as Record<string, string>
  parser.on('opentag', (tag) => {
    const own = tag.attributes as Record<string, string>
    const a = all(own)
    const part = a['data-part'] ?? ''
    if (tag.name === 'text') text = { attributes: a, said: '' }
    if (tag.name === 'path' && part !== '' && !('stroke-opacity' in own))
      for (const points of pointsOf(a.d!)) lines.push({ part, width: Number(a['stroke-width']), points })
    if (tag.name === 'rect' && (part === 'numbers' || part === 'letters' || part === 'cases'))
      badges.push({
        round: Number(a.rx) > 4,
        left: Number(a.x),
        top: Number(a.y),
        right: Number(a.x) + Number(a.width),
        bottom: Number(a.y) + Number(a.height),
      })
    open.push(own)
  })
  parser.on('text', (said) => {
    if (text) text.said += said
  })
  parser.on('closetag', (tag) => {
    open.pop()
    if (tag.name !== 'text' || !text) return
    const { attributes: a, said } = text
    const [x, y, font] = ['x', 'y', 'font-size'].map((key) => Number(a[key])) as [number, number, number]
    const base = y + Number.parseFloat(a.dy ?? '0') * font
    const half = (WIDE * font * said.length) / 2
    texts.push({
      part: a['data-part'] ?? '',
      text: said,
      font,
      bold: a['font-weight'] === '700',
      fill: a.fill!,
      at: { x, y },
      left: x - half,
      right: x + half,
      top: base - HIGH * font,
      bottom: base,
    })
    text = undefined
  })
  parser.write(svg).close()
  return { texts, lines, badges }
}

/** The subpaths of a path of absolute M, L, H, V, C, Q and Z, as points. */
function pointsOf(d: string): Point[][] {
  const out: Point[][] = []
  let at: Point = { x: 0, y: 0 }
  let start = at
  const along = (to: Point, of: (t: number) => Point) => {
    const count = Math.max(2, Math.ceil(Math.hypot(to.x - at.x, to.y - at.y)))
    for (let i = 1; i <= count; i++) out[out.length - 1]!.push(of(i / count))
    at = to
  }
  const straight = (to: Point) => {
    const from = at
    along(to, (t) => ({ x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t }))
  }
  const mix = (points: readonly Point[], t: number): Point =>
    points.length === 1
      ? points[0]!
      : mix(
          points.slice(1).map((b, i) => ({
            x: points[i]!.x + (b.x - points[i]!.x) * t,
            y: points[i]!.y + (b.y - points[i]!.y) * t,
          })),
          t,
        )
  for (const [, command, rest] of d.matchAll(/([MLHVCQZ])([^MLHVCQZ]*)/g)) {
    const n = (rest!.match(/-?[\d.]+/g) ?? []).map(Number)
    const points = Array.from({ length: n.length >> 1 }, (_, i) => ({ x: n[2 * i]!, y: n[2 * i + 1]! }))
    if (command === 'M') {
      at = points[0]!
      start = at
      out.push([at])
    } else if (command === 'L') straight(points[0]!)
    else if (command === 'H') straight({ x: n[0]!, y: at.y })
    else if (command === 'V') straight({ x: at.x, y: n[0]! })
    else if (command === 'Z') straight(start)
    else {
      const control = [at, ...points]
      along(points[points.length - 1]!, (t) => mix(control, t))
    }
  }
  return out
}

/** A line may come so near to the box of a digit: a fifth of a pixel in a picture 360 pixels wide. */
const EDGE = 0.4

const far = (a: number, low: number, high: number) => Math.max(low - a, a - high, 0)
/** From a point to a box. */
const distance = ({ x, y }: Point, box: Box) =>
  Math.hypot(far(x, box.left, box.right), far(y, box.top, box.bottom))

/** From the straight middle of a badge, which is round at its ends, or its corners, to a box. */
function clearOf({ round, ...badge }: Badge, box: Box): boolean {
  const by = round ? (badge.bottom - badge.top) / 2 : 0
  const x = Math.max(badge.left + by - box.right, box.left - badge.right + by, 0)
  const y = Math.max(badge.top + by - box.bottom, box.top - badge.bottom + by, 0)
  return round ? Math.hypot(x, y) >= by : x > 0 || y > 0
}

/**
 * What is wrong with a picture of a step by its geometry: outlines that enclose what is not theirs or run over a digit,
 * links and badges over digits that stand on the board or marks that matter.
 */
export function faultsOf(step: FoundStep, plan: PicturePlan, drawn: Drawn): string[] {
  const faults: string[] = []
  const { geometry } = step.before
  const standing = drawn.texts.filter(({ part }) => part === 'digits' || part === 'placed')
  const marks = drawn.texts.filter(({ part }) => part === 'marks')
  const matter = [...standing, ...marks.filter(({ bold }) => bold)]
  for (const { part, width, points } of drawn.lines) {
    const xs = points.map(({ x }) => x)
    const ys = points.map(({ y }) => y)
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
    const isNear = (box: Box) =>
      box.left - width < right &&
      box.right + width > left &&
      box.top - width < bottom &&
      box.bottom + width > top
    if (part === 'link') {
      for (const text of matter)
        if (isNear(text) && points.some((point) => distance(point, text) < width / 2 - EDGE))
          faults.push(`a link over the ${text.text} at ${Math.round(text.at.x)}, ${Math.round(text.at.y)}`)
    }
    if (part === 'houses' || part === 'areas' || part === 'groups') {
      for (const text of [...standing, ...marks])
        if (isNear(text) && points.some((point) => distance(point, text) < width / 2 - EDGE))
          faults.push(
            `${part}: a frame over the ${text.text} at ${Math.round(text.at.x)}, ${Math.round(text.at.y)}`,
          )
    }
  }
  for (const badge of drawn.badges)
    for (const text of matter) if (!clearOf(badge, text)) faults.push(`a badge over the ${text.text}`)
  for (const part of ['houses', 'areas', 'groups'] as const) {
    const paths = drawn.lines.filter((line) => line.part === part).map(({ points }) => points)
    const framed = {
      houses: plan.houses.map(({ house }) => layoutOf(geometry).houses[house]!.cells),
      areas: plan.areas.map(({ cells }) => cells),
      groups: plan.groups.map(({ cells }) => cells),
    }[part]
    const cells = Array.from({ length: geometry.cellCount }, (_, cell) => cell)
    for (const cell of cells) {
      const centre = centreOf(cell, geometry.order)
      const inside = paths.filter((points) => encloses(points, centre)).length
      const meant = framed.filter((own) => own.includes(cell)).length
      if (inside !== meant) faults.push(`${part}: cell ${cell} is in ${inside} frames instead of ${meant}`)
    }
  }
  return faults
}

const CELL = 72
const LABELS = 28

export function centreOf(cell: number, order: number): Point {
  return { x: LABELS + ((cell % order) + 0.5) * CELL, y: LABELS + (Math.floor(cell / order) + 0.5) * CELL }
}

function encloses(points: readonly Point[], { x, y }: Point): boolean {
  let inside = false
  const first = points[0]!
  const last = points[points.length - 1]!
  if (Math.hypot(first.x - last.x, first.y - last.y) > 0.1) return false
  points.slice(1).forEach((b, i) => {
    const a = points[i]!
    if (a.y > y !== b.y > y && x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y)) inside = !inside
  })
  return inside
}

/** Every text of a picture with its colour and its ground. */
export function groundsOf(svg: string): Grounded[] {
  const out: Grounded[] = []
  const shapes: { fill: string; has: (point: Point) => boolean }[] = []
  const open: Record<string, string>[] = []
  let text: { fill: string; at: Point; said: string } | undefined
  const parser = new SaxesParser({ fragment: false })
  parser.on('opentag', (tag) => {
    const own = tag.attributes as Record<string, string>
    const a = Object.assign({}, ...open, own) as Record<string, string>
    const n = (key: string) => Number(a[key])
    if (tag.name === 'text') text = { fill: a.fill!, at: { x: n('x'), y: n('y') }, said: '' }
    const fill = own.fill
    if (fill && fill !== 'none') {
      if (tag.name === 'rect') {
        const [x, y, width, height] = ['x', 'y', 'width', 'height'].map(n) as [number, number, number, number]
        shapes.push({ fill, has: (p) => p.x >= x && p.y >= y && p.x <= x + width && p.y <= y + height })
      } else if (tag.name === 'circle') {
        const [x, y, r] = ['cx', 'cy', 'r'].map(n) as [number, number, number]
        shapes.push({ fill, has: (p) => Math.hypot(p.x - x, p.y - y) <= r })
      } else if (tag.name === 'polygon') {
        const points = a.points!.split(' ').map((pair) => {
          const [x, y] = pair.split(',').map(Number)
          return { x: x!, y: y! }
        })
        shapes.push({ fill, has: (p) => encloses([...points, points[0]!], p) })
      }
    }
    open.push(own)
  })
  parser.on('text', (said) => {
    if (text) text.said += said
  })
  parser.on('closetag', (tag) => {
    open.pop()
    if (tag.name !== 'text' || !text) return
    const { at, fill, said } = text
    out.push({ text: said, fill, ground: shapes.findLast(({ has }) => has(at))!.fill })
    text = undefined
  })
  parser.write(svg).close()
  return out
}
