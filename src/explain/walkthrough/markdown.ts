import { type DigitStyle, digitName } from '../../grid/digit-names.js'
import { drawGrid } from '../../grid/text/draw.js'
import { markedCell } from '../../grid/text/marks.js'
import type { Block, WalkthroughDocument } from './document.js'

/** Characters that mean something in Markdown or in the HTML inside it get a backslash or an entity. */
function escapeMarkdown(text: string): string {
  return text
    .replace(/[\\`*_{}[\]#|~]/g, '\\$&')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(
      /^(\s*)([-+]|\d+[.)])(?=\s)/,
      (_, space, sign: string) => `${space}${sign.replace(/[-+.)]/, '\\$&')}`,
    )
}

/** The same document as text, with boards drawn in characters. */
export function renderMarkdown(document: WalkthroughDocument, digits: DigitStyle): string {
  return `${document.blocks.map((block) => renderBlock(block, digits)).join('\n\n')}\n`
}

function renderBlock(block: Block, digits: DigitStyle): string {
  switch (block.kind) {
    case 'heading':
      return `${'#'.repeat(block.depth)} ${escapeMarkdown(block.text)}`
    case 'text':
      if (block.tone === 'notation') return `\`${block.text.replace(/`/g, '')}\``
      return block.tone === 'lead' ? `**${escapeMarkdown(block.text)}**` : escapeMarkdown(block.text)
    case 'list':
      return block.items.map((item) => `- ${escapeMarkdown(item)}`).join('\n')
    case 'table': {
      const row = (cells: readonly string[]) => `| ${cells.map(escapeMarkdown).join(' | ')} |`
      return [row(block.head), row(block.head.map(() => '---')), ...block.rows.map(row)].join('\n')
    }
    case 'board':
      return `\`\`\`\n${drawBoard(block, digits)}\n\`\`\``
    case 'section':
      return block.blocks.map((part) => renderBlock(part, digits)).join('\n\n')
    default:
      return block satisfies never
  }
}

/** The board in characters, with or without its pencil marks. Its rule is in words at the top of the document. */
function drawBoard({ board, marks }: Extract<Block, { kind: 'board' }>, style: DigitStyle): string {
  const name = (digit: number) => digitName(digit, style)
  const texts = Array.from(board.digits, (digit, cell) =>
    marks === 'all' ? markedCell(board, cell, name) : digit === 0 ? '.' : name(digit),
  )
  return drawGrid(board.geometry, texts)
}
