import { SaxesParser } from 'saxes'
import { describe, expect, it } from 'vitest'
import { explainStep } from '../../src/explain/explain-step.js'
import { hunt } from '../../src/explain/hunt.js'
import { signedBoard } from '../../src/explain/walkthrough/signs.js'
import { walkthrough } from '../../src/explain/walkthrough.js'
import { ENGLISH } from '../../src/explain/words/english/index.js'
import { boxedGeometry, type Geometry, STANDARD } from '../../src/grid/geometry.js'
import { makePuzzle, type Puzzle } from '../../src/grid/puzzle.js'
import { solve } from '../../src/logic/solving/solve.js'
import { findRoute, type RouteLine } from '../../src/route/find-route.js'
import { keyStep } from '../../src/route/key-step.js'
import { WORKADAY_TECHNIQUES } from '../../src/route/workaday.js'
import { fullGrid } from '../grid/arbitraries.js'
import { diagonalGeometry, slantedGeometry } from '../support/any-geometry.js'
import { PUZZLES } from '../support/puzzles.js'
import { randomPuzzle } from '../support/random-boards.js'

const hard = PUZZLES.xyWing
const easy = PUZZLES.singles
/** No single step opens it. */
const SEVERAL = randomPuzzle(2008)

function routeThrough(puzzle: Puzzle): RouteLine {
  const route = findRoute(puzzle)
  if (route.status !== 'solved') throw new Error('the puzzle has a route')
  return route
}

/** The page's tags must nest; HTML's empty elements are closed for the parser. */
function checkTags(html: string): void {
  const parser = new SaxesParser()
  parser.on('error', (error) => {
    throw error
  })
  parser.write(html.replace('<!doctype html>', '').replace(/<meta ([^>]*)>/g, '<meta $1/>')).close()
}

describe('walkthrough in HTML', () => {
  const path = solve(hard)
  const page = walkthrough(path)

  it('is one page that needs nothing from elsewhere', () => {
    checkTags(page)
    expect(page).not.toMatch(/<script|<link|<img|src=|@import|url\(/)
    expect(
      [...page.matchAll(/(?:href|xmlns)="([^"]*)"/g)].every(
        ([, url]) => url === 'http://www.w3.org/2000/svg',
      ),
    ).toBe(true)
    expect(page).toContain('@media print')
  })

  it('goes through the acts in order', () => {
    const story = walkthrough(hard)
    const [key] = routeThrough(hard).keys
    const acts = [
      'The puzzle',
      'Setting up',
      'Pencil marks',
      `The key, step ${key! + 1}`,
      'Following through',
      'Solved',
    ]
    const places = acts.map((act) => story.indexOf(`>${act}`))
    expect(places).not.toContain(-1)
    expect(places).toEqual([...places].sort((a, b) => a - b))
  })

  it('tells every step once: singles a line each, of all others a heading', () => {
    for (const version of ['short', 'full'] as const) {
      const { steps } = routeThrough(hard)
      const text = walkthrough(hard, { version })
      const lines = [...text.matchAll(/<li>(\d+)\. /g)].map(([, number]) => Number(number))
      const headed = [...text.matchAll(/id="step-(\d+)"/g)].map(([, number]) => Number(number))
      const others = steps.flatMap((step, i) => (step.level === 'scan' ? [] : [i + 1]))
      expect([...lines, ...others].sort((a, b) => a - b)).toEqual(steps.map((_, i) => i + 1))
      for (const other of others) expect(headed.filter((number) => number === other)).toHaveLength(1)
      const sentences = others.flatMap((other) => explainStep(steps[other - 1]!).sentences)
      for (const sentence of sentences) expect(text.split(`<p>${sentence}</p>`)).toHaveLength(2)
    }
  })

  it('shows every step and its reasons in full only when asked for', () => {
    const short = walkthrough(SEVERAL)
    const full = walkthrough(SEVERAL, { version: 'full' })
    expect(short).not.toContain('Candidate by candidate')
    expect(full).toContain('Candidate by candidate')
    expect(full).toContain('Techniques used')
    expect(full).toMatch(/Rests on steps? \d/)
    expect(short).not.toContain('Rests on')
  })

  it('escapes titles', () => {
    const titled = walkthrough(path, { title: '<b>"Tuesday" & more</b>' })
    checkTags(titled)
    expect(titled).not.toContain('<b>')
    expect(titled).toContain('&lt;b&gt;&quot;Tuesday&quot; &amp; more')
  })

  it('has no key step where singles are enough', () => {
    const { steps } = solve(easy)
    expect(keyStep(steps)).toBeUndefined()
    expect(walkthrough(easy)).toContain('and singles are all it takes.')
    expect(walkthrough(easy)).not.toMatch(/The key|Pencil marks/)
  })
})

