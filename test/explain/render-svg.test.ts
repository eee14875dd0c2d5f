import { SaxesParser } from 'saxes'
import { describe, expect, it } from 'vitest'
import { LOOKS } from '../../src/explain/picture/looks.js'
import { planPicture } from '../../src/explain/picture/plan.js'
import { ROLES } from '../../src/explain/picture/roles.js'
import { renderSvg } from '../../src/explain/render-svg.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { newBoard } from '../../src/grid/board/make.js'
import { boxedGeometry, regionGeometry } from '../../src/grid/geometry.js'
import { makePuzzle } from '../../src/grid/puzzle.js'
import { boardOf } from '../support/boards.js'
import { xyWingStep } from '../support/steps.js'
import { stepsOfEachTechnique } from '../support/steps-of-techniques.js'

interface Element {
  readonly name: string
  readonly attributes: Record<string, string>
  text: string
}

/** Parses strictly; throws on anything that is not well-formed XML. */
function parse(xml: string): Element[] {
  const elements: Element[] = []
  const open: Element[] = []
  const parser = new SaxesParser({ fragment: false })
  parser.on('error', (error) => {
    throw error
  })
  parser.on('opentag', ({ name, attributes }) => {
    const element = { name, attributes: { ...attributes } as Record<string, string>, text: '' }
    elements.push(element)
    open.push(element)
  })
  parser.on('text', (text) => {
    const top = open[open.length - 1]
    if (top) top.text += text
  })
  parser.on('closetag', () => open.pop())
  parser.write(xml).close()
  return elements
}

const texts = (elements: readonly Element[]) =>
  elements.filter(({ name }) => name === 'text').map(({ text }) => text)

describe('any board', () => {
  it('shows givens, digits found and pencil marks, each once', () => {
    // Project Euler, problem 96, the example printed there (from memory).
    const board = boardOf('..3.2.6..9..3.5..1..18.64....81.29..7.......8..67.82....26.95..8..2.3..9..5.1.3..')
    const elements = parse(renderSvg(board))
    const marks = Array.from(board.candidates).reduce(
      (sum, set) => sum + set.toString(2).replace(/0/g, '').length,
      0,
    )
    expect(texts(elements).filter((text) => /^\d$/.test(text))).toHaveLength(32 + marks)
    expect(texts(elements).filter((text) => /^[rc]\d$/.test(text))).toHaveLength(18)
    const plain = parse(renderSvg(board, { marks: 'none' }))
    expect(texts(plain).filter((text) => /^\d$/.test(text))).toHaveLength(32)
  })

  it('has a title and a description for those who cannot see it', () => {
    const elements = parse(renderSvg(boardOf('1...............', boxedGeometry(2, 2))))
    expect(elements[0]).toMatchObject({
      name: 'svg',
      attributes: { role: 'img', 'aria-label': 'Number-place grid' },
    })
    expect(elements.find(({ name }) => name === 'title')?.text).toBe('Number-place grid')
    expect(elements.find(({ name }) => name === 'desc')?.text).toContain('one given')
  })

  it('escapes what it is handed', () => {
    const title = `<script>"&'</script>\u0000\ud800`
    const elements = parse(renderSvg(boardOf('.'.repeat(16), boxedGeometry(2, 2)), { title }))
    expect(elements.some(({ name }) => name === 'script')).toBe(false)
    expect(elements.find(({ name }) => name === 'title')?.text).toBe(`<script>"&'</script>\ufffd\ufffd`)
  })

  it('draws 16×16 with letters past nine, and irregular regions with diagonals', () => {
    const sixteen = boxedGeometry(4, 4)
    const board = newBoard(makePuzzle([16, ...new Array(255).fill(0)], sixteen))
    expect(texts(parse(renderSvg(board)))).toContain('G')
    const rows = regionGeometry(
      'slanted',
      Array.from({ length: 25 }, (_, cell) => (Math.floor(cell / 5) + (cell % 5)) % 5),
      { diagonals: true },
    )
    const lines = parse(renderSvg(newBoard(makePuzzle(new Array(25).fill(0), rows)))).filter(
      ({ name }) => name === 'line',
    )
    expect(lines).toHaveLength(2)
  })
})

