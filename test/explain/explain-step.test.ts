import { describe, expect, it } from 'vitest'
import { explainStep } from '../../src/explain/explain-step.js'
import { ENGLISH } from '../../src/explain/words/english.js'
import type { Wording } from '../../src/explain/words/wording.js'
import { nextStep } from '../../src/logic/find.js'
import type { ChainLink, Pattern, Premise } from '../../src/logic/step.js'
import { boardOf, boardWithMarks, cellAt } from '../support/boards.js'
import { cell, stepOn, xyWingStep } from '../support/steps.js'

const at = (name: string) => cellAt(name)
const candidate = (name: string, digit: number) => ({ cell: at(name), digit })

describe('singles', () => {
  // Project Euler, problem 96, the example printed there (from memory).
  const board = boardOf('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..')

  it('names the digits that rule out the other cells of the house', () => {
    const step = nextStep(board, { techniques: ['hidden-single'] })!
    const { sentences, reasons, conclusion, links } = explainStep(step)
    expect(sentences).toHaveLength(2)
    expect(sentences[0]).toMatch(
      /^In (row|column|box) \d, \d can only go in r\dc\d: the \ds? in .+ rules? out /,
    )
    const { cell: where, digit } = step.placements[0]!
    const name = `r${Math.floor(where / 9) + 1}c${(where % 9) + 1}`
    expect(sentences[1]).toBe(`So ${name} is ${digit}.`)
    expect(conclusion).toBe(`${name}=${digit}`)
    expect(reasons).toHaveLength(1)
    expect(links).toBeUndefined()
  })

  it('accounts for every other digit of a naked single', () => {
    const step = nextStep(board, { techniques: ['naked-single'] })!
    const fact = explainStep(step).facts[0]!
    if (fact.kind !== 'only-candidate') throw new Error(`told by ${fact.kind}`)
    const told = [...fact.seen.flatMap(({ digits }) => digits), ...fact.struck, fact.digit]
    expect(told.sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  it('says which candidates went before when the givens alone do not explain a naked single', () => {
    const struck = boardWithMarks({ r5c5: '4' })
    const step = nextStep(struck, { techniques: ['naked-single'] })!
    expect(explainStep(step).sentences[0]).toBe(
      'r5c5 has only 4 left: 1, 2, 3, 5, 6, 7, 8 and 9 have been removed from it before.',
    )
  })
})

describe('wings', () => {
  it('tells an XY-wing by its pivot and pincers', () => {
    const { title, sentences, reasons } = explainStep(xyWingStep())
    expect(title).toBe('XY-wing')
    expect(sentences).toEqual([
      'The pivot r1c1 is 1 or 2.',
      'If the pivot r1c1 is 1, the pincer r1c5 is 3.',
      'If the pivot r1c1 is 2, the pincer r5c1 is 3.',
      'So at least one of r1c5 and r5c1 is 3.',
      'So 3 can be removed from r5c5.',
    ])
    expect(reasons.map(({ sentence }) => sentence)).toEqual([
      'r5c5 is not 3: at least one of r1c5 and r5c1 is 3, and it sees both.',
    ])
  })
})

describe('chains', () => {
  const node = (name: string, digit: number) => ({ digit, cells: [at(name)] })
  const strongIn = (name: string, from: number, to: number): ChainLink => ({
    kind: 'strong',
    from: node(name, from),
    to: node(name, to),
    by: { kind: 'cell', cell: at(name) },
  })
  const weak = (from: string, to: string, digit: number): ChainLink => ({
    kind: 'weak',
    from: node(from, digit),
    to: node(to, digit),
    by: { kind: 'house', house: 0 },
  })
  const board = boardWithMarks({ r1c1: '37', r1c5: '72', r4c5: '23' })
  const links = [
    strongIn('r1c1', 3, 7),
    weak('r1c1', 'r1c5', 7),
    strongIn('r1c5', 7, 2),
    weak('r1c5', 'r4c5', 2),
    strongIn('r4c5', 2, 3),
  ]

  it('walks the chain and gives its notation', () => {
    const explanation = explainStep(
      stepOn(board, { shape: 'chain', links, loop: false }, { removals: [candidate('r4c1', 3)] }),
    )
    expect(explanation.links).toBe('(3=7)r1c1-(7=2)r1c5-(2=3)r4c5')
    expect(explanation.sentences).toEqual([
      'Suppose r1c1 is not 3. Then r1c1 is 7, so r1c5 is not 7, so r1c5 is 2, so r4c5 is not 2. Then r4c5 is 3.',
      'So at least one of r1c1 and r4c5 is 3.',
      'So 3 can be removed from r4c1.',
    ])
    expect(explanation.reasons[0]!.reason.kind).toBe('excluded-by-each')
  })

  it('falls back to the premises when the links do not alternate', () => {
    const premises = [cell('r1c1', '37'), cell('r1c5', '72')]
    const step = stepOn(board, { shape: 'chain', links: [links[0]!, links[2]!], loop: false }, { premises })
    expect(explainStep(step).sentences).toEqual([
      'r1c1 is 3 or 7.',
      'r1c5 is 7 or 2.',
      'If the conclusion were false, these could not all hold at once.',
    ])
  })
})

describe('reasons from the premises', () => {
  it('follows the denial to where nothing is left, without detours', () => {
    // r5c5 = 3 takes the 3 from both ends of the wing; told as if the shape had no words for it.
    const wing = xyWingStep()
    const detour = cell('r9c9', '12')
    const step = stepOn(
      wing.before,
      { shape: 'premises' },
      {
        removals: wing.removals,
        premises: [detour, ...wing.premises],
      },
    )
    const [why] = explainStep(step).reasons
    expect(why!.reason.kind).toBe('leads-nowhere')
    expect(why!.sentence).toMatch(
      /^r5c5 is not 3: otherwise r\dc\d would be \d, so .+ would have no candidate left\.$/,
    )
    expect(why!.sentence).not.toContain('r9c9')
  })

  it('takes cells with as many digits left as they are together', () => {
    // no cell alone follows from 1 in r1c9, but two of them take 2 and 3 from the third
    const board = boardWithMarks({ r1c1: '123', r1c2: '123', r1c3: '123' })
    const premises = [cell('r1c1', '123'), cell('r1c2', '123'), cell('r1c3', '123')]
    const step = stepOn(board, { shape: 'premises' }, { removals: [candidate('r1c9', 1)], premises })
    expect(explainStep(step).reasons[0]!.sentence).toBe(
      'r1c9 is not 1: otherwise r1c12 would take 2 and 3, so r1c3 would have no candidate left.',
    )
  })

  it('does not claim a way where several premises must be tried together', () => {
    // 4 in rows 1, 4 and 7 has three places each: a 4 below leaves two, and no row follows by itself
    const board = boardWithMarks({})
    const premises = [1, 4, 7].map((row): Premise => {
      const cells = [1, 4, 7].map((column) => candidate(`r${row}c${column}`, 4).cell)
      return { kind: 'house', house: row - 1, digit: 4, cells }
    })
    const step = stepOn(board, { shape: 'premises' }, { removals: [candidate('r9c1', 4)], premises })
    expect(explainStep(step).reasons[0]!.reason.kind).toBe('premises-fail')
  })
})

describe('one-solution steps', () => {
  it('always say what they rest on', () => {
    const pattern: Pattern = {
      shape: 'exchange',
      cells: [at('r1c1'), at('r1c4'), at('r2c1'), at('r2c4')],
      digits: [1, 2],
      extras: [candidate('r2c4', 5)],
      links: [],
    }
    const board = boardWithMarks({ r1c1: '12', r1c4: '12', r2c1: '12', r2c4: '125' })
    const step = stepOn(board, pattern, { assumes: 'one-solution', placements: [candidate('r2c4', 5)] })
    const { sentences } = explainStep(step)
    expect(sentences).toContain('This rests on the puzzle having exactly one solution.')
    expect(sentences).toContain('Only 5 in r2c4 prevents that.')
  })
})

describe('another language', () => {
  it('needs a wording table and nothing else', () => {
    const shouting: Wording = {
      ...ENGLISH,
      language: 'x-loud',
      technique: (name) => name.toUpperCase(),
      fact: (fact) => fact.kind.toUpperCase(),
      reason: (effect) => effect.toUpperCase(),
    }
    const { title, sentences, reasons } = explainStep(xyWingStep(), { wording: shouting })
    expect(title).toBe('XY-WING')
    expect(sentences).toEqual(['PIVOT', 'PINCER', 'PINCER', 'ONE-OF', 'REMOVED'])
    expect(reasons[0]!.sentence).toBe('REMOVED')
  })
})
