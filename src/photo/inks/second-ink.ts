import { median } from '../median.js'
import { farFromInkOf, groundsApart, type InkTint, type Rgb } from './ink-tint.js'
import { partInTwo } from './print-and-hand.js'

/**
 * The inks' middles differ at least this much in tint, or this much where no print comes near (pale colours on a dark
 * screen) …
 */
const LEAST_APART = 0.12
const LEAST_APART_CLEAN = 0.05
const CLEAN_TIMES = 5
/** … and each figure of the second ink lies this many times as far from the print's middle as any printed one. */
const LEAST_TIMES = 1.5
/** … to be surely of a second one, this many times. */
const SURE_TIMES = 2.5
/** Tints of one ink differ this much on the cleanest picture. */
const LEAST_REACH = 0.01
/** A tint nearer to black than this is black. */
const NEARLY_BLACK = 0.12
/**
 * Few odd figures may owe their colour to a stain, a shadow's edge or noise (and most puzzles stay sound without one or
 * two givens), unless they are as far off as colours on a screen.
 */
const FEW = 4
const FEW_APART = 0.15
const FEW_TIMES = 12
/** Ground that differs from the print's by this share in a colour is another. */
const OTHER_GROUND = 0.15
/**
 * A figure that is no farther than this from the print's ink, as it would look on the figure's ground, is print, if the
 * ground differs by this share from that of printed figures nearby. (On drawn photographs of coloured boxes hardly a
 * figure was farther, on screens with entries of another colour one in twenty was nearer at most.)
 */
const ALIKE = 0.15
/**
 * Where there surely is a second ink, so near. (On 260 drawn screens, of 361 printed figures one was farther; of 770
 * entries none was nearer than 0.25, but beside a thin pale figure one in some thousand comes as near as 0.13.)
 */
const ALIKE_BESIDE_SECOND = 0.1
const NEARBY_GROUNDS_APART = 0.05
const NEARBY = 4
/** When so few of a seeming second ink are left, they are rather print badly seen, if not as far as this from it. */
const FEW_LEFT = 0.25
const CLEARLY_OTHER = 0.18
/** Of many figures, one in so many may have caught a colour that is not its own. */
const STRAYS = 20

export interface SecondInk {
  readonly cells: readonly number[]
  /**
   * Too near, too few for how near they are, or all on a ground of their own: it is not sure that somebody filled them
   * in.
   */
  readonly faint: boolean
}

/**
 * Cells whose figures stand in a second ink: what somebody filled in, where the page was printed in one. The print is
 * the black ink, or the commoner one when neither or both are black.
 *
 * @param tints cell -> tint of its figure; undefined for cells without one
 * @returns undefined when all figures are of one ink
 */
export function secondInk(tints: readonly (InkTint | undefined)[]): SecondInk | undefined {
  const cells = tints.flatMap((tint, cell) => (tint ? [cell] : []))
  const places = cells.map((cell) => placeOf(tints[cell]!))
  const parted = partByBlack(places) ?? partInTwo(places)
  if (!parted) return undefined
  const inkOf = (kind: boolean) =>
    new Ink(
      cells.filter((_, i) => parted[i] === kind),
      tints,
    )
  const [print, other] = inOrder(inkOf(true), inkOf(false))
  const fromPrinted = new PrintOnOtherGround(tints, print.cells)
  const left = fromPrinted.without(other.cells, ALIKE)
  if (left.length === 0) return undefined
  const second = new Ink(left, tints)
  const fromPrint = ([x, y]: Place) => Math.hypot(x - print.middle[0], y - print.middle[1])
  const apart = fromPrint(second.middle)
  const reach = Math.max(LEAST_REACH, farthest(print.places.map(fromPrint)))
  const times = -farthest(second.places.map((place) => -fromPrint(place))) / reach
  const least = times < CLEAN_TIMES ? LEAST_APART : LEAST_APART_CLEAN
  if (apart < least || times < LEAST_TIMES) return undefined
  const few = second.cells.length < FEW && (apart < FEW_APART || times < FEW_TIMES)
  const elsewhere = second.cells.every(
    (cell) => groundsApart(tints[cell]!.ground, print.ground) > OTHER_GROUND,
  )
  if (times < SURE_TIMES || few || elsewhere) return { cells: second.cells, faint: true }
  return { cells: fromPrinted.without(other.cells, ALIKE_BESIDE_SECOND), faint: false }
}

