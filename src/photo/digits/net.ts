import { ConvNet } from '../nets/conv-net.js'
import { readNetFile } from '../nets/net-file.js'
import { CELL_SIZE } from './digit-reader.js'

/** Logits of one cell: no printed digit, the digits 1 to 9, then handwriting. */
export const OUTPUTS = 11
const DARKEST = 255

/** The network that reads a cell. One instance reads one cell at a time. */
export class DigitNet {
  /** What logits are divided by before they become probabilities, so that 90 % means nine out of ten. */
  readonly temperature: number
  readonly #net: ConvNet

  /** @throws Error when the bytes are not a whole network file */
  constructor(bytes: Uint8Array) {
    const file = readNetFile(bytes)
    this.temperature = file.temperature
    this.#net = new ConvNet(file)
  }

  /** Fills `logits` (`OUTPUTS` numbers) from a cell picture of `CELL_SIZE²` bytes: the network sees the window in its middle. */
  run(cell: Uint8Array, logits: Float32Array): void {
    const window = this.#net.inputSide
    const edge = (CELL_SIZE - window) >> 1
    for (let y = 0; y < window; y++) {
      const from = (y + edge) * CELL_SIZE + edge
      const row = this.#net.inputRow(y)
      for (let x = 0; x < window; x++) row[x] = DARKEST - cell[from + x]!
    }
    logits.set(this.#net.run(1 / DARKEST).subarray(0, OUTPUTS))
  }
}
