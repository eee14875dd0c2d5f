import type { Role } from './roles.js'

/** How a role looks. Every look differs from the others that can meet it in one step by more than its colour. */
export interface Look {
  readonly ink: string
  readonly tint: string
  /** Lines over a cell: their directions. */
  readonly hatch: readonly Hatch[]
  /** A frame inside the cell: how many lines. */
  readonly frames: 0 | 1 | 2
  /** The mark around a pencil mark. */
  readonly mark: Mark
  /** Is the mark filled with ink, the digit white on it? */
  readonly filled: boolean
  readonly weight: number
  /** Outline of a house. */
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
  | 'none'

export const INK = '#1d2230'
export const PENCIL = '#454d5e'
export const FOUND = '#2c4a86'
export const PAPER = '#ffffff'
export const RULE = '#8b92a1'

const PLAIN: Look = {
  ink: INK,
  tint: PAPER,
  hatch: [],
  frames: 0,
  mark: 'circle',
  filled: false,
  weight: 1.6,
  dash: undefined,
}

const TEAL = { ink: '#17695c', tint: '#dcefeb' }
const BLUE = { ink: '#3c4fa0', tint: '#e0e5f6' }
const OCHRE = { ink: '#8a5a0b', tint: '#f6ead0' }
const PLUM = { ink: '#74397f', tint: '#efe2f2' }
const RUST = { ink: '#a8471a', tint: '#f9e2d6' }
const BRICK = { ink: '#a81c1c', tint: '#fbe3e1' }
const MOSS = { ink: '#2d5e1e', tint: '#e2efd9' }

export const LOOKS: Readonly<Record<Role, Look>> = {
  placed: { ...PLAIN, ...MOSS, mark: 'square', filled: true },
  removed: { ...PLAIN, ...BRICK, mark: 'slash', weight: 2.2 },
  house: { ...PLAIN, ...TEAL, weight: 4 },
  target: { ...PLAIN, ...PLUM, weight: 3, dash: '9 6' },
  blocker: { ...PLAIN, ...TEAL, weight: 2.2 },
  pattern: { ...PLAIN, ...TEAL, hatch: ['rising'] },
  pivot: { ...PLAIN, ...BLUE, hatch: ['rising'], frames: 2 },
  pincer: { ...PLAIN, ...OCHRE, hatch: ['falling'], frames: 1 },
  base: { ...PLAIN, ...TEAL, weight: 4 },
  cover: { ...PLAIN, ...PLUM, weight: 3, dash: '9 6' },
  fin: { ...PLAIN, ...RUST, hatch: ['upright'], mark: 'diamond', weight: 2.2 },
  end: { ...PLAIN, ...BLUE, mark: 'double-circle' },
  link: { ...PLAIN, ...TEAL },
  'linking-set': { ...PLAIN, ...TEAL, hatch: ['level'] },
  'colour-one': { ...PLAIN, ...BLUE, filled: true },
  'colour-other': { ...PLAIN, ...OCHRE, mark: 'square', weight: 2 },
  'second-one': { ...PLAIN, ...PLUM, mark: 'diamond', filled: true },
  'second-other': { ...PLAIN, ...TEAL, mark: 'octagon', weight: 2 },
  'set-one': { ...PLAIN, ...TEAL, hatch: ['level'] },
  'set-two': { ...PLAIN, ...PLUM, hatch: ['upright'], mark: 'square' },
  'set-more': { ...PLAIN, ...OCHRE, hatch: ['rising', 'falling'], mark: 'octagon' },
  stem: { ...PLAIN, ...BLUE, hatch: ['rising'], frames: 2 },
  'to-fill': { ...PLAIN, ...BLUE, hatch: ['rising'], frames: 2 },
  'base-cell': { ...PLAIN, ...BLUE, hatch: ['rising'], frames: 2 },
  'target-cell': { ...PLAIN, ...OCHRE, hatch: ['falling'], frames: 1 },
  exchange: { ...PLAIN, ...BLUE, hatch: ['dots'], mark: 'square' },
  extra: { ...PLAIN, ...RUST, mark: 'octagon', weight: 2.2 },
  split: { ...PLAIN, ...BLUE, hatch: ['rising'], frames: 2 },
  case: { ...PLAIN, ...OCHRE, mark: 'dashed-circle', weight: 1.8 },
  'forced-one': { ...PLAIN, ...TEAL },
  'forced-two': { ...PLAIN, ...PLUM, mark: 'square' },
  'forced-more': { ...PLAIN, ...BLUE, mark: 'octagon' },
}
