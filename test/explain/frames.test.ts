import { SaxesParser } from 'saxes'
import { describe, expect, it } from 'vitest'
import { cueSheet } from '../../src/explain/cue-sheet.js'
import { explainStep } from '../../src/explain/explain-step.js'
import { frames } from '../../src/explain/frames.js'
import { FRAME_SHAPES } from '../../src/explain/picture/frame-page.js'
import { planPicture } from '../../src/explain/picture/plan.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { xyWingStep } from '../support/steps.js'
import { stepsOfEachTechnique } from '../support/steps-of-techniques.js'

/** The parts of a picture, by name, and its size. */
function parse(svg: string) {
  const parts: string[] = []
  let viewBox = ''
  const parser = new SaxesParser({ fragment: false })
  parser.on('error', (error) => {
    throw error
  })
  parser.on('opentag', ({ name, attributes }) => {
    if (name === 'svg') viewBox = String(attributes.viewBox)
    if (attributes['data-part']) parts.push(String(attributes['data-part']))
  })
  parser.write(svg).close()
  return { parts, viewBox, slashes: svg.match(/stroke-width="2\.4" stroke-linecap="round"/g)?.length ?? 0 }
}

describe('frames', () => {
  const steps = stepsOfEachTechnique(1)

  it('come one for each sentence of the explanation, in one size, one after the other', () => {
    expect(new Set(steps.map(({ technique }) => technique)).size).toBeGreaterThan(15)
    for (const wording of [undefined, GERMAN])
      for (const step of steps) {
        const options = wording ? { wording } : {}
        const row = frames(step, options)
        expect(row.map(({ text }) => text)).toEqual(explainStep(step, options).sentences)
        expect(row.map(({ sentence }) => sentence)).toEqual(row.map((_, i) => i))
        expect(new Set(row.map(({ svg }) => /viewBox="[^"]*"/.exec(svg)![0])).size).toBe(1)
        row.forEach(({ from, to }, i) => {
          expect(from).toBe(i === 0 ? 0 : row[i - 1]!.to)
          expect(to - from).toBeGreaterThan(1.9)
        })
      }
  }, 30_000)

  it('show nothing struck or placed before the sentence that does it, and all of the step in the end', () => {
    for (const step of steps) {
      const row = frames(step).map(({ svg }) => parse(svg))
      const { facts } = explainStep(step)
      const first = facts.findIndex(({ kind }) => kind === 'conclusion')
      const removed = planPicture(step).candidates.filter(({ role }) => role === 'removed').length
      row.slice(0, Math.max(0, first)).forEach(({ slashes }) => {
        expect(slashes).toBe(0)
      })
      expect(row[row.length - 1]!.slashes).toBe(removed)
      const links = row.map(({ parts }) => parts.filter((part) => part === 'link').length)
      expect([...links].sort((a, b) => a - b)).toEqual(links)
    }
  }, 30_000)

  it('put the sentence on the picture where they are asked to', () => {
    for (const shape of FRAME_SHAPES) {
      const [first] = frames(xyWingStep(), { shape, width: 1920 })
      expect(first!.svg.includes('data-part="caption"')).toBe(shape !== 'board')
      expect(first!.svg).toContain('width="1920"')
      const [, , width, height] = parse(first!.svg).viewBox.split(' ').map(Number)
      if (shape === 'wide') expect(width! / height!).toBeCloseTo(16 / 9, 3)
    }
  })

  it('take the time that it takes to say them', () => {
    const slow = frames(xyWingStep(), { wordsPerMinute: 60 })
    const fast = frames(xyWingStep(), { wordsPerMinute: 120 })
    const words = slow[1]!.text.split(' ').length
    expect(slow[1]!.to - slow[1]!.from).toBeCloseTo(words + 0.7, 0)
    expect(slow[slow.length - 1]!.to).toBeGreaterThan(fast[fast.length - 1]!.to)
  })
})

describe('cueSheet', () => {
  it('has a cue for each frame', () => {
    const row = frames(xyWingStep())
    const sheet = cueSheet(row)
    expect(sheet.startsWith('WEBVTT\n\n1\n00:00:00.000 --> 00:00:')).toBe(true)
    for (const { text } of row) expect(sheet).toContain(`\n${text}\n`)
    expect(cueSheet([{ ...row[0]!, from: 3725.5, to: 36000, text: 'a\n\nb --> c' }])).toBe(
      'WEBVTT\n\n1\n01:02:05.500 --> 10:00:00.000\na b → c\n',
    )
  })
})
