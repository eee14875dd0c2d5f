import { ConvNet } from '../nets/conv-net.js'
import { readNetFile } from '../nets/net-file.js'

/** Logits of a figure: none, the digits 1 to 9, handwriting. */
export const ENTRY_LOGITS = 11
const DARKEST = 255

/** The network that reads a single written figure. One instance reads one figure at a time. */
export class EntryNet {
  /** Side of the pictures that it reads. */
  readonly side: number
  readonly temperature: number
  readonly #net: ConvNet

  /** @throws Error when the bytes are not a whole network file */
  constructor(bytes: Uint8Array) {
    const file = readNetFile(bytes)
    this.#net = new ConvNet(file)
    this.side = this.#net.inputSide
    this.temperature = file.temperature
  }

  /** What the network makes of a figure as `centredFigure` gives it, of `side²` bytes: lent until the next run. */
  run(figure: Uint8Array): Float32Array {
    const { side } = this
    for (let y = 0; y < side; y++) {
      const row = this.#net.inputRow(y)
      for (let x = 0; x < side; x++) row[x] = DARKEST - figure[y * side + x]!
    }
    return this.#net.run(1 / DARKEST).subarray(0, ENTRY_LOGITS)
  }
}
