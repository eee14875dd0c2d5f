import { CELL_MARGIN, CELL_SIZE } from '../digits/digit-reader.js'
import { LeastSquares } from '../find/least-squares.js'
import { median } from '../median.js'
import { GreyLevels } from '../raster/grey-levels.js'
import type { PaperPlane, Patch } from './cell-patch.js'

/** First and last pixel, along a side, of the part of a cell picture that no rule reaches. */
const INNER_FIRST = Math.round(((CELL_MARGIN + 0.14) / (1 + 2 * CELL_MARGIN)) * CELL_SIZE)
const INNER_END = CELL_SIZE - INNER_FIRST
/** Pixels, along a side, where the cell's own rules run. */
const RULE = Math.round((CELL_MARGIN / (1 + 2 * CELL_MARGIN)) * CELL_SIZE)

const levels = new GreyLevels()

/** What the grey values inside a cell look like. */
export interface CellTone {
  /** Beside the figure: the paper, or the ground that a light digit stands on. */
  readonly ground: number
  readonly darkest: number
  readonly lightest: number
  /** Typical value where its rules run. */
  readonly rule: number
}

/**
 * The ground shows in the corners of the inside, so much of it both ways: a heavy figure covers most of the rest, and
 * the page may lie on its side.
 */
const CORNER = Math.round(0.2 * (INNER_END - INNER_FIRST))

export function cellTone(patch: Patch): CellTone {
  levels.clear()
  for (let j = INNER_FIRST; j < INNER_END; j++) {
    for (let i = INNER_FIRST; i < INNER_END; i++) levels.add(patch[j * CELL_SIZE + i]!)
  }
  const [darkest, lightest] = [levels.at(0.03), levels.at(0.97)]
  levels.clear()
  for (let k = INNER_FIRST; k < INNER_END; k++) {
    for (const edge of [RULE - 1, RULE, CELL_SIZE - 1 - RULE, CELL_SIZE - RULE]) {
      levels.add(patch[edge * CELL_SIZE + k]!)
      levels.add(patch[k * CELL_SIZE + edge]!)
    }
  }
  const rule = levels.at(0.5)
  return { ground: cellGround(patch), darkest, lightest, rule }
}

/** Typical value beside a cell's figure. */
export function cellGround(patch: Patch): number {
  levels.clear()
  for (let j = 0; j < CORNER; j++) {
    for (let i = 0; i < CORNER; i++) {
      for (const y of [INNER_FIRST + j, INNER_END - 1 - j]) {
        levels.add(patch[y * CELL_SIZE + INNER_FIRST + i]!)
        levels.add(patch[y * CELL_SIZE + INNER_END - 1 - i]!)
      }
    }
  }
  return levels.at(0.5)
}

/** Figures on the grid's common ground tell which way it is printed when so many do, and most of them the same way. */
const FIGURES_THAT_TELL = 8
const MOST_OF_THEM = 0.8
/** At least this share of a grid's cells is empty. */
const EMPTY = 0.3
/**
 * A figure stands out by so many times what a cell's values vary otherwise, and by this share of full white at least
 * and at most.
 */
const TIMES_COMMON_SPREAD = 3
const LEAST_STANDS_OUT = 0.06
const MOST_STANDS_OUT = 0.2
/**
 * Ground that lies this far on the way from the common ground to a cell's lightest is light itself, whatever is printed
 * there.
 */
const PALE = 0.75
/** A ground this near to that of the cells around is the common one. */
const SAME_GROUND = 0.2

/**
 * Which cells are printed light on dark. A grid is drawn one way, so its cells vote by their rules and figures: where
 * most have rules lighter than their ground, or the figures are lighter than the common ground (thin rules hardly show
 * on it), glare or shadow does not turn a single cell over, only pale ground between rules clearly darker does. In
 * other grids each cell speaks for itself: dark cells may hold light digits.
 *
 * @param tones cell -> its tone, `order` cells a row
 */
export function lightOnDark(tones: readonly CellTone[], order: number): boolean[] {
  const least = standsOut(tones)
  const commonGround = tones.map((tone, cell) =>
    groundAmong(
      tone,
      cellsAround(cell, order).map((near) => tones[near]!.ground),
    ),
  )
  if (!hasLightRules(tones) && !hasLightFigures(tones, commonGround, least)) {
    const paper = median(tones.map(({ ground }) => ground))
    return tones.map((tone) => isLightOnDark(tone, paper))
  }
  return tones.map(
    (tone, cell) =>
      figureOn(tone, least) === 'light' ||
      !isClearlyLighter(tone.ground, tone.rule) ||
      !isPale(tone, commonGround[cell]!),
  )
}

/** Cells, itself among them, that must have a cell's ground for it to be one that is common there: stripes have two. */
const SHARE_A_GROUND = 3

/** The common ground where a cell lies: its own if others around have it, too, else theirs. */
function groundAmong({ ground }: CellTone, around: readonly number[]): number {
  return around.filter((other) => isSameGround(other, ground)).length >= SHARE_A_GROUND
    ? ground
    : median(around)
}

function isSameGround(ground: number, common: number): boolean {
  return Math.abs(ground - common) < SAME_GROUND * common + 5
}

