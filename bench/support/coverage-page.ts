import { barChart } from '../../src/batch/report/charts.js'
import { element, escapeText } from '../../src/explain/picture/xml.js'
import { techniqueTitle } from '../../src/explain/words/english/technique-title.js'
import { indispensableTechniques } from '../../src/grade/coverage.js'
import type { Puzzle } from '../../src/grid/puzzle.js'
import { CATALOGUE } from '../../src/logic/catalogue.js'
import type { Level } from '../../src/logic/level.js'
import type { SolvePath } from '../../src/logic/solving/solve.js'
import type { TechniqueTime } from './technique-times.js'

/**
 * Techniques over many puzzles as a page with a table and pictures: boards that each was found on, puzzles that use it,
 * puzzles that cannot do without it, and its share of the time.
 */
export function coveragePage(
  title: string,
  puzzles: readonly Puzzle[],
  paths: readonly SolvePath[],
  times: readonly TechniqueTime[],
  preset: Level,
): string {
  const used = countEach(paths.map((path) => path.steps.map(({ technique }) => technique)))
  const needed = countEach(puzzles.map((puzzle) => indispensableTechniques(puzzle, { preset })))
  const all = times.reduce((sum, { milliseconds }) => sum + milliseconds, 0)
  const rows = CATALOGUE.flatMap(({ name, level }) => {
    const time = times.find((entry) => entry.name === name)
    if (!time || time.boards === 0) return []
    const share = (100 * time.milliseconds) / all
    return [
      {
        name: techniqueTitle(name),
        level,
        found: time.found,
        used: used.get(name) ?? 0,
        needed: needed.get(name) ?? 0,
        share,
      },
    ]
  })
  const cell = (name: string, text: string) => element(name, {}, escapeText(text))
  const table = element(
    'table',
    {},
    element(
      'tr',
      {},
      ...[
        'Technique',
        'Level',
        'Boards found on',
        'Puzzles that use it',
        'Puzzles that need it',
        'Time, %',
      ].map((text) => cell('th', text)),
    ),
    ...rows.map(({ name, level, found, used, needed, share }) =>
      element(
        'tr',
        {},
        ...[name, level, `${found}`, `${used}`, `${needed}`, share.toFixed(1)].map((text) =>
          cell('td', text),
        ),
      ),
    ),
  )
  const chart = (
    heading: string,
    value: (row: (typeof rows)[number]) => number,
    said: (value: number) => string,
  ) => {
    const bars = rows
      .filter((row) => value(row) >= LEAST)
      .sort((a, b) => value(b) - value(a))
      .slice(0, MOST_BARS)
      .map((row) => ({ name: row.name, level: row.level, count: value(row), said: said(value(row)) }))
    const picture = bars.length === 0 ? element('p', {}, 'None.') : barChart(bars, heading)
    return element('section', {}, element('h2', {}, heading), picture)
  }
  const parts = [
    element('h1', {}, escapeText(title)),
    element(
      'p',
      {},
      `${puzzles.length} puzzles, techniques up to ${preset}; ${paths.filter(({ status }) => status === 'solved').length} solved.`,
    ),
    table,
    chart('Puzzles that use it', ({ used }) => used, String),
    chart('Puzzles that cannot do without it', ({ needed }) => needed, String),
    chart(
      'Share of the time',
      ({ share }) => share,
      (value) => `${value.toFixed(1)} %`,
    ),
  ]
  return `<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>${escapeText(title)}</title><style>${STYLE}</style></head><body>${parts.join('\n')}</body></html>\n`
}

/** Bars that fit on a page, and the least that is worth one: a puzzle, or a part of a percent. */
const MOST_BARS = 24
const LEAST = 0.05

/** name -> how many of the lists have it */
function countEach<Name>(lists: readonly (readonly Name[])[]): Map<Name, number> {
  const counts = new Map<Name, number>()
  for (const list of lists) for (const name of new Set(list)) counts.set(name, (counts.get(name) ?? 0) + 1)
  return counts
}

const STYLE = `
@page { size: A4; margin: 15mm; }
body { max-width: 48rem; margin: 1.5rem auto; font: 15px/1.45 Georgia, 'DejaVu Serif', serif; color: #1d2230; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: .15rem .9rem .15rem 0; border-bottom: 1px solid #c9ced8; }
th:nth-child(n+3), td:nth-child(n+3) { text-align: right; }
tr { break-inside: avoid; }
section { break-inside: avoid; }
svg { display: block; width: 100%; height: auto; }
@media print { body { margin: 0; max-width: none; font-size: 10pt; } h2 { break-after: avoid; } }
`
