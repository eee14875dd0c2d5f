import { htmlPage } from '../../explain/picture/html-page.js'
import { element, escapeText } from '../../explain/picture/xml.js'
import { renderSvg } from '../../explain/render-svg.js'
import { newBoard } from '../../grid/board/make.js'
import { LEVELS, type Level } from '../../logic/level.js'
import { type GradedRecord, type GradeRecord, recordedPuzzle } from '../records/grade-record.js'
import { type Bar, barChart, effortChart, SHADES, shareBar } from './charts.js'
import type { ReportCounts } from './collect.js'
import type { ReportLanguage } from './words.js'

/** One self-contained page: no scripts, no fonts, no pictures from elsewhere. */
export function reportPage(counts: ReportCounts, title: string, words: ReportLanguage): string {
  const { coverage, failed, skipped } = counts
  const parts = [
    element('h1', {}, escapeText(title)),
    element('p', { class: 'lead' }, escapeText(words.summary({ graded: coverage.puzzles, failed, skipped }))),
    ...(coverage.puzzles > 0 ? gradedParts(counts, words) : []),
    ...photoPart(counts, words),
    ...failedPart(counts, words),
    ...skippedPart(counts, words),
  ]
  const { language } = words.wording
  return htmlPage({ language, title, style: STYLE, body: parts.join('\n') })
}

function gradedParts(counts: ReportCounts, words: ReportLanguage): string[] {
  return [
    section(words.levels, figure(barChart(levelBars(counts, words), words.levels))),
    ...(counts.effort.size > 0 ? [effortPart(counts, words)] : []),
    techniquePart(counts, words),
    endsPart(words.hardest, counts.hardest, words),
    endsPart(words.easiest, counts.easiest, words),
    samePart(counts, words),
  ]
}

function levelBars({ coverage, outcomes }: ReportCounts, words: ReportLanguage): Bar[] {
  const { puzzles, levels } = coverage
  const bar = (name: string, count: number) => ({
    name,
    count,
    said: `${words.number(count)} (${words.share(count, puzzles)})`,
  })
  return [
    ...LEVELS.map((level) => ({ ...bar(levelName(level, words), levels[level]), level })),
    ...[...outcomes].map(([outcome, count]) => bar(words.outcomes[outcome], count)),
  ]
}

function effortPart({ effort }: ReportCounts, words: ReportLanguage): string {
  const [quarter, half, threeQuarters] = [0.25, 0.5, 0.75].map((share) => effort.quantile(share))
  return section(
    words.effort,
    paragraph(words.effortSays(quarter!, half!, threeQuarters!)),
    figure(effortChart(effort.histogram, words)),
    levelKey(words),
  )
}

/** Its name without what explains it, which stands below the chart of efforts. */
function levelName(level: Level, { wording }: ReportLanguage): string {
  return wording.level(level).replace(/ \(.*\)$/, '')
}

function levelKey({ wording }: ReportLanguage): string {
  const entries = LEVELS.map((level) =>
    element('span', {}, swatch(level), ` ${escapeText(wording.level(level))}`),
  )
  return element('p', { class: 'key' }, ...entries)
}

function swatch(level: Level): string {
  return `<svg class="swatch" viewBox="0 0 12 12" aria-hidden="true"><rect x="0.5" y="0.5" width="11" height="11" fill="${SHADES[level]}" stroke="#1d2230"/></svg>`
}

function techniquePart({ coverage }: ReportCounts, words: ReportLanguage): string {
  const [technique, level, puzzles, share, rounds, hardest] = words.techniqueColumns
  const rows = coverage.techniques.map((row) => [
    escapeText(words.wording.technique(row.technique)),
    escapeText(levelName(row.level, words)),
    words.number(row.puzzles),
    `${shareBar(row.puzzles / coverage.puzzles, row.level)}${escapeText(words.share(row.puzzles, coverage.puzzles))}`,
    words.number(row.rounds),
    row.bottleneckIn === 0 ? '' : words.number(row.bottleneckIn),
  ])
  return section(
    words.techniques,
    table('techniques', [technique, level, puzzles, share, rounds, hardest], rows),
  )
}

function endsPart(title: string, records: readonly GradedRecord[], words: ReportLanguage): string {
  const pictures = records.map((record) => {
    const { grade, number, title, setter, date } = record
    const about = [number && words.puzzleNumber(number), title, setter, date].filter(Boolean).join(', ')
    const technique = grade.bottleneck && words.wording.technique(grade.bottleneck.technique)
    return element(
      'figure',
      {},
      renderSvg(newBoard(recordedPuzzle(record)), { marks: 'none', legend: false, wording: words.wording }),
      element(
        'figcaption',
        {},
        ...(about === '' ? [] : [element('strong', {}, escapeText(about)), '<br>']),
        escapeText(
          words.caption(
            levelName(grade.level!, words),
            words.number(Math.round(grade.effort)),
            technique ?? undefined,
          ),
        ),
        '<br>',
        element('span', { class: 'place' }, escapeText(placeOf(record, words))),
      ),
    )
  })
  return pictures.length === 0 ? '' : section(title, element('div', { class: 'pictures' }, ...pictures))
}

function samePart({ duplicates, same }: ReportCounts, words: ReportLanguage): string {
  if (duplicates === 0) return section(words.duplicates, paragraph(words.noDuplicates))
  const items = same.map(({ record, origin }) =>
    escapeText(`${placeOf(record, words)} = ${words.place(origin.path, origin.line, origin.grid)}`),
  )
  return section(
    words.duplicates,
    paragraph(words.sameAs(duplicates)),
    list(items, duplicates - same.length, words),
  )
}

