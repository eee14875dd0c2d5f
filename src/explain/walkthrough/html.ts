import { frames } from '../frames.js'
import { hunt } from '../hunt.js'
import { htmlPage } from '../picture/html-page.js'
import { element, escapeText } from '../picture/xml.js'
import { renderSvg } from '../render-svg.js'
import type { Voice } from '../voice.js'
import type { Block, WalkthroughDocument } from './document.js'

/** One self-contained page: no scripts, no fonts, no pictures from elsewhere. */
export function renderHtml(document: WalkthroughDocument, voice: Voice): string {
  const body = document.blocks.map((block) => renderBlock(block, voice)).join('\n')
  const { language, title, blocks } = document
  return htmlPage({ language, title, style: STYLE, body, ...(isLong(blocks) && { mainClass: 'many' }) })
}

/** With more pictures than this, those on paper are smaller; a key counts for two. */
const MANY_PICTURES = 5

function isLong(blocks: readonly Block[]): boolean {
  const pictures = blocks.reduce((sum, block) => sum + weight(block), 0)
  return pictures > MANY_PICTURES
}

function weight(block: Block): number {
  if (block.kind === 'row') return block.blocks.reduce((sum, part) => sum + weight(part), 0)
  if (block.kind !== 'section') return 0
  return block.tone === 'key' ? 2 : block.tone === 'pattern' ? 1 : 0
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
        block.picture === undefined ? '' : element('figure', {}, block.picture),
      )
    }
    case 'frames':
      return element(
        'div',
        { class: 'frames' },
        ...[...hunt(block.step, voice).frames, ...frames(block.step, voice)].map(({ svg, text }) =>
          element('figure', {}, svg, element('figcaption', {}, escapeText(text))),
        ),
      )
    case 'fold':
      return element(
        'details',
        block.onPaper ? { class: 'on-paper' } : {},
        element('summary', {}, escapeText(block.summary)),
        ...block.blocks.map((part) => renderBlock(part, voice)),
      )
    case 'row':
      return element('div', { class: 'row' }, ...block.blocks.map((part) => renderBlock(part, voice)))
    case 'section': {
      // the picture floats beside the words: it has to stand before them, below the headings
      const isHeading = ({ kind }: Block) => kind === 'heading'
      const isBoard = ({ kind }: Block) => kind === 'board'
      const headings = block.blocks.filter((_, i) => block.blocks.slice(0, i + 1).every(isHeading))
      const rest = block.blocks.slice(headings.length)
      const parts = [...headings, ...rest.filter(isBoard), ...rest.filter((part) => !isBoard(part))]
      return element('section', { class: block.tone }, ...parts.map((part) => renderBlock(part, voice)))
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
:root { --ink: #1d2230; --soft: #565f70; --line: #c9ced8; }
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
section { padding: 1rem 0; }
section::after { content: ''; display: block; clear: both; }
section > figure { float: right; width: var(--picture, 24rem); max-width: 50%; margin: 0 0 .6rem 1.6rem; }
section.plain { padding: 0; }
section.singles, section.end { --picture: 15rem; }
section.key { --picture: 27rem; border: 2px solid var(--ink); padding: 1rem; margin: 1rem 0; }
section.cue > figure { float: none; width: auto; max-width: none; margin: 0; }
section.cue { display: grid; grid-template-columns: 2.4rem minmax(0, 1fr) 13rem; gap: 0 .8rem; padding: .6rem 0; border-top: 1px solid var(--line); }
p.number { font-weight: bold; font-size: 1.2rem; text-align: right; }
div.row { display: grid; grid-template-columns: repeat(auto-fill, minmax(21rem, 1fr)); gap: 0 1.6rem; }
div.row figure { float: none; width: auto; max-width: none; margin: .6rem 0 0; }
ul.singles { list-style: none; padding: 0; font-size: .88em; columns: 21rem; column-gap: 1.4rem; }
ul.singles li { break-inside: avoid; padding-left: 1.6rem; text-indent: -1.6rem; }
details { margin: .6rem 0; }
div.frames { display: grid; grid-template-columns: repeat(auto-fill, minmax(17rem, 1fr)); gap: 1rem; }
figcaption { font-size: .88em; margin-top: .3rem; }
summary { font-weight: bold; cursor: pointer; }
figure { margin: 0; }
svg { display: block; width: 100%; height: auto; }
table { border-collapse: collapse; margin: .5rem 0 1rem; }
th, td { text-align: left; padding: .2rem 1.2rem .2rem 0; border-bottom: 1px solid var(--line); }
td:last-child, th:last-child { text-align: right; padding-right: 0; }
@media screen and (max-width: 46rem) {
  section.cue { display: block; }
  section > figure, section.cue > figure { float: none; width: auto; max-width: 27rem; margin: .6rem 0; }
  p.number { text-align: left; }
}
@media print {
  @page { margin: 13mm; }
  body { font-size: 10pt; line-height: 1.32; }
  p { margin: 1mm 0; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 18pt; }
  h2 { font-size: 13pt; margin-top: 4mm; }
  h3 { font-size: 11pt; margin: 2mm 0 1mm; }
  section { --picture: 66mm; padding: 1.5mm 0; break-inside: avoid; }
  section > figure { margin: 0 0 1mm 5mm; }
  section.pattern { --picture: 72mm; }
  section.singles { --picture: 46mm; }
  section.end { --picture: 33mm; }
  section.key { --picture: 88mm; padding: 3mm; margin: 2mm 0; }
  div.row { grid-template-columns: 88mm 88mm; gap: 0 6mm; }
  div.row figure { width: 72mm; margin: 2mm 0 0; }
  main.many { font-size: 9.2pt; }
  main.many section.key { --picture: 72mm; padding: 3mm; }
  main.many section.pattern { --picture: 60mm; }
  main.many div.row { grid-template-columns: repeat(3, 57mm); }
  main.many div.row figure { width: 57mm; }
  h2, h3, summary, main > p { break-after: avoid; }
  ul.singles { columns: 2; font-size: 8.2pt; }
  ul.singles li { padding-left: 5mm; text-indent: -5mm; }
  section.singles > figure ~ ul.singles { columns: 1; }
  /* the steps that are folded on a screen are open on paper; frames are where they were opened */
  details:not([open]):not(.on-paper) { display: none; }
  div.frames { grid-template-columns: repeat(3, 1fr); gap: 4mm; }
  div.frames figure { break-inside: avoid; }
  section.cue { grid-template-columns: 8mm minmax(0, 1fr) 46mm; }
  details.on-paper::details-content { content-visibility: visible; display: block; block-size: auto; }
  summary { list-style: none; }
  svg { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`
