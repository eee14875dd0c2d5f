import { expect, it } from 'vitest'
import { CATALOGUE, techniqueNamed, techniquesUpTo } from '../../src/logic/catalogue.js'
import { formatStep, parseStep, safeParseStep } from '../../src/logic/steps/step-json.js'
import { TECHNIQUE_NAMES } from '../../src/logic/technique-names.js'
import { xyWingStep } from '../support/steps.js'

it('each name has its technique, in the same order', () => {
  expect(CATALOGUE.map(({ name }) => name)).toEqual(TECHNIQUE_NAMES)
})

it('a name that there is not is refused, with the names that it is near to', () => {
  const refusal = (message: RegExp) =>
    expect.objectContaining({ code: 'argument', message: expect.stringMatching(message) })
  expect(() => techniqueNamed('xwing')).toThrow(refusal(/not "xwing"\. Did you mean x-wing\?/))
  expect(() => techniqueNamed('naked pairs')).toThrow(refusal(/Did you mean naked-pair\?/))
  expect(() => techniqueNamed('guessing')).toThrow(refusal(/full-house, hidden-single/))
  expect(() => techniquesUpTo('chains' as 'chain')).toThrow(refusal(/Did you mean chain\?/))
})

it('a saved step has the name of a technique', () => {
  const step = xyWingStep()
  expect(parseStep(formatStep(step)).technique).toBe('xy-wing')
  const renamed = JSON.stringify({ ...JSON.parse(formatStep(step)), technique: 'xywing' })
  expect(safeParseStep(renamed)).toMatchObject({
    ok: false,
    error: { code: 'json-shape', message: expect.stringMatching(/"xywing".*did you mean xy-wing\?/) },
  })
})