function photoPart({ certain, check, toCheck }: ReportCounts, words: ReportLanguage): string[] {
  if (certain + check === 0) return []
  const items = toCheck.map((record) =>
    escapeText(
      `${placeOf(record, words)}: ${record.photo!.reasons.map((reason) => words.checkReasons[reason]).join(', ')}`,
    ),
  )
  return [
    section(
      words.photos,
      paragraph(words.photosSay(certain, check)),
      ...(check > 0 ? [list(items, check - items.length, words)] : []),
    ),
  ]
}

/** Examples in the table of what was not read: more would hide the other reasons. */
const SHOWN = 5

function failedPart({ failures }: ReportCounts, words: ReportLanguage): string[] {
  if (failures.size === 0) return []
  const rows = [...failures]
    .sort(([, a], [, b]) => b.count - a.count)
    .map(([code, { count, examples }]) => [
      escapeText(code),
      words.number(count),
      examples
        .slice(0, SHOWN)
        .map((record) =>
          element(
            'p',
            {},
            element('span', { class: 'place' }, escapeText(placeOf(record, words))),
            `<br>${escapeText(record.error.message)}`,
          ),
        )
        .join('') + (count > SHOWN ? paragraph(words.more(count - SHOWN)) : ''),
    ])
  return [section(words.failed, table('failed', words.failedColumns, rows))]
}

function skippedPart({ skips }: ReportCounts, words: ReportLanguage): string[] {
  if (skips.size === 0) return []
  const rows = [...skips]
    .sort(([, a], [, b]) => b.count - a.count)
    .map(([because, { count, paths }]) => [
      escapeText(words.skipReasons[because]),
      words.number(count),
      escapeText(paths.slice(0, SHOWN).join(', ')) +
        (count > SHOWN ? `, ${escapeText(words.more(count - SHOWN))}` : ''),
    ])
  return [section(words.skipped, table('skipped', words.failedColumns, rows))]
}

function placeOf({ path, line, spot }: GradeRecord, words: ReportLanguage): string {
  return words.place(path, line, spot?.grid)
}

function section(title: string, ...content: readonly string[]): string {
  return element('section', {}, element('h2', {}, escapeText(title)), ...content)
}

function paragraph(text: string): string {
  return element('p', {}, escapeText(text))
}

function figure(content: string): string {
  return element('figure', { class: 'chart' }, content)
}

function list(items: readonly string[], more: number, words: ReportLanguage): string {
  const rest = more > 0 ? [element('li', {}, escapeText(words.more(more)))] : []
  return element('ul', {}, ...items.map((item) => element('li', {}, item)), ...rest)
}

function table(name: string, head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[], cell: string) =>
    element('tr', {}, ...cells.map((content) => element(cell, {}, content)))
  return element(
    'table',
    { class: name },
    element('thead', {}, row(head.map(escapeText), 'th')),
    element('tbody', {}, ...rows.map((cells) => row(cells, 'td'))),
  )
}

const STYLE = `
:root { --ink: #1d2230; --soft: #565f70; --line: #c9ced8; }
* { box-sizing: border-box; }
body { margin: 0; color: var(--ink); background: #fff; font: 16px/1.45 Georgia, 'DejaVu Serif', serif; }
main { max-width: 52rem; margin: 0 auto; padding: 1.5rem; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0 0 .6rem; }
h2 { font-size: 1.3rem; margin: 2rem 0 .5rem; }
p { margin: .35rem 0; }
p.lead { font-size: 1.1rem; }
figure { margin: 0; }
svg { display: block; width: 100%; height: auto; }
p.key span { margin-right: 1.2rem; white-space: nowrap; }
svg.swatch { display: inline-block; width: .8em; height: .8em; }
table { border-collapse: collapse; width: 100%; margin: .5rem 0 1rem; }
th, td { text-align: left; vertical-align: top; padding: .25rem .9rem .25rem 0; border-bottom: 1px solid var(--line); }
table.techniques th:nth-child(n+3), table.techniques td:nth-child(n+3), table th:nth-child(2), table.failed td:nth-child(2), table.skipped td:nth-child(2) { text-align: right; }
table.techniques th:nth-child(2) { text-align: left; }
table.techniques td:nth-child(4) { white-space: nowrap; }
table.techniques td svg { display: inline-block; width: 6rem; margin-right: .6rem; vertical-align: middle; }
table.failed td p { margin: 0 0 .5rem; overflow-wrap: anywhere; }
div.pictures { display: grid; grid-template-columns: repeat(3, 1fr); gap: 1.2rem 1.6rem; }
figcaption { font-size: .88em; margin-top: .3rem; overflow-wrap: anywhere; }
.place { color: var(--soft); font-family: 'DejaVu Sans Mono', Menlo, monospace; font-size: .85em; overflow-wrap: anywhere; }
@media screen and (max-width: 40rem) { div.pictures { grid-template-columns: 1fr; } }
@media print {
  @page { size: A4; margin: 15mm; }
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 19pt; }
  h2 { font-size: 13pt; margin-top: 6mm; break-after: avoid; }
  figure, tr, li, p { break-inside: avoid; }
  thead { display: table-header-group; }
  figure.chart { max-width: 165mm; }
  div.pictures { gap: 4mm 6mm; }
  svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`