describe('walkthrough of a route', () => {
  const route = findRoute(hard)

  it('is what a puzzle gets', () => {
    expect(walkthrough(hard)).toBe(walkthrough(routeThrough(hard)))
  })

  it('tells how each key is found before it tells why it works', () => {
    const page = walkthrough(hard)
    const { steps, keys } = routeThrough(hard)
    const { sentences, clues } = hunt(steps[keys[0]!]!, { pictures: false })
    const said = sentences.filter((_, i) => clues[i]!.kind !== 'works')
    expect(said.length).toBeGreaterThan(1)
    for (const sentence of said) expect(page).toContain(`<p>${sentence}</p>`)
    expect(page.indexOf('How to find it')).toBeLessThan(page.indexOf('Why it works'))
    const notes = walkthrough(hard, { version: 'notes', cells: 'short' })
    for (const sentence of sentences) expect(notes).toContain(`<p>${sentence}</p>`)
  })

  it('has a chapter for every key', () => {
    const line = routeThrough(SEVERAL)
    expect(line.keys.length).toBeGreaterThan(1)
    const page = walkthrough(SEVERAL)
    line.keys.forEach((key, i) => {
      expect(page).toContain(`Key ${i + 1} of ${line.keys.length}, step ${key + 1}`)
    })
    expect(page.split('Stuck again: what now?')).toHaveLength(line.keys.length)
  })

  it('keeps to the techniques allowed', () => {
    if (route.status !== 'solved') throw new Error('the puzzle has a route')
    const { technique } = route.steps[route.keys[0]!]!
    expect(walkthrough(hard, { techniques: [...WORKADAY_TECHNIQUES, technique] })).toBe(walkthrough(route))
    expect(walkthrough(hard, { preset: 'mark' })).toContain('The chosen techniques get no further than this.')
  })
})

