import type { Theme } from './theme.js'
import { element, escapeText } from './xml.js'

/** Width of a character on the average, in parts of the font's size; a little more than it takes. */
const AVERAGE = 0.56

/** A text in lines that fit a width. */
export function linesOf(text: string, font: number, width: number): string[] {
  const most = Math.max(8, Math.floor(width / (AVERAGE * font)))
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1]
    if (last === undefined || last.length + 1 + word.length > most) lines.push(word)
    else lines[lines.length - 1] = `${last} ${word}`
  }
  return lines
}

export const LEADING = 1.36

/** The largest of these fonts in which all of the texts fit a box, or the smallest. */
export function fittingFont(
  texts: readonly string[],
  fonts: readonly number[],
  width: number,
  height: number,
): number {
  const fits = (font: number) =>
    texts.every((text) => linesOf(text, font, width).length * font * LEADING <= height)
  return fonts.find(fits) ?? fonts[fonts.length - 1]!
}

/** A text set in lines from a corner on. */
export function drawCaption(
  theme: Theme,
  text: string,
  { x, y, width, font }: { x: number; y: number; width: number; font: number },
): string {
  return element(
    'g',
    { 'data-part': 'caption', 'font-size': font, fill: theme.ink },
    ...linesOf(text, font, width).map((line, i) =>
      element('text', { x, y: y + (i + 0.8) * font * LEADING }, escapeText(line)),
    ),
  )
}
