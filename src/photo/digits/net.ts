import { ConvNet } from '../nets/conv-net.js'
import { readNetFile } from '../nets/net-file.js'
import { CELL_SIZE } from './digit-reader.js'

/** Logits of one cell from the network that reads digits: no printed digit, the digits 1 to 9, then handwriting. */
export const OUTPUTS = 11
const DARKEST = 255

/** A network that reads a cell. One instance reads one cell at a time. */
export class DigitNet {
  /** What logits are divided by before they become probabilities, so that 90 % means nine out of ten. */
  readonly temperature: number
  /** How many logits it makes. */
  readonly outputs: number
  readonly #net: ConvNet

  /** @throws Error when the bytes are not a whole network file */
  constructor(bytes: Uint8Array) {
    const file = readNetFile(bytes)
    this.temperature = file.temperature
    this.outputs = file.layers.at(-1)!.outputs
    this.#net = new ConvNet(file)
  }

  /**
   * What the network makes (its logits, lent until the next run) of a cell picture of `CELL_SIZE²` bytes. It sees
   * the window in the picture's middle, or one moved from there by so many pixels, two at most, to the right and down.
   */
  run(cell: Uint8Array, right = 0, down = 0): Float32Array {
    const window = this.#net.inputSide
    const edge = (CELL_SIZE - window) >> 1
    for (let y = 0; y < window; y++) {
      const from = (y + edge + down) * CELL_SIZE + edge + right
      const row = this.#net.inputRow(y)
      for (let x = 0; x < window; x++) row[x] = DARKEST - cell[from + x]!
    }
    return this.#net.run(1 / DARKEST).subarray(0, this.outputs)
  }
}
