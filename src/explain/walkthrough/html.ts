import { element, escapeText } from '../picture/xml.js'
import { renderSvg } from '../render-svg.js'
import type { Voice } from '../voice.js'
import type { Block, WalkthroughDocument } from './document.js'

/** One self-contained page: no scripts, no fonts, no pictures from elsewhere. */
export function renderHtml(document: WalkthroughDocument, voice: Voice): string {
  const body = document.blocks.map((block) => renderBlock(block, voice)).join('\n')
  return `<!doctype html>
<html lang="${escapeText(document.language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeText(document.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`
}

function renderBlock(block: Block, voice: Voice): string {
  switch (block.kind) {
    case 'heading':
      return element(`h${block.depth}`, { id: block.anchor }, escapeText(block.text))
    case 'text':
      return element('p', { class: block.tone }, escapeText(block.text))
    case 'list':
      return element(
        'ul',
        { class: block.tone },
        ...block.items.map((item) => element('li', {}, escapeText(item))),
      )
    case 'table':
      return renderTable(block)
    case 'board':
      return element(
        'figure',
        {},
        renderSvg(block.board, {
          marks: block.marks,
          ...voice,
          ...(block.step && { step: block.step }),
          ...(block.placed && { placed: block.placed }),
        }),
      )
    case 'cue': {
      const { show } = voice.wording.walkthrough.notes
      return element(
        'section',
        { class: 'cue' },
        element('p', { class: 'number' }, `${block.number}`),
        element(
          'div',
          {},
          element('p', { class: 'small' }, escapeText(`${show}: ${block.show}`)),
          ...block.say.map((text) => element('p', {}, escapeText(text))),
        ),
      )
    }
    case 'fold':
      return element(
        'details',
        {},
        element('summary', {}, escapeText(block.summary)),
        ...block.blocks.map((part) => renderBlock(part, voice)),
      )
    case 'row':
      return element('div', { class: 'row' }, ...block.blocks.map((part) => renderBlock(part, voice)))
    case 'section': {
      const boards = block.blocks.filter(({ kind }) => kind === 'board')
      const words = block.blocks.filter(({ kind }) => kind !== 'board')
      const render = (part: Block) => renderBlock(part, voice)
      return element(
        'section',
        { class: block.tone },
        element('div', { class: 'words' }, ...words.map(render)),
        ...boards.map(render),
      )
    }
    default:
      return block satisfies never
  }
}

function renderTable(block: Extract<Block, { kind: 'table' }>): string {
  const row = (cells: readonly string[], name: string) =>
    element('tr', {}, ...cells.map((cell) => element(name, {}, escapeText(cell))))
  return element(
    'table',
    {},
    element('thead', {}, row(block.head, 'th')),
    element('tbody', {}, ...block.rows.map((cells) => row(cells, 'td'))),
  )
}

const STYLE = `
:root { --ink: #1d2230; --soft: #565f70; --line: #c9ced8; --key: #f4f0e6; }
* { box-sizing: border-box; }
body { margin: 0; color: var(--ink); background: #fff; font: 17px/1.5 Georgia, 'DejaVu Serif', serif; }
main { max-width: 68rem; margin: 0 auto; padding: 1.5rem; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: 0 0 1rem; }
h2 { font-size: 1.4rem; margin: 2rem 0 .5rem; }
section h2:first-child, section h3:first-child { margin-top: 0; }
h3 { font-size: 1.1rem; margin: 1rem 0 .4rem; }
p { margin: .35rem 0; }
p.lead { font-weight: bold; }
.small { font-size: .88em; color: var(--soft); }
p.notation { font-family: 'DejaVu Sans Mono', Menlo, monospace; font-size: .85em; overflow-wrap: anywhere; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
section { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, var(--picture, 24rem)); gap: 0 1.6rem;
  align-items: start; padding: 1rem 0; }
section.plain { display: block; padding: 0; }
section.pattern { --picture: 22rem; }
section.singles { --picture: 15rem; }
section.end { --picture: 15rem; }
section.key { --picture: 27rem; border: 2px solid var(--ink); padding: 1rem; margin: 1rem 0; }
section.cue { grid-template-columns: 2.4rem minmax(0, 1fr); gap: 0 .8rem; padding: .6rem 0; border-top: 1px solid var(--line); }
p.number { font-weight: bold; font-size: 1.2rem; text-align: right; }
div.row { display: grid; grid-template-columns: repeat(auto-fill, minmax(21rem, 1fr)); gap: 0 1.6rem; }
div.row > section { display: block; }
div.row figure { margin-top: .6rem; }
ul.singles { list-style: none; padding: 0; font-size: .88em; columns: 21rem; column-gap: 1.4rem; }
ul.singles li { break-inside: avoid; padding-left: 1.6rem; text-indent: -1.6rem; }
details { margin: .6rem 0; }
summary { font-weight: bold; cursor: pointer; }
figure { margin: 0; }
svg { display: block; width: 100%; height: auto; }
table { border-collapse: collapse; margin: .5rem 0 1rem; }
th, td { text-align: left; padding: .2rem 1.2rem .2rem 0; border-bottom: 1px solid var(--line); }
td:last-child, th:last-child { text-align: right; padding-right: 0; }
@media screen and (max-width: 46rem) {
  section, section.cue { display: block; }
  figure { max-width: 27rem; margin-top: .8rem; }
  p.number { text-align: left; }
}
@media print {
  @page { margin: 13mm; }
  body { font-size: 10pt; line-height: 1.4; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 18pt; }
  h2 { font-size: 13pt; margin-top: 5mm; }
  h3 { font-size: 11pt; }
  section { --picture: 74mm; padding: 2mm 0; break-inside: avoid; }
  section.pattern { --picture: 88mm; }
  div.row { grid-template-columns: 88mm 88mm; gap: 0 6mm; }
  section.singles { --picture: 50mm; }
  section.end { --picture: 50mm; }
  section.key { --picture: 88mm; padding: 4mm; margin: 3mm 0; }
  h2, h3, summary { break-after: avoid; }
  ul.singles { columns: 2; }
  section.singles ul.singles { columns: 1; }
  /* what is folded on a screen is open on paper */
  details::details-content { content-visibility: visible; display: block; block-size: auto; }
  summary { list-style: none; }
  svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`
