/**
 * Where a picture is shown. `print` does without colour and spends little ink; every theme keeps text at 4.5:1 and
 * marks at 3:1 against what they stand on (WCAG 2.2), which a test computes from drawn pictures.
 */
export const THEMES = ['light', 'dark', 'print'] as const
/** Colours of pictures. */
export type ThemeName = (typeof THEMES)[number]

/** Families of colour; what tells roles apart is shape, weight and hatching, colour only helps. */
export type Hue = 'neutral' | 'teal' | 'blue' | 'ochre' | 'plum' | 'rust' | 'brick' | 'moss'

export interface Paint {
  /** Strokes, digits and filled marks. */
  readonly ink: string
  /** The ground of a cell. */
  readonly tint: string
}

export interface Theme {
  readonly paper: string
  readonly ink: string
  /** Labels, and digits and pencil marks that the step does not use. */
  readonly faint: string
  /** Thin grid lines. */
  readonly rule: string
  /** Digits found on the way. */
  readonly found: string
  readonly hues: Readonly<Record<Hue, Paint>>
}

const LIGHT: Theme = {
  paper: '#ffffff',
  ink: '#1b202c',
  faint: '#5d6676',
  rule: '#7b8291',
  found: '#2a4785',
  hues: {
    neutral: { ink: '#1b202c', tint: '#ffffff' },
    teal: { ink: '#0f5f54', tint: '#e2f2ee' },
    blue: { ink: '#33469a', tint: '#e6eaf8' },
    ochre: { ink: '#7a4e06', tint: '#f8efda' },
    plum: { ink: '#6b3276', tint: '#f3e8f5' },
    rust: { ink: '#983d13', tint: '#fae8de' },
    brick: { ink: '#a31717', tint: '#fce8e6' },
    moss: { ink: '#28561a', tint: '#e7f2df' },
  },
}

const DARK: Theme = {
  paper: '#14181f',
  ink: '#eef1f6',
  faint: '#a3adbd',
  rule: '#717b8b',
  found: '#a9c4ff',
  hues: {
    neutral: { ink: '#eef1f6', tint: '#14181f' },
    teal: { ink: '#74d6c4', tint: '#16302e' },
    blue: { ink: '#a4b6ff', tint: '#202a4a' },
    ochre: { ink: '#eec06a', tint: '#362b17' },
    plum: { ink: '#e0a6ec', tint: '#35213b' },
    rust: { ink: '#ffa478', tint: '#3b251a' },
    brick: { ink: '#ff9a92', tint: '#3f1f1f' },
    moss: { ink: '#a3d98a', tint: '#20321a' },
  },
}

const BLACK = { ink: '#000000', tint: '#f1f1f1' }
const PRINT: Theme = {
  paper: '#ffffff',
  ink: '#000000',
  faint: '#5c5c5c',
  rule: '#7d7d7d',
  found: '#000000',
  hues: {
    neutral: { ink: '#000000', tint: '#ffffff' },
    teal: BLACK,
    blue: BLACK,
    ochre: BLACK,
    plum: BLACK,
    rust: BLACK,
    brick: BLACK,
    moss: BLACK,
  },
}

const TABLE: Readonly<Record<ThemeName, Theme>> = { light: LIGHT, dark: DARK, print: PRINT }

export function themeOf(name: ThemeName): Theme {
  return TABLE[name]
}
