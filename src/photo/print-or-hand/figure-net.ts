import { CELL_SIZE } from '../digits/digit-reader.js'
import { ConvNet } from '../nets/conv-net.js'
import { readNetFile } from '../nets/net-file.js'

/** Logits of a cell: no full figure, the digits 1 to 9, handwriting, then one for a pencil mark of each digit. */
export const FIGURE_LOGITS = 20
/** Numbers by which the network tells figures apart, before it names them. */
export const EMBEDDING = 96
const DARKEST = 255

/**
 * The network that reads what hands have written, full figures and pencil marks. One instance reads one cell at a time.
 */
export class FigureNet {
  readonly #net: ConvNet

  /** @throws Error when the bytes are not a whole network file */
  constructor(bytes: Uint8Array) {
    this.#net = new ConvNet(readNetFile(bytes))
  }

  /** What the network makes of a cell picture of `CELL_SIZE²` bytes: lent until the next run. */
  run(cell: Uint8Array): { readonly embedding: Float32Array; readonly logits: Float32Array } {
    const window = this.#net.inputSide
    const edge = (CELL_SIZE - window) >> 1
    for (let y = 0; y < window; y++) {
      const from = (y + edge) * CELL_SIZE + edge
      const row = this.#net.inputRow(y)
      for (let x = 0; x < window; x++) row[x] = DARKEST - cell[from + x]!
    }
    const logits = this.#net.run(1 / DARKEST).subarray(0, FIGURE_LOGITS)
    return { embedding: this.#net.lastInputs(), logits }
  }
}
