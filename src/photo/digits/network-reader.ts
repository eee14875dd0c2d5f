import { throwIfAborted } from '../../errors.js'
import { nextTurn } from '../../limits.js'
import { cellPictures } from '../check-photo.js'
import { bytesOf, checkWeights, loadedOnce, type ReadUrl, type Weights } from '../weights/weights.js'
import { barePaperScores, isBarePaper } from './bare-paper.js'
import type { CellPicture, CellScores, DigitReader, ReadCellsOptions } from './digit-reader.js'
import { DigitNet, OUTPUTS } from './net.js'

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

/**
 * The network of our own as a digit reader. Its weights (`digit-net.bin`, beside this file) were trained on drawn
 * digits alone: see `fixtures/train`. It is asked about cells that have any ink; one takes about a tenth of a
 * millisecond, in this thread.
 */
export function networkReader(weights: Weights | undefined, readUrl: ReadUrl): DigitReader {
  if (weights !== undefined) checkWeights(weights, 'weights')
  const load = async () =>
    new DigitNet(
      await (weights ? bytesOf(weights, readUrl) : (await import('../weights/digit-net.js')).packedBytes()),
    )
  let loaded = loadedOnce(load)
  const logits = new Float32Array(OUTPUTS)
  function readInk(net: DigitNet, { data }: CellPicture, looks: readonly (readonly [number, number])[]) {
    logits.fill(0)
    for (const [right, down] of looks) {
      const seen = net.run(data, right, down)
      for (let k = 0; k < OUTPUTS; k++) logits[k] = logits[k]! + seen[k]! / looks.length
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
    name: 'network',
    read: (cells, options = {}) => readCells(cells, ONE_LOOK, options),
    readClosely: (cells, options = {}) => readCells(cells, CLOSER_LOOKS, options),
    async close() {
      loaded = loadedOnce(load)
    },
  }
}

function scoresOf(logits: Float32Array, temperature: number): CellScores {
  const digits = new Float32Array(10)
  let top = Number.NEGATIVE_INFINITY
  for (let d = 0; d < 10; d++) top = Math.max(top, logits[d]!)
  let sum = 0
  for (let d = 0; d < 10; d++) {
    digits[d] = Math.exp((logits[d]! - top) / temperature)
    sum += digits[d]!
  }
  for (let d = 0; d < 10; d++) digits[d]! /= sum
  return { digits, handwritten: 1 / (1 + Math.exp(-logits[10]!)) }
}
