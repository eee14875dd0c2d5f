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
    bias: number,
    output: number,
    kernel: number,
    stride: number,
    side: number,
    inChannels: number,
    outChannels: number,
    inRow: number,
    outRow: number,
    floor: number,
  ): void
}

interface WasmMemory {
  readonly buffer: ArrayBuffer
  grow(pages: number): number
}

/** The kernel works on sixteen outputs at a time. */
const LANES = 16
const FLOAT = 4
const WASM_PAGE = 65536

/** A layer with its places in the kernel's memory, in bytes. */
interface Stage {
  readonly kernel: number
  readonly stride: number
  readonly side: number
  readonly inChannels: number
  readonly outChannels: number
  /** Where its input begins, border included, and how far its rows are apart. */
  readonly input: number
  readonly inRow: number
  readonly weights: number
  readonly bias: number
}

/**
 * The small convolutional network that reads a cell. Its layers run in one WebAssembly loop with 128-bit lanes, some
 * four times as fast as the same loop in TypeScript; all memory is set aside when the network is made, and running it
 * allocates nothing. One instance reads one cell at a time.
 */
export class DigitNet {
  /** What logits are divided by before they become probabilities, so that 90 % means nine out of ten. */
  readonly temperature: number
  readonly #window: number
  readonly #conv: ConvExports
  readonly #stages: readonly Stage[]
  /** The kernel's memory as numbers, the first of the input's pixels, and the first of the logits. */
  readonly #floats: Float32Array
  readonly #first: number
  readonly #logits: number

  /** @throws Error when the bytes are not a whole network file */
  constructor(file: Uint8Array) {
    const { window, temperature, layers } = readNetFile(file)
    this.temperature = temperature
    this.#window = window
    this.#conv = instantiate()
    const { stages, weights, end } = layStages(window, layers)
    this.#conv.memory.grow(Math.ceil(end / WASM_PAGE))
    this.#floats = new Float32Array(this.#conv.memory.buffer)
    stages.forEach((stage, i) => {
      this.#floats.set(weights[i]!, stage.weights / FLOAT)
      this.#floats.set(layers[i]!.bias, stage.bias / FLOAT)
    })
    this.#stages = stages
    this.#first = firstPixel(stages[0]!) / FLOAT
    this.#logits = end / FLOAT - LANES
  }

  /** Fills `logits` (`OUTPUTS` numbers) from a cell picture of `CELL_SIZE²` bytes. */
  run(cell: Uint8Array, logits: Float32Array): void {
    this.#load(cell)
    const stages = this.#stages
    for (let i = 0; i < stages.length; i++) {
      const stage = stages[i]!
      const next = stages[i + 1]
      this.#conv.run(
        stage.input,
        stage.weights,
        stage.bias,
        next ? firstPixel(next) : this.#logits * FLOAT,
        stage.kernel,
        stage.stride,
        stage.side,
        stage.inChannels,
        stage.outChannels,
        stage.inRow,
        next ? next.inRow : 0,
        next ? 0 : Number.NEGATIVE_INFINITY,
      )
    }
    for (let i = 0; i < OUTPUTS; i++) logits[i] = this.#floats[this.#logits + i]!
  }

  /** Ink as 0 to 1 in the window in the middle of the cell. */
  #load(cell: Uint8Array): void {
    const edge = (CELL_SIZE - this.#window) >> 1
    const row = this.#stages[0]!.inRow / FLOAT
    for (let y = 0; y < this.#window; y++) {
      const from = (y + edge) * CELL_SIZE + edge
      const to = this.#first + y * row
      for (let x = 0; x < this.#window; x++) this.#floats[to + x] = (255 - cell[from + x]!) / 255
    }
  }
}

/** Where a stage's input begins inside its border of zeros. */
function firstPixel({ input, kernel, stride, inRow, inChannels }: Stage): number {
  return stride === 0 ? input : input + (kernel >> 1) * (inRow + inChannels * FLOAT)
}

/** Places every layer's weights and input in memory; the last sixteen numbers are the logits. */
function layStages(window: number, layers: readonly NetLayer[]) {
  let end = 64 // the kernel's own memory holds nothing, but address 0 stays free
  const reserve = (floats: number) => {
    const at = end
    end += floats * FLOAT
    return at
  }
  let side = window
  let channels = 1
  let realChannels = 1
  const weights: Float32Array[] = []
  const stages = layers.map((layer): Stage => {
    const dense = layer.kind === 'dense'
    const kernel = dense ? side : layer.kernel
    const padded = dense ? side : side + 2 * (kernel >> 1)
    const outChannels = Math.ceil(layer.outputs / LANES) * LANES
    const arranged = arrange(layer, kernel, realChannels, channels, outChannels)
    const stage: Stage = {
      kernel,
      stride: layer.stride,
      side: dense ? 1 : Math.ceil(side / layer.stride),
      inChannels: channels,
      outChannels,
      input: reserve(padded * padded * channels),
      inRow: padded * channels * FLOAT,
      weights: reserve(arranged.length),
      bias: reserve(outChannels),
    }
    weights.push(arranged)
    side = stage.side
    channels = outChannels
    realChannels = layer.outputs
    return stage
  })
  reserve(LANES)
  return { stages, weights, end }
}

/** From the file's order (output, channel, row, column) to the kernel's (sixteen outputs, row, column, channel, output). */
function arrange(
  layer: NetLayer,
  kernel: number,
  realChannels: number,
  channels: number,
  outChannels: number,
): Float32Array {
  const taps = kernel * kernel
  const inputs = taps * channels
  const weights = new Float32Array(inputs * outChannels)
  for (let o = 0; o < layer.outputs; o++) {
    const block = Math.floor(o / LANES) * inputs * LANES + (o % LANES)
    for (let c = 0; c < realChannels; c++) {
      for (let t = 0; t < taps; t++) {
        weights[block + (t * channels + c) * LANES] = layer.weights[(o * realChannels + c) * taps + t]!
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