describe('the roles of a step', () => {
  it('are drawn and named in the legend, and only those', () => {
    const step = xyWingStep()
    const drawn = texts(parse(renderSvg(step.before, { step })))
    for (const role of ['pivot', 'pincer', 'removed', 'pattern'] as const)
      expect(drawn).toContain(ENGLISH.role(role))
    for (const role of ['fin', 'stem', 'cover'] as const) expect(drawn).not.toContain(ENGLISH.role(role))
    expect(texts(parse(renderSvg(step.before, { step, legend: false })))).not.toContain('pivot')
  })

  it('differ without colour wherever two of a kind can meet', () => {
    const marks = (roles: readonly (typeof ROLES)[number][]) =>
      roles.map((role) => `${LOOKS[role].mark} ${LOOKS[role].filled}`)
    const cells = (roles: readonly (typeof ROLES)[number][]) =>
      roles.map((role) => `${LOOKS[role].hatch} ${LOOKS[role].frames}`)
    const distinct = (looks: readonly string[]) => expect(new Set(looks).size).toBe(looks.length)
    distinct(marks(['placed', 'removed', 'pattern', 'fin']))
    distinct(marks(['placed', 'removed', 'start', 'end', 'link', 'link-true', 'fin']))
    distinct(marks(['placed', 'removed', 'pattern', 'shared']))
    distinct(marks(['removed', 'colour-one', 'colour-other', 'second-one', 'second-other']))
    distinct(marks(['removed', 'set-one', 'join', 'keeps', 'pattern']))
    distinct((['set-one', 'set-two', 'set-more'] as const).map((role) => String(LOOKS[role].dash)))
    distinct(marks(['removed', 'exchange', 'extra', 'link']))
    distinct(marks(['removed', 'supposed', 'follows', 'case', 'forced-one', 'forced-two', 'forced-more']))
    distinct(cells(['pivot', 'pincer', 'pattern']).slice(0, 2))
    distinct(cells(['pattern', 'fin']))
    distinct(cells(['stem', 'set-one', 'set-two', 'set-more']))
    distinct(cells(['to-fill', 'set-one', 'set-two', 'set-more']))
    distinct(cells(['base-cell', 'target-cell']))
    expect(LOOKS.base.dash).not.toBe(LOOKS.cover.dash)
    expect(LOOKS.house.dash).not.toBe(LOOKS.target.dash)
  })

  it('has a name for each in the wording table', () => {
    expect(new Set(ROLES.map((role) => ENGLISH.role(role))).size).toBe(ROLES.length)
  })
})

describe('pictures of many steps', () => {
  const steps = stepsOfEachTechnique(4)

  it('are well-formed, without ids that could clash in a page', () => {
    expect(new Set(steps.map(({ technique }) => technique)).size).toBeGreaterThan(15)
    for (const step of steps) {
      const svg = renderSvg(step.before, { step })
      expect(parse(svg).length).toBeGreaterThan(100)
      expect(svg).not.toMatch(/NaN|undefined|Infinity|\sid="/)
    }
  })

  it('mark every conclusion', () => {
    for (const step of steps) {
      const { candidates } = planPicture(step)
      for (const { cell, digit } of step.removals)
        expect(candidates).toContainEqual({ cell, digit, role: 'removed' })
      for (const { cell, digit } of step.placements)
        expect(candidates).toContainEqual({ cell, digit, role: 'placed' })
    }
  })

  it('draw each pair of linked candidates once, solid when strong', () => {
    for (const step of steps.filter(({ pattern }) => pattern.shape === 'chain')) {
      const elements = parse(renderSvg(step.before, { step, legend: false }))
      const dashed = elements.filter(
        ({ name, attributes }) =>
          name === 'path' && attributes.d?.includes('C') && attributes['stroke-dasharray'],
      )
      const links = step.pattern.shape === 'chain' ? step.pattern.links : []
      const weak = links.filter(({ kind }) => kind === 'weak')
      expect(dashed.length).toBeLessThanOrEqual(weak.length)
      expect(dashed.length).toBeGreaterThan(0)
    }
  })
})
