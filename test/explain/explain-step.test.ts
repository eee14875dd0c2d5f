import { describe, expect, it } from 'vitest'
import { type ExplainOptions, explainStep } from '../../src/explain/explain-step.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import type { Wording } from '../../src/explain/words/wording.js'
import { nextStep } from '../../src/logic/solving/find.js'
import type { ChainLink, Pattern, Premise } from '../../src/logic/steps/step.js'
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
    expect(sentences).toHaveLength(1)
    expect(sentences[0]).toMatch(/^(Row|Column|Box) \d needs an? \d\. The \ds? in .+ rules? out .+ there\./)
    const { cell: where, digit } = step.placements[0]!
    const name = `r${Math.floor(where / 9) + 1}c${(where % 9) + 1}`
    expect(sentences[0]).toContain(`Only ${name} is left, so it is ${digit}.`)
    expect(conclusion).toBe(`${name}=${digit}`)
    expect(reasons).toHaveLength(1)
    expect(links).toBeUndefined()
  })

  it('accounts for every other digit of a naked single', () => {
    const step = nextStep(board, { techniques: ['naked-single'] })!
    const fact = explainStep(step).facts[0]!
    if (fact.kind !== 'only-candidate') throw new Error(`explained by ${fact.kind}`)
    const accountedFor = [...fact.seen.flatMap(({ digits }) => digits), ...fact.struck, fact.digit]
    expect(accountedFor.sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  it('says which candidates went before when the givens alone do not explain a naked single', () => {
    const struck = boardWithMarks({ r5c5: '4' })
    const step = nextStep(struck, { techniques: ['naked-single'] })!
    expect(explainStep(step).sentences[0]).toBe(
      'Look at r5c5: 1, 2, 3, 5, 6, 7, 8 and 9 are crossed out. That leaves 4.',
    )
  })
})

describe('wings', () => {
  it('tells an XY-wing by its pivot and pincers', () => {
    const { title, sentences, reasons } = explainStep(xyWingStep())
    expect(title).toBe('XY-wing')
    expect(sentences).toEqual([
      'r1c1 is 1 or 2.',
      'If it is 1, then r1c5 in row 1 is not 1 but 3.',
      'If it is 2, then r5c1 in column 1 is not 2 but 3.',
      'Cross out the 3 in r5c5: it sees both r1c5 and r5c1, one of which is 3.',
    ])
    expect(reasons.map(({ sentence }) => sentence)).toEqual([
      'r5c5 is not 3: it sees both r1c5 and r5c1, one of which is 3.',
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
    by: { kind: 'house', house: from === 'r1c1' ? 0 : 13 },
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
      'Watch the 3 in r4c1.',
      'Suppose r1c1 is not 3: it is then 7.',
      'That is the 7 of row 1, so r1c5 is not 7 but 2.',
      'That is the 2 of column 5, so r4c5 is not 2 but 3.',
      'Cross out the 3 in r4c1: it sees both r1c1 and r4c5, one of which is 3.',
    ])
    expect(explanation.reasons[0]!.reason.kind).toBe('excluded-by-each')
  })

  it('falls back to the premises when the links do not alternate', () => {
    const premises = [cell('r1c1', '37'), cell('r1c5', '72')]
    const pattern: Pattern = { shape: 'chain', links: [links[0]!, links[2]!], loop: false }
    const step = stepOn(board, pattern, { premises, removals: [candidate('r4c1', 3)] })
    // with these two cells alone the 3 in r4c1 does not follow: the step is no proof
    expect(explainStep(step).sentences).toEqual([
      'r1c1 is 3 or 7.',
      'r1c5 is 7 or 2.',
      'If the conclusion were false, these could not all hold at once.',
      'Cross out the 3 in r4c1: otherwise the facts above could not all hold at once.',
    ])
  })
})

describe('reasons from the premises', () => {
  it('follows the denial to where nothing is left, without detours', () => {
    // r5c5 = 3 takes the 3 from both ends of the wing; explained as if the shape had no words for it.
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
      /^r5c5 is not 3: with it, r\dc\d would be \d, then .+ would have no candidate left\.$/,
    )
    expect(why!.sentence).not.toContain('r9c9')
  })

  it('takes cells with as many digits left as they are together', () => {
    // no cell alone follows from 1 in r1c9, but two of them take 2 and 3 from the third
    const board = boardWithMarks({ r1c1: '123', r1c2: '123', r1c3: '123' })
    const premises = [cell('r1c1', '123'), cell('r1c2', '123'), cell('r1c3', '123')]
    const step = stepOn(board, { shape: 'premises' }, { removals: [candidate('r1c9', 1)], premises })
    expect(explainStep(step).reasons[0]!.sentence).toBe(
      'r1c9 is not 1: with it, r1c1 and r1c2 would take 2 and 3, then r1c3 would have no candidate left.',
    )
  })

  it('tells cases where no premise follows by itself', () => {
    // 4 in rows 1, 4 and 7 has three places each: a 4 below leaves two, and no row follows by itself
    const board = boardWithMarks({})
    const premises = [1, 4, 7].map((row): Premise => {
      const cells = [1, 4, 7].map((column) => candidate(`r${row}c${column}`, 4).cell)
      return { kind: 'house', house: row - 1, digit: 4, cells }
    })
    const step = stepOn(board, { shape: 'premises' }, { removals: [candidate('r9c1', 4)], premises })
    const { sentences, reasons } = explainStep(step)
    expect(reasons[0]!.reason.kind).toBe('every-way-fails')
    expect(sentences).toEqual([
      'Suppose r9c1 is 4.',
      'Row 1 has its 4 in r1c1, r1c4 or r1c7, of which r1c4 and r1c7 are left here: take the cases one by one.',
      'Case 1: r1c4 is 4. Then row 4 has its 4 in r4c7, and row 7 has no place left for its 4: this case fails.',
      'Case 2: r1c7 is 4. Then row 4 has its 4 in r4c4, and row 7 has no place left for its 4: this case fails.',
      'Cross out the 4 in r9c1: with it, every case for the 4 of row 1 fails.',
    ])
  })
})

