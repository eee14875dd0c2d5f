import type { Geometry } from '../../grid/geometry.js'
import type { CellPicture, CellScores } from '../digits/digit-reader.js'
import type { FigureLook } from './figure-look.js'
import { figureShape, likeness } from './likeness.js'
import { partPrintAndHand } from './print-and-hand.js'
import { secondInk } from './second-ink.js'
import { setInkApart } from './set-apart.js'
import { weighByTypeface } from './typeface.js'
import { asPrint, withPrinted } from './with-printed.js'
import { isWrittenIn, writtenAlone } from './written-page.js'

/** The reader takes a figure for no print from here on … */
const NOT_PRINT = 0.5
/** … and for surely none from here on. */
const SURELY_NOT_PRINT = 0.9
/** … and for print with hardly a doubt up to here. */
const SURELY_PRINT = 0.1
/** Rather no figure than one. */
const NO_FIGURE = 0.5
/** So many sure figures show how tall the print is. */
const LEAST_SURE = 5
/** A figure below this share of the print's height is a pencil mark, or a piece of a figure. */
const SMALL = 0.65
const SMALL_AMONG_OTHERS = 0.8
/** Nats that being that small counts against print … */
const SMALL_COSTS = 8
/** … where the reader takes it for print, or where it is one of so many pencil marks on the page. */
const LEAST_MARKS = 3
/** … and ink for handwriting or pencil marks. */
const HANDWRITTEN = 0.5
/**
 * The page's log odds are worth this share in nats. Traits hang together (a thick pen is a dark one), so taken as
 * independent they claim too much: on drawn pages of training typefaces single figures on the wrong side reached 7.4.
 */
const ODDS_WORTH = 1 / 3
/** Doubt that remains of a figure read as print, on a page that has been written in, which could not be compared. */
const NOT_COMPARED = 0.5

/**
 * Holds the figures of a page against each other: what was filled in by hand, or on a screen in a second colour,
 * differs from the print in ink, size, place, stroke and shape, where the reader, who sees one cell at a time, may not
 * know.
 *
 * @param pictures cell -> its picture, as the reader saw it
 * @param looks cell -> how its figure looks
 * @param cellPixels side of a cell on the picture
 */
export function compareFigures(
  geometry: Geometry,
  scores: readonly CellScores[],
  pictures: readonly CellPicture[],
  looks: readonly (FigureLook | undefined)[],
  cellPixels: number,
): readonly CellScores[] {
  const compared = comparable(looks)
  const single = scores.map(asPrint)
  const none = (cell: number) => single[cell]!.digits[0]!
  const tall = printHeight(compared, none)
  const isSmall = (cell: number) => compared[cell]!.height < SMALL * tall
  const tintsOf = (shown: (cell: number) => boolean) =>
    compared.map((look, cell) => (look && shown(cell) ? look.tint : undefined))
  if (!isWrittenIn(scores)) {
    // what looks written is print that came out badly, and is doubted
    const alone = weighByTypeface(scores, pictures).map((score) => ({
      ...score,
      handwritten: writtenAlone(score),
    }))
    const sized = withoutMarks(alone, compared, isSmall)
    const ink = secondInk(tintsOf((cell) => sized[cell]!.digits[0]! < NOT_PRINT))
    return ink ? doubtUncompared(setInkApart(geometry, sized, ink), compared) : sized
  }
  const figures = compared.flatMap((look, cell) =>
    look && !isNoFigure(look, scores[cell]!, none(cell), tall) ? [cell] : [],
  )
  const written = figures.filter(
    (cell) =>
      none(cell) > NOT_PRINT &&
      scores[cell]!.handwritten > HANDWRITTEN &&
      compared[cell]!.ink.others === 0 &&
      !isSmall(cell),
  )
  const full = new Set(figures.filter((cell) => !isSmall(cell)))
  const ink = secondInk(tintsOf((cell) => full.has(cell)))
  // where all that looks written stands in a second ink, the ink says it better than any shape
  if (ink && !ink.faint && written.every((cell) => ink.cells.includes(cell))) {
    const apart = setInkApart(geometry, withoutMarks(single, compared, isSmall), ink)
    if (ink.cells.every((cell) => apart[cell]!.digits[0]! > NOT_PRINT)) {
      return doubtUncompared(apart, compared)
    }
  }
  const { odds } = partPrintAndHand(
    figures.map((cell) => {
      const { height, x, y, stroke, darkness, tint, lean } = compared[cell]!
      return {
        traits: [height, x, y, stroke, darkness, tint.redOverBlue, tint.greenOverRest, lean],
        printed: 1 - none(cell),
        small: isSmall(cell),
      }
    }),
    likenessOf(figures, scores, compared),
    cellPixels,
  )
  const at = new Map(figures.map((cell, i) => [cell, odds[i]!]))
  const parted = single.map((score, cell) => {
    const own = at.get(cell)
    return own === undefined ? score : withPrinted(score, 1 / (1 + Math.exp(-ODDS_WORTH * own)))
  })
  const seconds = new Set(ink && !ink.faint ? ink.cells : [])
  // what stands in a second ink is doubted as a given, whatever else was decided
  const suspected = parted.map((score, cell) => (seconds.has(cell) ? { ...score, handwritten: 1 } : score))
  return doubtUncompared(suspected, compared)
}

