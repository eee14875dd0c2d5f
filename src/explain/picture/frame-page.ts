import { drawCaption, fittingFont, LEADING, linesOf } from './caption.js'
import { EDGE, LABELS, type Layout } from './layout.js'
import type { Theme } from './theme.js'
import { element, escapeText } from './xml.js'

/** The board alone, the board with the sentence below it, or 16:9 with the sentence beside it. */
export const FRAME_SHAPES = ['board', 'page', 'wide'] as const
/** What a frame is drawn on. */
export type FrameShape = (typeof FRAME_SHAPES)[number]

/** How all frames of a row are laid out. */
export interface FramePage {
  readonly width: number
  readonly height: number
  /** A board with its sentence on it. */
  set(board: string, text: string): string
}

const PAGE_FONTS = [26, 24, 22, 20, 18, 16, 14]
const WIDE_FONTS = [38, 35, 32, 29, 26, 23, 20, 18, 16, 14, 12]
const MARGIN = 16
/** Sentences below the board take no more room than this part of it. */
const MOST_BELOW = 0.5

/** One page for all of the texts, so that nothing moves from frame to frame. */
export function layFrames(
  layout: Layout,
  theme: Theme,
  shape: FrameShape,
  title: string,
  texts: readonly string[],
): FramePage {
  const side = LABELS + layout.side + EDGE
  switch (shape) {
    case 'board':
      return { width: side, height: side, set: (board) => board }
    case 'page': {
      const width = layout.side
      const font = fittingFont(texts, PAGE_FONTS, width, side * MOST_BELOW)
      const lines = Math.max(...texts.map((text) => linesOf(text, font, width).length))
      const at = { x: LABELS, y: side + 4, width, font }
      return {
        width: side,
        height: side + 4 + lines * font * LEADING + MARGIN,
        set: (board, text) => board + drawCaption(theme, text, at),
      }
    }
    case 'wide': {
      const height = side + 2 * MARGIN
      const width = (height * 16) / 9
      const x = MARGIN + side + 2 * MARGIN
      const room = width - x - 2 * MARGIN
      const heading = linesOf(title, 36, room)
      const y = 2.5 * MARGIN + heading.length * 36 * LEADING
      const font = fittingFont(texts, WIDE_FONTS, room, height - y - 2 * MARGIN)
      const head = element(
        'g',
        { 'font-size': 36, 'font-weight': 700, fill: theme.ink },
        ...heading.map((line, i) =>
          element('text', { x, y: 2 * MARGIN + (i + 0.7) * 36 * LEADING }, escapeText(line)),
        ),
      )
      return {
        width,
        height,
        set: (board, text) =>
          element('g', { transform: `translate(${MARGIN} ${MARGIN})` }, board) +
          head +
          drawCaption(theme, text, { x, y, width: room, font }),
      }
    }
    default:
      return shape satisfies never
  }
}