/**
 * How many grey levels a figure differs from its ground: clearly more than a cell's values vary where there is none.
 */
function standsOut(tones: readonly CellTone[]): number {
  const spreads = tones.map(({ darkest, lightest }) => lightest - darkest).sort((a, b) => a - b)
  const common = TIMES_COMMON_SPREAD * spreads[Math.floor(spreads.length * EMPTY)]!
  return Math.min(MOST_STANDS_OUT * 255, Math.max(LEAST_STANDS_OUT * 255, common))
}

/** Are most cells bounded by rules lighter than their ground? */
export function hasLightRules(tones: readonly CellTone[]): boolean {
  return 2 * tones.filter(({ ground, rule }) => isClearlyLighter(rule, ground)).length > tones.length
}

function hasLightFigures(
  tones: readonly CellTone[],
  commonGround: readonly number[],
  least: number,
): boolean {
  let light = 0
  let dark = 0
  for (const [cell, tone] of tones.entries()) {
    const common = commonGround[cell]!
    const figure = isSameGround(tone.ground, common)
      ? figureOn(tone, least)
      : // a heavy figure hides how much of the cell the common ground is, not that it is there
        tone.darkest < common + least && common - least < tone.lightest
        ? figureOn({ ...tone, ground: common }, least)
        : undefined
    if (figure === 'light') light++
    else if (figure === 'dark') dark++
  }
  return light >= FIGURES_THAT_TELL && light > MOST_OF_THEM * (light + dark)
}

/** Does what stands out from a cell's ground, by so many grey levels, lie to one side of it? */
function figureOn({ ground, darkest, lightest }: CellTone, least: number): 'light' | 'dark' | undefined {
  const above = lightest - ground
  const below = ground - darkest
  if (Math.max(above, below) < least) return undefined
  return above > 2 * below ? 'light' : below > 2 * above ? 'dark' : undefined
}

function isPale({ ground, lightest }: CellTone, common: number): boolean {
  return ground - common > PALE * (lightest - common)
}

function isClearlyLighter(value: number, than: number): boolean {
  return value > than * 1.15 + 10
}

/**
 * Is this cell printed light on dark? Either its rules are lighter than its ground, or it is much darker than the
 * grid's paper and holds something much lighter than itself (a white digit on a black cell between black rules).
 */
function isLightOnDark(tone: CellTone, paper: number): boolean {
  const { ground, darkest, lightest, rule } = tone
  // a tinted cell between pale rules is darker than they are, too: its figure knows better, be it a faint one
  if (isClearlyLighter(rule, ground) && figureOn(tone, LEAST_STANDS_OUT * 255) !== 'dark') return true
  return (
    ground < paper * 0.65 && lightest - ground > 2 * (ground - darkest) && lightest - ground > 0.2 * paper
  )
}

/**
 * Paper as a slanted plane fitted to the patch's lighter pixels, so that a shadow which crosses a cell does not look
 * like ink.
 */
export function paperPlane(patch: Patch): PaperPlane {
  levels.clear()
  for (let j = INNER_FIRST; j < INNER_END; j++) {
    for (let i = INNER_FIRST; i < INNER_END; i++) levels.add(patch[j * CELL_SIZE + i]!)
  }
  let level = levels.at(0.75)
  let slopeX = 0
  let slopeY = 0
  plane[0] = 1
  for (let round = 0; round < 2; round++) {
    system.clear()
    const tolerance = 0.06 * level + 3
    for (let j = INNER_FIRST; j < INNER_END; j += 2) {
      for (let i = INNER_FIRST; i < INNER_END; i += 2) {
        const x = i / CELL_SIZE - 0.5
        const y = j / CELL_SIZE - 0.5
        const value = patch[j * CELL_SIZE + i]!
        const above = value - level - slopeX * x - slopeY * y
        if (above <= -tolerance * 1.5 || above >= tolerance * 3) continue
        plane[1] = x
        plane[2] = y
        system.add(plane, value, 1)
      }
    }
    const solved = system.solve(PULL)
    if (!solved) break
    level = solved[0]!
    slopeX = solved[1]!
    slopeY = solved[2]!
  }
  return { level, slopeX, slopeY }
}

/** Slopes must be well founded, the level need not. */
const PULL = [0.01, 3, 3] as const
const system = new LeastSquares(3)
const plane = new Float64Array(3)

/** How dark the darkest twentieth of a cell's inside is. */
export function inkDarkness(darkness: Float32Array): number {
  levels.clear()
  for (let j = INNER_FIRST; j < INNER_END; j++) {
    for (let i = INNER_FIRST; i < INNER_END; i++) {
      const value = darkness[j * CELL_SIZE + i]! * 255
      levels.add(value < 0 ? 0 : value > 255 ? 255 : value)
    }
  }
  return levels.at(0.96) / 255
}

/** A cell and those that touch it. */
export function cellsAround(cell: number, order: number): number[] {
  const row = Math.floor(cell / order)
  const column = cell % order
  const around: number[] = []
  for (let r = Math.max(0, row - 1); r <= Math.min(order - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(order - 1, column + 1); c++)
      around.push(r * order + c)
  }
  return around
}
