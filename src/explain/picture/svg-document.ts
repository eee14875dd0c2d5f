import type { Theme } from './theme.js'
import { element, escapeText } from './xml.js'

export const FONT_FAMILY = "'DejaVu Sans', Verdana, Helvetica, sans-serif"

export interface SvgDocument {
  readonly theme: Theme
  readonly width: number
  readonly height: number
  /** In pixels; left out, the picture scales to its place. */
  readonly shownWidth: number | undefined
  readonly language: string
  readonly title: string
  /** For readers that cannot see it. */
  readonly description: string
  readonly content: string
}

/** A document of its own, without ids or styles, so that any number of them can stand in one page. */
export function svgDocument(document: SvgDocument): string {
  const { width, height, shownWidth, title, theme } = document
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${Math.round(width * 100) / 100} ${Math.round(height * 100) / 100}`,
      width: shownWidth,
      height: shownWidth === undefined ? undefined : (shownWidth * height) / width,
      role: 'img',
      'aria-label': title,
      'xml:lang': document.language,
      'font-family': FONT_FAMILY,
    },
    element('title', {}, escapeText(title)),
    element('desc', {}, escapeText(document.description)),
    element('rect', { x: 0, y: 0, width, height, fill: theme.paper }),
    document.content,
  )
}
