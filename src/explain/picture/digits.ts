import { CELL, type Spot } from './layout.js'
import { LOOKS, paintOf } from './looks.js'
import type { Theme } from './theme.js'
import { element } from './xml.js'

export const DIGIT_FONT = CELL * 0.58
/** A digit of two characters has to make do with the room of one. */
const fontOf = (text: string) => (text.length > 1 ? 0.8 * DIGIT_FONT : DIGIT_FONT)

export interface DigitManner {
  readonly given: boolean
  /** The step does not use it. */
  readonly faint: boolean
  /** What it stands on. */
  readonly ground: string
}

/** A digit that stands on the board: a given is bold and upright, one found light and slanted. */
export function drawDigit(theme: Theme, { x, y }: Spot, text: string, manner: DigitManner): string {
  return element(
    'text',
    {
      x,
      y,
      dy: '.36em',
      'font-size': fontOf(text),
      'font-weight': manner.given ? 700 : 400,
      'font-style': manner.given ? undefined : 'italic',
      fill: manner.faint ? theme.faint : manner.given ? theme.ink : theme.found,
      // keeps it clear of hatching
      ...(manner.ground === theme.paper
        ? {}
        : { stroke: manner.ground, 'stroke-width': 4, 'paint-order': 'stroke' }),
      'text-anchor': 'middle',
    },
    text,
  )
}

/** The ring around a digit that blocks. */
export function drawBlocker(theme: Theme, { x, y }: Spot): string {
  const { ink, tint } = paintOf(theme, LOOKS.blocker)
  return element('circle', {
    cx: x,
    cy: y,
    r: CELL * 0.39,
    fill: tint,
    stroke: ink,
    'stroke-width': LOOKS.blocker.weight,
  })
}

/** The digit that a single places: large, in the colour of paper on ink. */
export function drawPlaced(theme: Theme, { x, y }: Spot, text: string): string {
  const half = CELL * 0.37
  return (
    element('rect', {
      x: x - half,
      y: y - half,
      width: 2 * half,
      height: 2 * half,
      rx: 8,
      fill: paintOf(theme, LOOKS.placed).ink,
    }) +
    element(
      'text',
      {
        x,
        y,
        dy: '.36em',
        'font-size': fontOf(text),
        'font-weight': 700,
        fill: theme.paper,
        'text-anchor': 'middle',
      },
      text,
    )
  )
}
