import { digitName } from '../../grid/digit-names.js'
import { drawGrid } from '../../grid/text/draw.js'
import { markedCell } from '../../grid/text/marks.js'
import type { Voice } from '../voice.js'
import type { Block, WalkthroughDocument } from './document.js'
import { signedBoard } from './signs.js'

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
export function renderMarkdown(document: WalkthroughDocument, voice: Voice): string {
  return `${joined(document.blocks, voice)}\n`
}

/** Blocks with something to read, a line free between them. */
function joined(blocks: readonly Block[], voice: Voice): string {
  return blocks
    .map((block) => renderBlock(block, voice))
    .filter((text) => text !== '')
    .join('\n\n')
}

function renderBlock(block: Block, voice: Voice): string {
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
      return drawBoard(block, voice)
    case 'cue': {
      const { show } = voice.wording.walkthrough.notes
      const say = block.say.map((text) => `> ${escapeMarkdown(text)}`).join('\n>\n')
      return `**${block.number}.** *${escapeMarkdown(`${show}: ${block.show}`)}*\n\n${say}`
    }
    case 'frames':
      return ''
    case 'fold': {
      const inside = joined(block.blocks, voice)
      return inside === '' ? '' : `**${escapeMarkdown(block.summary)}**\n\n${inside}`
    }
    case 'row':
    case 'section':
      return joined(block.blocks, voice)
    default:
      return block satisfies never
  }
}

/** The board in characters, with or without its pencil marks. Its rule is in words at the top of the document. */
function drawBoard(
  { board, step, marks }: Extract<Block, { kind: 'board' }>,
  { wording, digits, cells }: Voice,
): string {
  const fenced = (texts: readonly string[]) => `\`\`\`\n${drawGrid(board.geometry, texts)}\n\`\`\``
  const name = (digit: number) => digitName(digit, digits)
  if (!step)
    return fenced(
      Array.from(board.digits, (digit, cell) =>
        marks === 'all' ? markedCell(board, cell, name) : digit === 0 ? '.' : name(digit),
      ),
    )
  const { texts, signs } = signedBoard(step, digits)
  const names = { geometry: board.geometry, digits, cells }
  const hasFound = board.digits.some((digit, cell) => digit !== 0 && !board.given[cell])
  const key = [
    ...(hasFound ? [`+1 ${wording.picture.found}`] : []),
    ...signs.map(({ sign, role }) => `1${sign} ${wording.role(role, names)}`),
  ].join(', ')
  return `${fenced(texts)}\n\n${escapeMarkdown(`${wording.walkthrough.signs}: ${key}.`)}`
}