/** On a page that has been written in, a figure read as print that could not be compared may be handwriting. */
function doubtUncompared(
  scores: readonly CellScores[],
  looks: readonly (FigureLook | undefined)[],
): readonly CellScores[] {
  return scores.map((score, cell) =>
    !looks[cell] && score.digits[0]! < NOT_PRINT
      ? { ...score, handwritten: Math.max(score.handwritten, NOT_COMPARED) }
      : score,
  )
}

/** Pencil marks that the reader took for print, or was in doubt about: their size tells. */
function withoutMarks(
  scores: readonly CellScores[],
  looks: readonly (FigureLook | undefined)[],
  isSmall: (cell: number) => boolean,
): readonly CellScores[] {
  const none = (cell: number) => scores[cell]!.digits[0]!
  const small = looks.flatMap((look, cell) => (look && isSmall(cell) ? [cell] : []))
  const marks = small.filter((cell) => none(cell) > NOT_PRINT && scores[cell]!.handwritten > HANDWRITTEN)
  const doubted = new Set(small.filter((cell) => none(cell) < NOT_PRINT))
  if (small.length < LEAST_MARKS) {
    // rather a figure of which a part did not come out
    return scores.map((score, cell) =>
      doubted.has(cell) ? { ...score, handwritten: Math.max(score.handwritten, NOT_COMPARED) } : score,
    )
  }
  if (marks.length >= LEAST_MARKS) for (const cell of marks) doubted.add(cell)
  return scores.map((score, cell) => (doubted.has(cell) ? lessLikelyPrint(score, SMALL_COSTS) : score))
}

/** Looks of figures that were cut out cleanly and are dark on light (or light on dark) as most of the page. */
function comparable(looks: readonly (FigureLook | undefined)[]): readonly (FigureLook | undefined)[] {
  const all = looks.filter((look) => look !== undefined)
  const mostLight = 2 * all.filter(({ light }) => light).length > all.length
  return looks.map((look) =>
    look && look.ink.sidesReached <= 1 && look.light === mostLight ? look : undefined,
  )
}

/** How tall the page's print is: the middle of the sure figures. */
function printHeight(looks: readonly (FigureLook | undefined)[], none: (cell: number) => number): number {
  const heights = looks.flatMap((look, cell) => (look && none(cell) < SURELY_PRINT ? [look.height] : []))
  if (heights.length < LEAST_SURE) return 0
  return heights.sort((a, b) => a - b)[heights.length >> 1]!
}

/** What the reader takes for no print and what is not a hand's full figure either: pencil marks, dirt. */
function isNoFigure(look: FigureLook, { digits }: CellScores, none: number, tall: number): boolean {
  if (none <= SURELY_NOT_PRINT) return false
  const { others } = look.ink
  return (
    digits[0]! > NO_FIGURE ||
    look.height < SMALL * tall ||
    others >= 2 ||
    (others === 1 && look.height < SMALL_AMONG_OTHERS * tall)
  )
}

function lessLikelyPrint(score: CellScores, nats: number): CellScores {
  const none = Math.max(score.digits[0]!, 1e-6)
  const odds = Math.log((1 - none) / none) - nats
  return withPrinted(score, 1 / (1 + Math.exp(-odds)))
}

/** Likeness of two of the figures, worked out once, if the reader sees the same digit in both. */
function likenessOf(
  figures: readonly number[],
  scores: readonly CellScores[],
  looks: readonly (FigureLook | undefined)[],
): (one: number, other: number) => number | undefined {
  const shapes = figures.map((cell) => figureShape(looks[cell]!.ink))
  const digits = figures.map((cell) => likeliestDigit(scores[cell]!))
  const known = new Map<number, number>()
  return (one, other) => {
    if (digits[one] !== digits[other]) return undefined
    const [a, b] = one < other ? [one, other] : [other, one]
    const key = a * figures.length + b
    let value = known.get(key)
    if (value === undefined) {
      value = likeness(shapes[a]!, shapes[b]!)
      known.set(key, value)
    }
    return value
  }
}

function likeliestDigit({ digits }: CellScores): number {
  let best = 1
  for (let digit = 2; digit < digits.length; digit++) if (digits[digit]! > digits[best]!) best = digit
  return best
}
