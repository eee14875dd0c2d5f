import { WASM_BYTES } from './conv-bytes.js'
import { CELL_SIZE } from './digit-reader.js'
import { type NetLayer, readNetFile } from './net-file.js'

/** Logits of one cell: no printed digit, the digits 1 to 9, then handwriting. */
export const OUTPUTS = 11

/** What conv.as exports; sizes are described there. */
interface ConvExports {
  readonly memory: WasmMemory
  run(
    input: number,
    weights: number,
    steps: number,
    bias: number,
    output: number,
    kernel: number,
    pairs: number,
    side: number,
    outChannels: number,
    inStep: number,
    inRow: number,
    inRowStep: number,
    worth: number,
    floor: number,
  ): number
  pack(from: number, to: number, side: number, channels: number, toRow: number, scale: number): void
}

interface WasmMemory {
  readonly buffer: ArrayBuffer
  grow(pages: number): number
}

/** The kernel works on sixteen outputs at a time. */
const LANES = 16
const FLOAT = 4
const SHORT = 2
/** Bytes that the kernel may read past the end of a layer's input. */
const SLACK = 16
const WASM_PAGE = 65536
const LARGEST_SHORT = 32767
const LARGEST_SUM = 2 ** 31 - 1
const DARKEST = 255

/** A layer with its places in the kernel's memory, in bytes. */
interface Stage {
  readonly kernel: number
  /** Numbers of a row of the kernel, in pairs. */
  readonly pairs: number
  readonly side: number
  readonly outChannels: number
  /** Where its input begins, border included; where the first pixel inside the border is; how far rows are apart. */
  readonly input: number
  readonly firstPixel: number
  readonly inRow: number
  /** From the input of one output pixel to that of the next, along a row and down. */
  readonly inStep: number
  readonly inRowStep: number
  readonly weights: number
  readonly steps: number
  readonly bias: number
  /** An input up to this makes no sum of products overflow. */
  readonly largest: number
}

/**
 * The small convolutional network that reads a cell. Its layers run in one WebAssembly loop with 128-bit lanes on whole
 * numbers: weights are bytes in the file already, and what a layer hands on is scaled anew for each cell so that its
 * largest number nearly fills 16 bits, which changes a logit by a thousandth or two. All memory is set aside when
 * the network is made, and running it allocates nothing. One instance reads one cell at a time.
 */
export class DigitNet {
  /** What logits are divided by before they become probabilities, so that 90 % means nine out of ten. */
  readonly temperature: number
  readonly #window: number
  readonly #conv: ConvExports
  readonly #stages: readonly Stage[]
  /** The kernel's memory as numbers, and where outputs lie in it, in bytes. */
  readonly #shorts: Int16Array
  readonly #floats: Float32Array
  readonly #outputs: number

  /** @throws Error when the bytes are not a whole network file */
  constructor(file: Uint8Array) {
    const { window, temperature, layers } = readNetFile(file)
    this.temperature = temperature
    this.#window = window
    this.#conv = instantiate()
    const { stages, weights, outputs, end } = layStages(window, layers)
    this.#conv.memory.grow(Math.ceil(end / WASM_PAGE))
    const { buffer } = this.#conv.memory
    this.#shorts = new Int16Array(buffer)
    this.#floats = new Float32Array(buffer)
    stages.forEach((stage, i) => {
      this.#shorts.set(weights[i]!, stage.weights / SHORT)
      this.#floats.set(layers[i]!.steps, stage.steps / FLOAT)
      this.#floats.set(layers[i]!.bias, stage.bias / FLOAT)
    })
    this.#stages = stages
    this.#outputs = outputs
  }

  /** Fills `logits` (`OUTPUTS` numbers) from a cell picture of `CELL_SIZE²` bytes. */
  run(cell: Uint8Array, logits: Float32Array): void {
    this.#load(cell)
    const outputs = this.#outputs
    let worth = 1 / DARKEST
    for (let i = 0; i < this.#stages.length; i++) {
      const stage = this.#stages[i]!
      const next = this.#stages[i + 1]
      const most = this.#conv.run(
        stage.input,
        stage.weights,
        stage.steps,
        stage.bias,
        outputs,
        stage.kernel,
        stage.pairs,
        stage.side,
        stage.outChannels,
        stage.inStep,
        stage.inRow,
        stage.inRowStep,
        worth,
        next ? 0 : Number.NEGATIVE_INFINITY,
      )
      if (!next) break
      const scale = most > 0 ? next.largest / most : 0
      this.#conv.pack(outputs, next.firstPixel, stage.side, stage.outChannels, next.inRow, scale)
      worth = most / next.largest
    }
    for (let i = 0; i < OUTPUTS; i++) logits[i] = this.#floats[outputs / FLOAT + i]!
  }

  /** Ink as 0 to 255 in the window in the middle of the cell. */
  #load(cell: Uint8Array): void {
    const edge = (CELL_SIZE - this.#window) >> 1
    const { firstPixel, inRow } = this.#stages[0]!
    for (let y = 0; y < this.#window; y++) {
      const from = (y + edge) * CELL_SIZE + edge
      const to = (firstPixel + y * inRow) / SHORT
      for (let x = 0; x < this.#window; x++) this.#shorts[to + x] = DARKEST - cell[from + x]!
    }
  }
}

