import { formatPuzzle } from '../../grid/text/write.js'
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
export function renderMarkdown(document: WalkthroughDocument): string {
  return `${document.blocks.map(renderBlock).join('\n\n')}\n`
}

function renderBlock(block: Block): string {
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
      return `\`\`\`\n${formatPuzzle(block.board, { style: block.marks === 'all' ? 'marks' : 'ruled' })}\n\`\`\``
    case 'section':
      return block.blocks.map(renderBlock).join('\n\n')
    default:
      return block satisfies never
  }
}
