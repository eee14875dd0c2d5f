import { describe, expect, it } from 'vitest'
import { frames } from '../../src/explain/frames.js'
import { layoutOf as picturedOf } from '../../src/explain/picture/layout.js'
import { LOOKS } from '../../src/explain/picture/looks.js'
import { outlineOf } from '../../src/explain/picture/outlines.js'
import { planPicture } from '../../src/explain/picture/plan.js'
import { THEMES, themeOf } from '../../src/explain/picture/theme.js'
import { renderSvg } from '../../src/explain/render-svg.js'
import { STANDARD } from '../../src/grid/geometry.js'
import { seededRandom } from '../../src/grid/random.js'
import { contrast } from '../support/contrast.js'
import { centreOf, faultsOf, groundsOf, readDrawing } from '../support/drawn.js'
import { stepsOfEachTechnique } from '../support/steps-of-techniques.js'

const steps = stepsOfEachTechnique(3)

describe('a picture 360 pixels wide or 88 mm in print', () => {
  const [step] = steps.filter(({ pattern }) => pattern.shape === 'chain')
  const svg = renderSvg(step!.before, { step: step! })
  const width = Number(/viewBox="0 0 ([\d.]+)/.exec(svg)![1])
  const { texts } = readDrawing(svg)
  const sizes = (pick: (text: (typeof texts)[number]) => boolean) =>
    Math.min(...texts.filter(pick).map(({ font }) => font))

  it.each([
    ['marks that matter', (part: string, bold: boolean) => part === 'marks' && bold, 10.5, 7.2],
    ['other marks', (part: string, bold: boolean) => part === 'marks' && !bold, 8, 5.8],
    ['digits', (part: string) => part === 'digits', 20, 15],
    ['numbers', (part: string) => part === 'numbers', 8.5, 6],
    ['legend and labels', (part: string) => part === '', 9, 6.5],
  ] as const)('has %s that can be read', (_, is, pixels, points) => {
    const font = sizes(({ part, bold }) => is(part, bold))
    expect((font * 360) / width).toBeGreaterThanOrEqual(pixels)
    expect((font * ((88 / 25.4) * 72)) / width).toBeGreaterThanOrEqual(points)
  })
})

describe('lines and frames', () => {
  it('run over no digit that matters, and frames enclose just their cells', () => {
    expect(new Set(steps.map(({ technique }) => technique)).size).toBeGreaterThan(15)
    const faults = steps.flatMap((step) =>
      faultsOf(step, planPicture(step), readDrawing(renderSvg(step.before, { step, legend: false }))).map(
        (fault) => `${step.technique}: ${fault}`,
      ),
    )
    expect(faults).toEqual([])
  }, 30_000)

  it('follow any cells, holes and parts among them', () => {
    const random = seededRandom(91)
    const layout = picturedOf(STANDARD)
    let wrong = 0
    for (let i = 0; i < 400; i++) {
      const share = 0.05 + 0.5 * random()
      const cells = Array.from({ length: 81 }, (_, cell) => cell).filter(() => random() < share)
      for (const inset of [2, 4.8]) {
        const segments = outlineOf(layout, cells, inset)
        for (let cell = 0; cell < 81; cell++) {
          const { x, y } = centreOf(cell, 9)
          // a ray to the right crosses the outline an odd number of times from inside
          const crossed = segments.filter(
            ([a, b]) => a.x === b.x && a.x > x && Math.min(a.y, b.y) <= y && y < Math.max(a.y, b.y),
          )
          if ((crossed.length % 2 === 1) !== cells.includes(cell)) wrong++
        }
      }
    }
    expect(wrong).toBe(0)
  }, 20_000)
})

describe.each(THEMES)('the theme %s', (name) => {
  const theme = themeOf(name)
  const hues = Object.values(theme.hues)
  const grounds = [theme.paper, ...hues.map(({ tint }) => tint)]

  it('has text at 4.5:1 and marks at 3:1 on every ground', () => {
    for (const ground of grounds) {
      for (const ink of [theme.ink, theme.faint, theme.found, ...hues.map((hue) => hue.ink)])
        expect(contrast(ink, ground), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5)
      expect(contrast(theme.rule, ground), `rule on ${ground}`).toBeGreaterThanOrEqual(3)
    }
    for (const { ink, tint } of hues) {
      // digits in the colour of paper on filled marks
      expect(contrast(theme.paper, ink)).toBeGreaterThanOrEqual(4.5)
      expect(contrast(ink, tint, 0.7), `hatching ${ink} on ${tint}`).toBeGreaterThanOrEqual(3)
    }
  })

  it('keeps every text of drawn pictures at 4.5:1', () => {
    for (const step of steps.filter((_, i) => i % 3 === 0))
      for (const { text, fill, ground } of groundsOf(renderSvg(step.before, { step, theme: name })))
        expect(
          contrast(fill, ground),
          `${step.technique}: ${text} in ${fill} on ${ground}`,
        ).toBeGreaterThanOrEqual(4.5)
    const [step] = steps
    for (const { svg } of frames(step!, { theme: name, shape: 'wide' }))
      for (const { fill, ground } of groundsOf(svg))
        expect(contrast(fill, ground)).toBeGreaterThanOrEqual(4.5)
  })

  it('is no more than paint: the same picture in another theme has the same shapes', () => {
    const [step] = steps
    const bare = (svg: string) => svg.replace(/#[0-9a-f]{6}/g, '#')
    expect(bare(renderSvg(step!.before, { step: step!, theme: name }))).toBe(
      bare(renderSvg(step!.before, { step: step! })),
    )
  })
})

describe('print', () => {
  it('has no colour', () => {
    const grey = /^#(..)\1\1$/
    const { hues, ...own } = themeOf('print')
    for (const colour of [
      ...Object.values(own),
      ...Object.values(hues).flatMap(({ ink, tint }) => [ink, tint]),
    ])
      expect(colour).toMatch(grey)
    expect(Object.values(LOOKS).length).toBeGreaterThan(30)
  })
})
