import { describe, expect, it } from 'vitest'
import { explainStep } from '../../src/explain/explain-step.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { GERMAN } from '../../src/explain/words/german/index.js'
import { exerciseSheet } from '../../src/lessons/exercise-sheet.js'
import { findSteps } from '../../src/logic/solving/find.js'
import { solve } from '../../src/logic/solving/solve.js'
import { PUZZLES } from '../support/puzzles.js'

const { board } = solve(PUZZLES.chain, { preset: 'mark' })
const answers = findSteps(board).slice(0, 9)
const exercises = answers.map((answer, i) => ({ answer, from: { title: `No. ${i + 1} <new>` } }))
const pagesOf = (sheet: string) => sheet.split('<section class="page').slice(1)

describe('exerciseSheet', () => {
  const sheet = exerciseSheet(exercises)

  it('has four positions a page, every answer after the last of them, in the same order', () => {
    expect(exercises).toHaveLength(9)
    const pages = pagesOf(sheet)
    const [last] = pages.at(-1)!.split('<h2>Answers')
    const boards = [...pages.slice(0, -1), last!].map((page) => page.split('<svg').length - 1)
    expect(boards).toEqual([4, 4, 1])
    const behind = sheet.slice(sheet.indexOf('<h2>Answers'))
    expect(behind.match(/<svg/g)).toHaveLength(9)
    const places = answers.map(({ technique }, i) =>
      behind.indexOf(`<h3>${i + 1}. ${ENGLISH.technique(technique)}`),
    )
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
  })

  it('gives nothing away before the answers', () => {
    const before = sheet.slice(0, sheet.indexOf('<h2>Answers'))
    for (const answer of answers)
      for (const sentence of explainStep(answer).sentences) {
        expect(before).not.toContain(sentence)
        expect(sheet).toContain(`<p>${sentence}</p>`)
      }
  })

  it.each([1, 2, 4, 6] as const)('puts %d on a page', (perPage) => {
    expect(pagesOf(exerciseSheet(exercises, { perPage }))).toHaveLength(Math.ceil(9 / perPage))
  })

  it('says where to look on a page of its own, when asked for', () => {
    expect(sheet).not.toContain('Where to look')
    const hinted = exerciseSheet(exercises, { hints: true })
    expect(hinted.match(/<li value="\d">Look at /g)).toHaveLength(9)
    expect(hinted.indexOf('Where to look')).toBeLessThan(hinted.indexOf('<h2>Answers'))
  })

  it('says one technique once, in its heading, and escapes what comes from outside', () => {
    const [one] = exercises
    const single = exerciseSheet([one!])
    expect(single).toContain(`<h1>Exercises: ${ENGLISH.technique(one!.answer.technique)}</h1>`)
    expect(single).toContain('No. 1 &lt;new&gt;')
    expect(exerciseSheet([one!], { title: 'a < b' })).toContain('<h1>a &lt; b</h1>')
  })

  it('speaks German, and is empty without exercises', () => {
    expect(exerciseSheet(exercises, { wording: GERMAN })).toContain('<h2>Lösungen')
    expect(exerciseSheet([])).not.toContain('<svg')
  })
})
