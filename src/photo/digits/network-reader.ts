import { readFile } from 'node:fs/promises'
import { throwIfAborted } from '../../errors.js'
import { barePaperScores, isBarePaper } from './bare-paper.js'
import type { CellPicture, CellScores, DigitReader } from './digit-reader.js'
import { DigitNet, OUTPUTS } from './net.js'

/**
 * The network of our own as a digit reader. Its weights (`digit-net.bin`, beside this file) were trained on drawn digits
 * alone: see `fixtures/train`. It is asked about cells that have any ink; one takes about a tenth of a millisecond, in this
 * thread.
 */
export function createNetworkReader(weights: URL = new URL('./digit-net.bin', import.meta.url)): DigitReader {
  let loading: Promise<DigitNet> | undefined
  const logits = new Float32Array(OUTPUTS)
  function readInk(net: DigitNet, { data }: CellPicture): CellScores {
    net.run(data, logits)
    return scoresOf(logits, net.temperature)
  }

  return {
    name: 'network',
    async read(cells, options = {}) {
      if (cells.every(isBarePaper)) return cells.map(barePaperScores)
      loading ??= readFile(weights).then((file) => new DigitNet(file))
      const net = await loading
      return cells.map((cell) => {
        throwIfAborted(options.signal)
        return isBarePaper(cell) ? barePaperScores() : readInk(net, cell)
      })
    },
    async close() {
      loading = undefined
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
