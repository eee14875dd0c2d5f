import { throwIfAborted } from '../../errors.js'
import { nextTurn } from '../../limits.js'
import { cellPictures } from '../check-photo.js'
import { bytesOf, checkWeights, loadedOnce, type ReadUrl, type Weights } from '../weights/weights.js'
import { barePaperScores, isBarePaper } from './bare-paper.js'
import {
  type CellPicture,
  type CellScores,
  type DigitReader,
  LARGEST_FIGURE,
  type ReadCellsOptions,
} from './digit-reader.js'
import { DigitNet } from './net.js'

/**
 * Where a closer look sees a cell from: in its middle, and moved by a pixel both ways. On the doubtful cells of 700
 * drawn photographs (890, surer than 98 % of none) that left 200 wrong instead of 229; eight places around the middle
 * left 198.
 */
const CLOSER_LOOKS = [
  [0, 0],
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const
/** Cells that are read before timers and signals are let through: a few milliseconds' work. */
const CELLS_A_TURN = 16
const ONE_LOOK = CLOSER_LOOKS.slice(0, 1)

/** What is made of a network's logits. */
type ScoresOf = (logits: Float32Array, temperature: number) => CellScores

/**
 * The network of our own as a digit reader. Its weights (`digit-net.bin`, beside this file) were trained on drawn
 * digits alone: see `fixtures/train`. It is asked about cells that have any ink; one takes about a tenth of a
 * millisecond, in this thread.
 */
export function networkReader(weights: Weights | undefined, readUrl: ReadUrl): DigitReader {
  return readerOf(weights, readUrl, async () => (await import('../weights/digit-net.js')).packedBytes(), {
    name: 'network',
    scoresOf: (logits, temperature) => scoresOf(shares(logits, temperature), logits),
  })
}

/**
 * The same for grids of an order above 9, whose digits are printed as numbers or as letters (`number-net.bin`): its
 * logits are of none, 1 to 16, A to G for 10 to 16, and of handwriting. What the order does not have counts for
 * nothing.
 */
export function numberReader(order: number, weights: Weights | undefined, readUrl: ReadUrl): DigitReader {
  return readerOf(weights, readUrl, async () => (await import('../weights/number-net.js')).packedBytes(), {
    name: 'numbers',
    scoresOf(logits, temperature) {
      const all = shares(logits, temperature)
      const digits = new Float32Array(order + 1)
      for (let digit = 0; digit <= order; digit++) {
        digits[digit] = all[digit]! + (digit > LARGEST_FIGURE ? all[digit + LETTERS_FROM]! : 0)
      }
      const sum = digits.reduce((total, share) => total + share, 0)
      return scoresOf(
        digits.map((share) => share / sum),
        logits,
      )
    },
  })
}

/** The logits of letters stand so much further on than those of the numbers that they mean. */
const LETTERS_FROM = 7

function readerOf(
  weights: Weights | undefined,
  readUrl: ReadUrl,
  packed: () => Promise<Uint8Array>,
  { name, scoresOf }: { readonly name: string; readonly scoresOf: ScoresOf },
): DigitReader {
  if (weights !== undefined) checkWeights(weights, 'weights')
  const load = async () => new DigitNet(await (weights ? bytesOf(weights, readUrl) : packed()))
  let loaded = loadedOnce(load)
  function readInk(net: DigitNet, { data }: CellPicture, looks: readonly (readonly [number, number])[]) {
    const logits = new Float32Array(net.outputs)
    for (const [right, down] of looks) {
      const seen = net.run(data, right, down)
      for (let k = 0; k < logits.length; k++) logits[k] = logits[k]! + seen[k]! / looks.length
    }
    return scoresOf(logits, net.temperature)
  }
  async function readCells(
    cells: readonly CellPicture[],
    looks: readonly (readonly [number, number])[],
    { signal }: ReadCellsOptions,
  ): Promise<CellScores[]> {
    cellPictures(cells, 'cells')
    if (cells.every(isBarePaper)) return cells.map(barePaperScores)
    const net = await loaded()
    const scores: CellScores[] = []
    for (const [k, cell] of cells.entries()) {
      if (k % CELLS_A_TURN === CELLS_A_TURN - 1) await nextTurn()
      throwIfAborted(signal)
      scores.push(isBarePaper(cell) ? barePaperScores() : readInk(net, cell, looks))
    }
    return scores
  }

  return {
    name,
    read: (cells, options = {}) => readCells(cells, ONE_LOOK, options),
    readClosely: (cells, options = {}) => readCells(cells, CLOSER_LOOKS, options),
    async close() {
      loaded = loadedOnce(load)
    },
  }
}

/** Chances of all but the last logit, which is of handwriting. */
function shares(logits: Float32Array, temperature: number): Float32Array {
  const all = logits.subarray(0, -1)
  let top = Number.NEGATIVE_INFINITY
  for (const logit of all) top = Math.max(top, logit)
  const chances = new Float32Array(all.length)
  let sum = 0
  for (let k = 0; k < all.length; k++) {
    chances[k] = Math.exp((all[k]! - top) / temperature)
    sum += chances[k]!
  }
  for (let k = 0; k < all.length; k++) chances[k]! /= sum
  return chances
}

function scoresOf(digits: Float32Array, logits: Float32Array): CellScores {
  return { digits, handwritten: 1 / (1 + Math.exp(-logits.at(-1)!)) }
}