type Place = readonly [number, number]

/** Figures that seem to be of one ink. */
class Ink {
  readonly places: readonly Place[]
  readonly middle: Place
  readonly ground: Rgb

  constructor(
    readonly cells: readonly number[],
    tints: readonly (InkTint | undefined)[],
  ) {
    const own = cells.map((cell) => tints[cell]!)
    this.places = own.map(placeOf)
    this.middle = [median(this.places.map(([x]) => x)), median(this.places.map(([, y]) => y))]
    const ground = (channel: 0 | 1 | 2) => median(own.map((tint) => tint.ground[channel]))
    this.ground = [ground(0), ground(1), ground(2)]
  }
}

function placeOf({ redOverBlue, greenOverRest }: InkTint): Place {
  return [redOverBlue, greenOverRest]
}

/** Tells what of a seeming second ink is the print's on other ground. */
class PrintOnOtherGround {
  private readonly side: number

  constructor(
    private readonly tints: readonly (InkTint | undefined)[],
    private readonly printed: readonly number[],
  ) {
    this.side = Math.round(Math.sqrt(tints.length))
  }

  /** Those that are not, when what is nearer than `alike` is. */
  without(cells: readonly number[], alike: number): number[] {
    const left = cells.filter((cell) => this.away(cell) >= alike)
    if (left.length > FEW_LEFT * cells.length) return left
    return left.filter((cell) =>
      this.near(cell).every((other) => farFromInkOf(other, this.tints[cell]!) > CLEARLY_OTHER),
    )
  }

  /** How far a figure is from the print's ink as nearby figures on other ground show it; infinite without any. */
  private away(cell: number): number {
    const tint = this.tints[cell]!
    return Math.min(
      ...this.near(cell)
        .filter((other) => groundsApart(tint.ground, other.ground) > NEARBY_GROUNDS_APART)
        .map((other) => farFromInkOf(other, tint)),
    )
  }

  private near(cell: number): InkTint[] {
    const away = (other: number) =>
      Math.hypot(
        Math.floor(cell / this.side) - Math.floor(other / this.side),
        (cell % this.side) - (other % this.side),
      )
    return [...this.printed]
      .sort((a, b) => away(a) - away(b))
      .slice(0, NEARBY)
      .map((other) => this.tints[other]!)
  }
}

const fromBlack = ([x, y]: Place) => Math.hypot(x, y)

/** The print first: the black ink or, when neither or both are black, the commoner one. */
function inOrder(one: Ink, other: Ink): [Ink, Ink] {
  const black = ({ middle }: Ink) => fromBlack(middle) < NEARLY_BLACK
  const oneIsPrint = black(one) === black(other) ? one.cells.length >= other.cells.length : black(one)
  return oneIsPrint ? [one, other] : [other, one]
}

/**
 * Black figures and coloured ones, parted where the way from black has its widest gap, measured as a ratio: a coloured
 * ink may look like several where cells are tinted, black does not. Undefined without black figures.
 */
function partByBlack(places: readonly Place[]): boolean[] | undefined {
  const ways = places.map(fromBlack)
  const sorted = [...ways].sort((a, b) => a - b)
  let widest = 1
  let edge: number | undefined
  for (let i = 1; i < sorted.length && sorted[i - 1]! < NEARLY_BLACK; i++) {
    const ratio = Math.max(sorted[i]!, LEAST_REACH) / Math.max(sorted[i - 1]!, LEAST_REACH)
    if (sorted[i]! < LEAST_APART_CLEAN || ratio <= widest) continue
    widest = ratio
    edge = sorted[i]!
  }
  return edge === undefined ? undefined : ways.map((way) => way < edge)
}

/** The largest value, strays left out. */
function farthest(values: readonly number[]): number {
  return [...values].sort((a, b) => b - a)[Math.floor(values.length / STRAYS)]!
}