/** Places every layer's weights and input in memory, and room for the outputs of one layer at a time. */
function layStages(window: number, layers: readonly NetLayer[]) {
  let end = 64 // the kernel's own memory holds nothing, but address 0 stays free
  const reserve = (bytes: number) => {
    const at = end
    end += Math.ceil(bytes / SLACK) * SLACK
    return at
  }
  let side = window
  let channels = 1
  let realChannels = 1
  let mostOutputs = 0
  const weights: Int16Array[] = []
  const stages = layers.map((layer): Stage => {
    const dense = layer.kind === 'dense'
    const kernel = dense ? side : layer.kernel
    const border = dense ? 0 : kernel >> 1
    const padded = side + 2 * border
    const outChannels = Math.ceil(layer.outputs / LANES) * LANES
    const arranged = arrange(layer, kernel, realChannels, channels, outChannels)
    const inRow = padded * channels * SHORT
    const input = reserve(padded * inRow + SLACK)
    const inSide = dense ? 1 : Math.ceil(side / layer.stride)
    weights.push(arranged)
    const stage: Stage = {
      kernel,
      pairs: Math.ceil((kernel * channels) / 2),
      side: inSide,
      outChannels,
      input,
      firstPixel: input + border * (inRow + channels * SHORT),
      inRow,
      inStep: layer.stride * channels * SHORT,
      inRowStep: layer.stride * inRow,
      weights: reserve(arranged.length * SHORT),
      steps: reserve(outChannels * FLOAT),
      bias: reserve(outChannels * FLOAT),
      largest: largestInput(layer),
    }
    mostOutputs = Math.max(mostOutputs, inSide * inSide * outChannels)
    side = inSide
    channels = outChannels
    realChannels = layer.outputs
    return stage
  })
  return { stages, weights, outputs: reserve(mostOutputs * FLOAT), end }
}

/** The largest input with which no output's sum of products can leave 32 bits, nor the input itself 16. */
function largestInput({ weights, outputs }: NetLayer): number {
  const inputs = weights.length / outputs
  let heaviest = 1
  for (let o = 0; o < outputs; o++) {
    let sum = 0
    for (let i = o * inputs; i < (o + 1) * inputs; i++) sum += Math.abs(weights[i]!)
    heaviest = Math.max(heaviest, sum)
  }
  return Math.min(LARGEST_SHORT, Math.floor(LARGEST_SUM / heaviest))
}

/** From the file's order (output, channel, row, column) to the kernel's (sixteen outputs, row, pair, output, one of the pair). */
function arrange(
  layer: NetLayer,
  kernel: number,
  realChannels: number,
  channels: number,
  outChannels: number,
): Int16Array {
  const taps = kernel * kernel
  const pairs = Math.ceil((kernel * channels) / 2)
  const weights = new Int16Array(kernel * pairs * 2 * outChannels)
  for (let o = 0; o < layer.outputs; o++) {
    const block = Math.floor(o / LANES) * kernel * pairs
    for (let c = 0; c < realChannels; c++) {
      for (let t = 0; t < taps; t++) {
        const row = Math.floor(t / kernel)
        const number = (t % kernel) * channels + c
        const pair = block + row * pairs + (number >> 1)
        weights[(pair * LANES + (o % LANES)) * 2 + (number & 1)] =
          layer.weights[(o * realChannels + c) * taps + t]!
      }
    }
  }
  return weights
}

/** The part of the WebAssembly interface used here; the platform's own types come with the DOM. */
interface Platform {
  readonly Module: new (bytes: Uint8Array) => object
  readonly Instance: new (module: object) => { readonly exports: unknown }
}

function instantiate(): ConvExports {
  const { Module, Instance } = (globalThis as unknown as { WebAssembly: Platform }).WebAssembly
  return new Instance(new Module(Buffer.from(WASM_BYTES, 'base64'))).exports as ConvExports
}
