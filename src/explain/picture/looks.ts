import type { Role } from './roles.js'
import type { Hue, Paint, Theme } from './theme.js'

/** How a role looks. Every look differs from the others that can meet it in one step by more than its colour. */
export interface Look {
  readonly hue: Hue
  /** Lines over a cell: their directions. */
  readonly hatch: readonly Hatch[]
  /** A frame inside the cell: how many lines. */
  readonly frames: 0 | 1 | 2
  /** The mark around a pencil mark. */
  readonly mark: Mark
  /** Is the mark filled with ink, the digit in the colour of paper on it? */
  readonly filled: boolean
  readonly weight: number
  /** Outline of a house or of cells that belong together. */
  readonly dash: string | undefined
}

export type Hatch = 'rising' | 'falling' | 'level' | 'upright' | 'dots'
export type Mark =
  | 'circle'
  | 'double-circle'
  | 'square'
  | 'diamond'
  | 'octagon'
  | 'dashed-circle'
  | 'slash'
  | 'bold'

const PLAIN: Look = {
  hue: 'neutral',
  hatch: [],
  frames: 0,
  mark: 'circle',
  filled: false,
  weight: 1.6,
  dash: undefined,
}

export const LOOKS: Readonly<Record<Role, Look>> = {
  placed: { ...PLAIN, hue: 'moss', mark: 'square', filled: true },
  removed: { ...PLAIN, hue: 'brick', mark: 'slash', weight: 2.4 },
  house: { ...PLAIN, hue: 'teal', weight: 3 },
  target: { ...PLAIN, hue: 'plum', weight: 2.4, dash: '9 6' },
  blocker: { ...PLAIN, hue: 'teal', weight: 2.4 },
  pattern: { ...PLAIN, hue: 'teal', hatch: ['rising'] },
  pivot: { ...PLAIN, hue: 'blue', hatch: ['rising'], frames: 2 },
  pincer: { ...PLAIN, hue: 'ochre', hatch: ['falling'], frames: 1 },
  shared: { ...PLAIN, hue: 'ochre', filled: true },
  base: { ...PLAIN, hue: 'teal', weight: 3 },
  cover: { ...PLAIN, hue: 'plum', weight: 2.4, dash: '9 6' },
  fin: { ...PLAIN, hue: 'rust', hatch: ['upright'], mark: 'diamond', weight: 2.2 },
  start: { ...PLAIN, hue: 'blue', mark: 'double-circle' },
  end: { ...PLAIN, hue: 'blue', mark: 'double-circle', filled: true },
  link: { ...PLAIN, hue: 'teal' },
  'link-true': { ...PLAIN, hue: 'teal', filled: true },
  'linking-set': { ...PLAIN, hue: 'teal', hatch: ['level'], dash: '2 4' },
  'colour-one': { ...PLAIN, hue: 'blue', filled: true },
  'colour-other': { ...PLAIN, hue: 'ochre', mark: 'square', weight: 2 },
  'second-one': { ...PLAIN, hue: 'plum', mark: 'diamond', filled: true },
  'second-other': { ...PLAIN, hue: 'teal', mark: 'octagon', weight: 2 },
  'set-one': { ...PLAIN, hue: 'teal', hatch: ['level'], mark: 'bold', weight: 2.2 },
  'set-two': { ...PLAIN, hue: 'plum', hatch: ['upright'], mark: 'bold', weight: 2.2, dash: '8 4' },
  'set-more': { ...PLAIN, hue: 'ochre', hatch: ['falling'], mark: 'bold', weight: 2.2, dash: '2.5 4' },
  join: { ...PLAIN, hue: 'blue', mark: 'square', weight: 2 },
  keeps: { ...PLAIN, hue: 'rust', filled: true },
  stem: { ...PLAIN, hue: 'blue', hatch: ['rising'], frames: 2 },
  'to-fill': { ...PLAIN, hue: 'blue', hatch: ['rising'], frames: 2 },
  'base-cell': { ...PLAIN, hue: 'blue', hatch: ['rising'], frames: 2 },
  'target-cell': { ...PLAIN, hue: 'ochre', hatch: ['falling'], frames: 1 },
  exchange: { ...PLAIN, hue: 'blue', hatch: ['dots'], mark: 'square' },
  extra: { ...PLAIN, hue: 'rust', mark: 'octagon', weight: 2.2 },
  split: { ...PLAIN, hue: 'blue', hatch: ['rising'], frames: 2 },
  supposed: { ...PLAIN, hue: 'ochre', mark: 'double-circle' },
  follows: { ...PLAIN, hue: 'teal', mark: 'diamond', weight: 2 },
  case: { ...PLAIN, hue: 'ochre', mark: 'dashed-circle', weight: 1.8 },
  'forced-one': { ...PLAIN, hue: 'teal' },
  'forced-two': { ...PLAIN, hue: 'plum', mark: 'square' },
  'forced-more': { ...PLAIN, hue: 'blue', mark: 'octagon' },
  failed: { ...PLAIN, hue: 'brick', weight: 2.6, dash: '3 4' },
}

export function paintOf(theme: Theme, look: Look): Paint {
  return theme.hues[look.hue]
}
