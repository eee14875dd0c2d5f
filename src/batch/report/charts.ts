import { element, escapeText } from '../../explain/picture/xml.js'
import { LEVELS, type Level } from '../../logic/level.js'
import type { EffortBin } from './effort-counts.js'

/** Shades of levels, from light to dark, so that they can be told apart on a black-and-white print as well. */
export const SHADES: Readonly<Record<Level, string>> = {
  scan: '#cfe0ee',
  mark: '#94bbd8',
  pattern: '#5790bb',
  chain: '#2f6690',
  branch: '#16324a',
}
const OTHER = '#b9b3a8'

const TEXT = { 'font-family': 'Helvetica, Arial, sans-serif', fill: '#1d2230' }

export interface Bar {
  readonly name: string
  readonly count: number
  readonly said: string
  readonly level?: Level
}

const ROW = 30
const NAME_WIDTH = 235
const BAR_WIDTH = 385

/** One bar a line, with its name before and its number after it. */
export function barChart(bars: readonly Bar[], title: string): string {
  const most = Math.max(1, ...bars.map(({ count }) => count))
  const rows = bars.map(({ name, count, said, level }, i) => {
    const y = i * ROW
    const width = (BAR_WIDTH * count) / most
    const text = { ...TEXT, 'font-size': 15, y: y + 20 }
    return [
      element('text', { ...text, x: NAME_WIDTH - 10, 'text-anchor': 'end' }, escapeText(name)),
      element('rect', {
        x: NAME_WIDTH,
        y: y + 5,
        width: Math.max(width, count > 0 ? 1.5 : 0),
        height: ROW - 10,
        fill: level ? SHADES[level] : OTHER,
        stroke: '#1d2230',
        'stroke-width': count > 0 ? 0.8 : 0,
      }),
      element('text', { ...text, x: NAME_WIDTH + width + 8 }, escapeText(said)),
    ].join('')
  })
  return svg(NAME_WIDTH + BAR_WIDTH + 130, bars.length * ROW, title, rows.join(''))
}

const WIDTH = 740
const HEIGHT = 250
const LEFT = 58
const BOTTOM = 46
const RIGHT = 40

/** How many puzzles take how much effort, on a logarithmic scale, shaded by level. */
export function effortChart(
  bins: readonly EffortBin[],
  words: { readonly looks: string; readonly puzzles: string; number(value: number): string },
): string {
  const most = Math.max(1, ...bins.map(({ total }) => total))
  const step = niceStep(most)
  const top = Math.ceil(most / step) * step
  const y = (count: number) => 12 + (HEIGHT - BOTTOM - 12) * (1 - count / top)
  const wide = (WIDTH - LEFT - RIGHT) / bins.length
  const text = { ...TEXT, 'font-size': 13 }
  const lines: string[] = []
  for (let count = 0; count <= top; count += step) {
    const at = y(count)
    lines.push(
      element('line', {
        x1: LEFT,
        x2: WIDTH - RIGHT,
        y1: at,
        y2: at,
        stroke: '#c9ced8',
        'stroke-width': 0.8,
      }),
      element(
        'text',
        { ...text, x: LEFT - 8, y: at + 4, 'text-anchor': 'end' },
        escapeText(words.number(count)),
      ),
    )
  }
  // a number under every bar does not fit where there are many
  const every = Math.ceil(52 / wide)
  bins.forEach(({ from, counts }, i) => {
    let below = 0
    for (const level of LEVELS) {
      const count = counts[level]
      if (count === 0) continue
      const [low, high] = [y(below), y(below + count)]
      below += count
      lines.push(
        element('rect', {
          x: LEFT + i * wide + 1,
          y: high,
          width: Math.min(wide - 2, 90),
          height: low - high,
          fill: SHADES[level],
          stroke: '#1d2230',
          'stroke-width': 0.8,
        }),
      )
    }
    if (i % every === 0)
      lines.push(
        element(
          'text',
          { ...text, x: LEFT + i * wide + 1, y: HEIGHT - BOTTOM + 18 },
          escapeText(words.number(from)),
        ),
      )
  })
  lines.push(
    element(
      'text',
      { ...text, x: WIDTH - RIGHT, y: HEIGHT - 6, 'text-anchor': 'end' },
      escapeText(`${words.looks} →`),
    ),
  )
  return svg(WIDTH, HEIGHT, `${words.puzzles}: ${words.looks}`, lines.join(''))
}

/** A bar for a cell of a table. */
export function shareBar(share: number, level: Level): string {
  const bar = { x: 0, y: 1, height: 10, fill: SHADES[level], stroke: '#1d2230', 'stroke-width': 0.6 }
  return svg(100, 12, '', element('rect', { ...bar, width: Math.max(1, 99 * share) }))
}

/** 1, 2 or 5 times a power of ten, four lines or so up to the top. */
function niceStep(most: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, most / 4)))
  return [1, 2, 5, 10].map((times) => times * power).find((step) => most / step <= 5)!
}

function svg(width: number, height: number, title: string, content: string): string {
  const label = title === '' ? { 'aria-hidden': 'true' } : { role: 'img', 'aria-label': title }
  return element(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${width} ${height}`, ...label },
    content,
  )
}