describe('fish', () => {
  const board = boardWithMarks({})
  const xWing: Pattern = {
    shape: 'fish',
    digit: 4,
    base: [1, 4],
    cover: [10, 17],
    cells: ['r2c2', 'r2c9', 'r5c2', 'r5c9'].map(at),
    fins: [],
  }
  const removals = [candidate('r3c2', 4), candidate('r7c9', 4)]

  it('are named by lines that take turns', () => {
    expect(explainStep(stepOn(board, xWing, { removals })).sentences).toEqual([
      'In rows 2 and 5 the 4 is in column 2 or 9. One row takes one, the other takes the other.',
      'Cross out the 4 in r3c2 and r7c9: columns 2 and 9 get their 4 from rows 2 and 5.',
    ])
    expect(explainStep(stepOn(board, xWing, { removals }), { wording: GERMAN }).sentences).toEqual([
      'In den Zeilen 2 und 5 steht die 4 in Spalte 2 oder 9. Die eine Zeile nimmt die eine, die andere die andere.',
      'Streiche die 4 in r3c2 und r7c9: Die Spalten 2 und 9 bekommen ihre 4 aus den Zeilen 2 und 5.',
    ])
  })
})

describe('cells', () => {
  const subset: Pattern = {
    shape: 'subset',
    hidden: false,
    house: 0,
    cells: ['r1c4', 'r1c5', 'r1c6', 'r1c8'].map(at),
    digits: [1, 2, 3, 4],
  }
  const board = boardWithMarks({ r1c4: '1234', r1c5: '1234', r1c6: '1234', r1c8: '1234' })
  const step = stepOn(board, subset, { removals: [candidate('r1c1', 2)] })
  const reason = (options: ExplainOptions) => explainStep(step, options).reasons[0]!.sentence

  it('are spoken one by one and in groups', () => {
    expect(reason({ cells: 'spoken' })).toBe(
      'row 1, column 1 is not 2: it sees row 1, columns 4, 5, 6 and 8, which use up 1, 2, 3 and 4.',
    )
    expect(reason({ cells: 'spoken', wording: GERMAN })).toBe(
      'Zeile 1, Spalte 1 ist nicht 2: Die Zelle sieht Zeile 1, Spalten 4, 5, 6 und 8, die 1, 2, 3 und 4 verbrauchen.',
    )
  })

  it('are named as an app names them', () => {
    const chess = (index: number) => `${'ABCDEFGHI'[index % 9]}${9 - Math.floor(index / 9)}`
    expect(reason({ cells: chess })).toBe(
      'A9 is not 2: it sees D9, E9, F9 and H9, which use up 1, 2, 3 and 4.',
    )
  })

  it('are named in a way that exists', () => {
    expect(() => reason({ cells: 'sung' as never })).toThrow(expect.objectContaining({ code: 'argument' }))
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
    expect(sentences).toContain('All this rests on the puzzle having only one solution.')
    expect(sentences).toContain('Only the 5 in r2c4 prevents that.')
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
    expect(sentences).toEqual(['PIVOT', 'PINCER', 'PINCER', 'CONCLUSION'])
    expect(reasons[0]!.sentence).toBe('REMOVED')
  })
})
