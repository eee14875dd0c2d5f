import { throwIfAborted } from '../../errors.js'
import { nextTurn } from '../../limits.js'
import { CELL_SIZE, type CellPicture } from '../digits/digit-reader.js'
import { OUTPUTS as DIGIT_LOGITS, DigitNet } from '../digits/net.js'
import type { FigureLook } from '../inks/figure-look.js'
import { loadedOnce } from '../weights/weights.js'
import { CELL_KINDS, type CellKind, lookNumbers } from './cell-kinds.js'
import { centredFigure } from './centred-figure.js'
import { EntryNet } from './entry-net.js'
import { EMBEDDING, FIGURE_LOGITS, FigureNet } from './figure-net.js'
import { PageContext } from './page-context.js'

/** What a cell shows, as chances. */
export interface CellJudgement {
  /** In the order of `CELL_KINDS`; they sum to 1. */
  readonly kinds: readonly number[]
  /** digit - 1 -> how likely the figure is that digit, if there is one; they sum to 1. */
  readonly digits: readonly number[]
  /** digit - 1 -> how likely there is a pencil mark of it, if there are marks. */
  readonly marks: readonly number[]
}

export type CellJudge = (
  pictures: readonly CellPicture[],
  looks: readonly (FigureLook | undefined)[],
  signal: AbortSignal,
) => Promise<CellJudgement[]>

const DIGITS = 9
const ENTRY = CELL_KINDS.indexOf('entry')
/** Logits beyond are taken for this, as in training. */
const LOGITS_AT_MOST = 20
const LOGIT_UNIT = 10
/**
 * A figure that may be an entry is read once more by itself. So much counts what the page network says of it (its log
 * chances) and what the network of single figures does (its logits).
 */
const PAGE_WORTH = 0.5
const ENTRY_WORTH = 0.7
const LEAST_SHARE = 1e-12
/**
 * Where a figure was written over another, its darkest ink is the last one's. If that alone reads as another digit,
 * so much of a doubt remains. (Of 190 drawn pages one was certain with such an entry; seed 991.) Greys of a figure ->
 * of its darkest ink: half as dark as ink can be is none, four fifths all.
 */
const CORE_WORTH = 0.2
const CORE = Uint8Array.from({ length: 256 }, (_, grey) =>
  Math.round(255 * Math.min(1, Math.max(0, (grey / 255 - 0.2) / 0.3))),
)
const MAYBE_ENTRY = 0.02
/** Cells that are looked at before timers and signals are let through: a few milliseconds' work. */
const CELLS_A_TURN = 16

/** Looks at all cells of an upright page together: which are print, which a hand's, and what they say. */
export function cellJudge(): CellJudge {
  const load = loadedOnce(async () => {
    const [digits, figures, page, entries] = await Promise.all([
      import('../weights/digit-net.js'),
      import('../weights/figure-net.js'),
      import('../weights/page-context.js'),
      import('../weights/entry-net.js'),
    ])
    return {
      digits: new DigitNet(await digits.packedBytes()),
      figures: new FigureNet(await figures.packedBytes()),
      page: new PageContext(await page.packedBytes()),
      entries: new EntryNet(await entries.packedBytes()),
    }
  })
  return async (pictures, looks, signal) => {
    const nets = await load()
    const { features } = nets.page
    const known = new Float32Array(pictures.length * features)
    const own: Float32Array[] = []
    for (const [cell, { data }] of pictures.entries()) {
      if (cell % CELLS_A_TURN === CELLS_A_TURN - 1) {
        await nextTurn()
        throwIfAborted(signal)
      }
      const { embedding, logits } = nets.figures.run(data)
      const at = cell * features
      known.set(embedding, at)
      known.set(logits.map(clipped), at + EMBEDDING)
      known.set(nets.digits.run(data).map(clipped), at + EMBEDDING + FIGURE_LOGITS)
      known.set(lookNumbers(looks[cell]), at + EMBEDDING + FIGURE_LOGITS + DIGIT_LOGITS)
      own.push(logits.slice())
    }
    await nextTurn()
    throwIfAborted(signal)
    const { temperatures } = nets.page.head
    const out = nets.page.run(known)
    return own.map((logits, cell) => {
      const at = cell * nets.page.outputs
      const kinds = shares(out.subarray(at, at + CELL_KINDS.length), temperatures.kinds)
      const first = at + CELL_KINDS.length
      const each = (from: number, more: number) =>
        Array.from({ length: DIGITS }, (_, d) => out[first + from + d]! + logits[more + d]!)
      const digits = shares(each(0, 1), temperatures.digits)
      const marks = each(DIGITS, 2 + DIGITS)
      return {
        kinds,
        digits: kinds[ENTRY]! > MAYBE_ENTRY ? withOwnLook(nets.entries, digits, looks[cell]) : digits,
        marks: marks.map((logit) => 1 / (1 + Math.exp(-logit / temperatures.marks))),
      }
    })
  }
}

function withOwnLook(
  net: EntryNet,
  digits: readonly number[],
  look: FigureLook | undefined,
): readonly number[] {
  if (!look) return digits
  const figure = centredFigure(look.ink, CELL_SIZE, net.side)
  const own = net.run(figure)
  const whole = shares(
    digits.map((share, d) => PAGE_WORTH * Math.log(Math.max(LEAST_SHARE, share)) + ENTRY_WORTH * own[1 + d]!),
    1,
  )
  const core = shares(net.run(figure.map((grey) => CORE[grey]!)).subarray(1, 1 + DIGITS), 1)
  const doubted = whole.map((share, d) => (1 - CORE_WORTH) * share + CORE_WORTH * core[d]!)
  // it is a reason to doubt, and no better reading
  const isReason = largest(core) !== largest(whole) && largest(doubted) === largest(whole)
  return isReason ? doubted : whole
}

function largest(values: readonly number[]): number {
  return values.indexOf(Math.max(...values))
}

/** How likely a cell is of a kind. */
export function chanceOf({ kinds }: CellJudgement, kind: CellKind): number {
  return kinds[CELL_KINDS.indexOf(kind)]!
}

function clipped(logit: number): number {
  return Math.max(-LOGITS_AT_MOST, Math.min(LOGITS_AT_MOST, logit)) / LOGIT_UNIT
}

function shares(logits: ArrayLike<number>, temperature: number): number[] {
  const all = Array.from(logits)
  const most = Math.max(...all)
  const parts = all.map((logit) => Math.exp((logit - most) / temperature))
  const sum = parts.reduce((total, part) => total + part, 0)
  return parts.map((part) => part / sum)
}
