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
.small { font-size: .88rem; color: var(--soft); }
p.notation { font-family: 'DejaVu Sans Mono', Menlo, monospace; font-size: .85rem; overflow-wrap: anywhere; }
ul { margin: .3rem 0; padding-left: 1.2rem; }
section { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 27rem); gap: 0 1.6rem; align-items: start;
  padding: 1.1rem 0; border-top: 1px solid var(--line); }
section.front { border-top: 0; }
section.key { background: var(--key); border: 2px solid var(--ink); padding: 1rem; margin: 1.2rem 0; }
section.scan ul { list-style: none; padding: 0; columns: 2; column-gap: 1.2rem; }
figure { margin: 0; }
svg { display: block; width: 100%; height: auto; }
table { border-collapse: collapse; margin: .5rem 0 1rem; }
th, td { text-align: left; padding: .2rem 1.2rem .2rem 0; border-bottom: 1px solid var(--line); }
td:last-child, th:last-child { text-align: right; padding-right: 0; }
@media screen and (max-width: 46rem) { section { display: block; } figure { max-width: 27rem; margin-top: .8rem; } }
@media print {
  @page { margin: 14mm; }
  body { font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  section { grid-template-columns: minmax(0, 1fr) 88mm; break-inside: avoid; padding: 5mm 0; }
  section.key { background: none; padding: 4mm; }
  h2, h3 { break-after: avoid; }
  svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`