describe('walkthrough in Markdown', () => {
  it('draws boards in characters and leaves nothing to be taken for markup', () => {
    const text = walkthrough(hard, { format: 'markdown', title: '# A *title* <i>' })
    expect(text.split('\n')[0]).toBe('# \\# A \\*title\\* &lt;i&gt;')
    expect(text.match(/```/g)!.length % 2).toBe(0)
    expect(text).toContain('+-------+-------+-------+')
    expect(text).not.toMatch(/undefined|\[object/)
  })

  it('marks the parts of each pattern and explains the signs', () => {
    const { steps, keys } = routeThrough(hard)
    const key = steps[keys[0]!]!
    const { texts, signs } = signedBoard(key, 'letters')
    for (const { cell, digit } of key.removals) expect(texts[cell]).toMatch(new RegExp(`${digit}[^0-9]*/`))
    const text = walkthrough(hard, { format: 'markdown' })
    for (const { role } of signs) expect(text).toContain(ENGLISH.role(role))
    expect(new Set(signs.map(({ sign }) => sign)).size).toBe(signs.length)
    expect(text).toMatch(/^Signs: \+1 digit found, 1\S+ \p{L}.*\.$/mu)
  })
})

describe('speaking notes', () => {
  const text = walkthrough(hard, { format: 'markdown', version: 'notes' })

  it('have cues with rising numbers, each with what to show', () => {
    const cues = [...text.matchAll(/^\*\*(\d+)\.\*\* \*Show: [^*]+\*\n\n> \S/gm)].map(([, number]) =>
      Number(number),
    )
    expect(cues).toEqual(Array.from(cues, (_, i) => i + 1))
    expect(cues.length).toBeGreaterThan(8)
  })

  it('say the sentences of every step that is no single, cells spoken', () => {
    for (const step of routeThrough(hard).steps.filter(({ level }) => level !== 'scan'))
      for (const sentence of explainStep(step, { cells: 'spoken' }).sentences)
        expect(text).toContain(`> ${sentence}`)
    expect(text).not.toMatch(/\br\d+c\d/)
    const short = walkthrough(hard, { format: 'markdown', version: 'notes', cells: 'short' })
    expect(short).toMatch(/\br\d+c\d/)
  })
})

describe('walkthrough of what is not simply solved', () => {
  it('says how far logic got', () => {
    const page = walkthrough(hard, { preset: 'scan' })
    expect(page).toContain('The chosen techniques get no further than this.')
    expect(page).not.toContain('singles are all it takes')
  })

  it('says where solutions differ, and which givens contradict', () => {
    const loose = makePuzzle(
      hard.givens.map((digit, cell) => (cell === hard.givens.findIndex(Boolean) ? 0 : digit)),
    )
    const page = walkthrough(loose, { preset: 'mark' })
    expect(page).toContain('It has more than one solution.')
    expect(page).toContain('The solutions differ in')
    const clash = makePuzzle([5, 0, 0, 5, ...new Array(77).fill(0)])
    const broken = walkthrough(clash)
    expect(broken).toContain('It has no solution.')
    expect(broken).toContain('The givens in r1c1 and r1c4 already contradict each other.')
  })

  it('takes a reading and names what was settled and what is doubtful', () => {
    const cells = Array.from({ length: 81 }, (_, cell) => ({ decidedBy: cell === 3 ? 'logic' : 'pixels' }))
    const page = walkthrough({ puzzle: easy, cells, doubtful: [9] })
    expect(page).toContain('r1c4 (one cell)')
    expect(page).toContain('Please compare with the page: r2c1.')
  })

  it('refuses a format it does not know', () => {
    expect(() => walkthrough(easy, { format: 'rtf' as never })).toThrow(
      expect.objectContaining({ code: 'argument' }),
    )
  })
})

describe('the rule of the puzzle', () => {
  /** A puzzle of singles: a full grid with every seventh cell open. */
  const puzzleOf = (geometry: Geometry) =>
    makePuzzle(
      fullGrid(geometry, 5).givens.map((digit, cell) => (cell % 7 === 0 ? 0 : digit)),
      geometry,
    )
  const atTheTop = (document: string) => document.slice(0, document.search(/```|<\/section>/))

  it.each([
    ['3×3 boxes', STANDARD, 'Each row, column and 3×3 box holds the digits 1 to 9 once each.'],
    [
      'diagonals',
      diagonalGeometry(3, 3),
      'Each row, column and 3×3 box holds the digits 1 to 9 once each. So do both long diagonals: diagonal 1 from r1c1 to r9c9 and diagonal 2 from r1c9 to r9c1.',
    ],
    [
      'boxes on their side',
      boxedGeometry(3, 2),
      'Each row, column and 3×2 box (three rows high, two columns wide) holds the digits 1 to 6 once each.',
    ],
    [
      'regions',
      slantedGeometry(4),
      'Each row, column and outlined region holds the digits 1 to 4 once each. Seen row by row, the regions begin with region 1 at r1c1, region 2 at r1c2, region 3 at r1c3 and region 4 at r1c4.',
    ],
    [
      'letters',
      boxedGeometry(3, 4),
      'Each row, column and 3×4 box (three rows high, four columns wide) holds the digits 1 to 9 and A to C once each (A stands for 10).',
    ],
  ])('is said at the top where there are %s', (_, geometry, rule) => {
    const puzzle = puzzleOf(geometry)
    const text = walkthrough(puzzle, { format: 'markdown', preset: 'mark' })
    expect(atTheTop(text)).toContain(rule)
    expect(atTheTop(walkthrough(puzzle, { preset: 'mark' }))).toContain(`<p>${rule}</p>`)
  })

  it('is said in numbers, as all the rest, when numbers are asked for', () => {
    const puzzle = puzzleOf(boxedGeometry(3, 4))
    const text = walkthrough(puzzle, { format: 'markdown', digits: 'numbers' })
    expect(text).toContain('holds the digits 1 to 12 once each.')
    expect(text).not.toMatch(/\b[BC]\b/)
    expect(text).toMatch(/^\|( +\d+ +\d+ +\d+ +\d+ +\|){3}$/m)
    const page = walkthrough(puzzle, { digits: 'numbers' })
    expect(page).not.toMatch(/>[ABC]</)
    expect(page).toContain('>12<')
  })
})
