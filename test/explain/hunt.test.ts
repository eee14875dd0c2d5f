import { describe, expect, it } from 'vitest'
import { solutionsOf } from '../../src/count/count-solutions.js'
import { hunt } from '../../src/explain/hunt.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { puzzleOf } from '../../src/grid/board/ask.js'
import { falsehoods } from '../support/clue-truth.js'
import { grammarFaults } from '../support/heard.js'
import { xyWingStep } from '../support/steps.js'
import { stepsOfEachTechnique } from '../support/steps-of-techniques.js'

describe('hunts', () => {
  const steps = stepsOfEachTechnique(6)
  const hunts = steps.map((step) => ({ step, found: hunt(step, { pictures: false }) }))

  it('say nothing that is not so on the board', () => {
    expect(new Set(steps.map(({ technique }) => technique)).size).toBeGreaterThan(15)
    const faults = hunts.flatMap(({ step, found }) => {
      const [solution] = solutionsOf(puzzleOf(step.before), { limit: 1 }).solutions
      return found.clues.flatMap((clue) => falsehoods(step, clue, solution!))
    })
    expect(faults).toEqual([])
  })

  it('say what to look at, what to try and why this one works', () => {
    for (const { step, found } of hunts) {
      const kinds = found.clues.map(({ kind }) => kind)
      expect(kinds.indexOf('try')).toBeGreaterThanOrEqual(step.pattern.shape === 'single' ? 0 : 1)
      expect(kinds.indexOf('works')).toBe(kinds.length - 1)
      expect(found.sentences).toHaveLength(kinds.length)
    }
  })

  it.each([
    ['en', ENGLISH],
    ['de', GERMAN],
  ] as const)('name in %s just what the clue has, in whole sentences', (language, wording) => {
    for (const step of steps) {
      const { clues, sentences } = hunt(step, { wording, cells: (cell) => `⟦${cell}⟧`, pictures: false })
      expect(grammarFaults(sentences, language)).toEqual([])
      sentences.forEach((sentence, i) => {
        const named = new Set([...sentence.matchAll(/⟦(\d+)⟧/g)].map(([, cell]) => Number(cell)))
        const own = new Set<number>()
        const visit = (value: unknown, key: string): void => {
          if (typeof value === 'number' && /^(cell|cells|given|sets|pivot)$/.test(key)) own.add(value)
          else if (Array.isArray(value)) for (const item of value) visit(item, key)
          else if (value && typeof value === 'object')
            for (const [name, part] of Object.entries(value)) visit(part, name)
        }
        visit(clues[i], '')
        for (const cell of named) expect(own, sentence).toContain(cell)
      })
    }
  })

  it('draw a frame for each sentence, the step whole but not struck in the last', () => {
    const { frames, sentences, title } = hunt(xyWingStep(), { shape: 'wide' })
    expect(title).toBe('XY-wing')
    expect(frames.map(({ text }) => text)).toEqual(sentences)
    const last = frames[frames.length - 1]!.svg
    expect(last.split('data-part="link"')).toHaveLength(5)
    expect(last).not.toContain('stroke-width="2.4" stroke-linecap="round"')
    expect(hunt(xyWingStep(), { pictures: false }).frames).toEqual([])
  })
})
