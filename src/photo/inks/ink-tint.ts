/** Red, green and blue, 0 to 255. */
export type Rgb = readonly [number, number, number]

/**
 * The colour of a figure's ink, free of how dark it is: how unevenly it takes red, green and blue from the paper's
 * light (or adds them to a dark ground). Black, grey and white are (0, 0) under white light; blue ink lies to the
 * right, red ink up and to the left.
 */
export interface InkTint {
  readonly redOverBlue: number
  readonly greenOverRest: number
  /** The figure's colour on the picture. */
  readonly figure: Rgb
  /** The colour of the ground that it stands on: on another ground the same ink looks another colour. */
  readonly ground: Rgb
  /** Light ink on a dark ground? */
  readonly light: boolean
}

const LEAST_STRENGTH = 0.05

export function inkTint(figure: Rgb, ground: Rgb, light: boolean): InkTint {
  const [red, green, blue] = taken({ figure, ground, light })
  const all = strength([red, green, blue])
  return {
    redOverBlue: (red - blue) / all,
    greenOverRest: (2 * green - red - blue) / all,
    figure,
    ground,
    light,
  }
}

/** The share of each colour's light that a figure takes from its ground, or adds to it. */
export function taken({ figure, ground, light }: Pick<InkTint, 'figure' | 'ground' | 'light'>): Rgb {
  const share = (channel: 0 | 1 | 2) =>
    light
      ? Math.max(0, figure[channel] - ground[channel]) / 255
      : Math.max(0, 1 - figure[channel] / Math.max(1, ground[channel]))
  return [share(0), share(1), share(2)]
}

/** What is taken of all colours together, and never so little that noise would be a colour. */
export function strength([red, green, blue]: Rgb): number {
  return Math.max(LEAST_STRENGTH, red + green + blue)
}

/**
 * How far a figure is from looking as another one's ink would on its ground, as a share of what that one differs from
 * its own. On a picture a stroke's colour lies between the ink's and the ground's, as soft as the picture is: if the
 * ground changes, the stroke changes by a part of that, the same part in all colours. The part is small where the
 * stroke differs much from its ground.
 */
export function farFromInkOf(other: InkTint, { figure, ground }: InkTint): number {
  const [changed, change, contrast] = [
    minus(figure, other.figure),
    minus(ground, other.ground),
    minus(other.figure, other.ground),
  ]
  const part = Math.min(
    mostOfGround(other),
    Math.max(0, dot(changed, change) / Math.max(1, dot(change, change))),
  )
  const left = minus(changed, [part * change[0], part * change[1], part * change[2]])
  return Math.sqrt(dot(left, left) / Math.max(1, dot(contrast, contrast)))
}

/** How much of a stroke's colour can be its ground's: the rest is ink, which can be no more than black or white. */
function mostOfGround({ figure, ground, light }: InkTint): number {
  return Math.min(
    ...figure.map((level, c) =>
      light ? (255 - level) / Math.max(1, 255 - ground[c]!) : level / Math.max(1, ground[c]!),
    ),
  )
}

/** How far two grounds are from each other: the largest difference of a colour, as a share. */
export function groundsApart(one: Rgb, other: Rgb): number {
  return Math.max(...one.map((level, c) => Math.abs(level - other[c]!) / Math.max(1, other[c]!)))
}

function minus(a: Rgb, b: Rgb): Rgb {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

function dot(a: Rgb, b: Rgb): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
