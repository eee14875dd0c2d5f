import { instantiate, WASM_PAGE, type WasmMemory } from '../wasm-module.js'
import { WASM_BYTES } from './conv-bytes.js'
import type { NetFile, NetLayer } from './net-file.js'

/** What conv.as exports; sizes are described there. */
interface ConvExports {
  readonly memory: WasmMemory
  run(
    input: number,
    weights: number,
    steps: number,
    bias: number,
    output: number,
    kept: number,
    runs: number,
    runsInRow: number,
    pairs: number,
    width: number,
    pixels: number,
    outChannels: number,
    inStep: number,
    inRow: number,
    inRun: number,
    inRowStep: number,
    worth: number,
    floor: number,
  ): number
  pack(
    from: number,
    to: number,
    width: number,
    height: number,
    channels: number,
    toRow: number,
    scale: number,
  ): void
}

/** The kernel works on sixteen outputs at a time. */
const LANES = 16
const FLOAT = 4
const SHORT = 2
/** Bytes that the kernel may read past the end of a layer's input. */
const SLACK = 16
const LARGEST_SHORT = 32767
const LARGEST_SUM = 2 ** 31 - 1
/** A layer with its places in the kernel's memory, in bytes. */
interface Stage {
  readonly kept: boolean
  readonly runs: number
  readonly runsInRow: number
  /** Numbers of a run, in pairs. */
  readonly pairs: number
  /**
   * Pixels of the picture that goes in, along a side, to one of the output's; 0 where there is but one, made of them
   * all.
   */
  readonly spacing: number
  readonly outChannels: number
  /**
   * Where its input begins, border included; where the first pixel inside the border is; how far rows are apart there.
   */
  readonly input: number
  readonly firstPixel: number
  readonly pixelRow: number
  readonly inputEnd: number
  /** From one row of the kernel to the next, and from one run of a row to the next. */
  readonly inRow: number
  readonly inRun: number
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
 * A small convolutional network: a square grey picture in, a square of outputs out. Its layers run in one WebAssembly
 * loop with 128-bit lanes on whole numbers: weights are bytes in the file already, and what a layer hands on is scaled
 * anew each time so that its largest number nearly fills 16 bits, which changes an output by a thousandth or two. All
 * memory is set aside when the network is made, and running it allocates nothing. One instance looks at one picture at
 * a time.
 */
export class ConvNet {
  /** Side of the picture that goes in. */
  readonly inputSide: number
  /** Pixels of the picture, along a side, to one place of what comes out. */
  readonly spacing: number
  /** Numbers from one place of the square that comes out to the next. */
  readonly outputStep: number
  readonly #conv: ConvExports
  readonly #stages: readonly Stage[]
  /** The kernel's memory as numbers, and where outputs lie in it, in bytes: layers take turns. */
  readonly #shorts: Int16Array
  readonly #floats: Float32Array
  readonly #outputs: readonly [number, number]
  #lastWidth: number
  #lastHeight: number

  constructor({ window, layers }: NetFile) {
    this.inputSide = window
    this.#conv = instantiate<ConvExports>(WASM_BYTES)
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
    this.#lastWidth = window
    this.#lastHeight = window
    this.#outputs = outputs
    this.spacing = stages.at(-1)!.spacing
    this.outputStep = stages.at(-1)!.outChannels
  }

  /** Row `y` of the picture that goes in, to be filled with whole numbers of 16 bits. */
  inputRow(y: number): Int16Array {
    const { firstPixel, pixelRow } = this.#stages[0]!
    const from = (firstPixel + y * pixelRow) / SHORT
    return this.#shorts.subarray(from, from + this.inputSide)
  }

  /**
   * Runs on what the rows of the input hold. A part of the square, from its top left corner, takes less time than all
   * of it; what lies beyond is as it is beyond the square's own edges.
   *
   * @param worth what an input of 1 is worth
   * @param width, height pixels of the part to be looked at; the whole square when left out
   * @returns the outputs, place by place and row by row, `outputStep` numbers apart; overwritten by the next run
   */
  run(worth: number, width = this.inputSide, height = this.inputSide): Float32Array {
    this.#clearAround(width, height)
    let unit = worth
    let places = 1
    for (let i = 0; i < this.#stages.length; i++) {
      const stage = this.#stages[i]!
      const next = this.#stages[i + 1]
      const output = this.#outputs[i & 1]!
      const across = along(width, stage)
      const down = along(height, stage)
      places = across * down
      const most = this.#conv.run(
        stage.input,
        stage.weights,
        stage.steps,
        stage.bias,
        output,
        stage.kept ? this.#outputs[(i + 1) & 1]! : 0,
        stage.runs,
        stage.runsInRow,
        stage.pairs,
        across,
        places,
        stage.outChannels,
        stage.inStep,
        stage.inRow,
        stage.inRun,
        stage.inRowStep,
        unit,
        next ? 0 : Number.NEGATIVE_INFINITY,
      )
      if (!next) break
      const scale = most > 0 ? next.largest / most : 0
      this.#conv.pack(output, next.firstPixel, across, down, stage.outChannels, next.pixelRow, scale)
      unit = most / next.largest
    }
    const from = this.#outputs[(this.#stages.length - 1) & 1]! / FLOAT
    return this.#floats.subarray(from, from + places * this.outputStep)
  }

  /** What the last layer took in the last run, if that has one place: lent until the next. */
  lastInputs(): Float32Array {
    const { outChannels } = this.#stages.at(-2)!
    const from = this.#outputs[this.#stages.length & 1]! / FLOAT
    return this.#floats.subarray(from, from + outChannels)
  }

  /** Around what a layer hands on lie zeros, but where a run of another size has left its numbers. */
  #clearAround(width: number, height: number): void {
    if (width === this.#lastWidth && height === this.#lastHeight) return
    this.#lastWidth = width
    this.#lastHeight = height
    for (const { input, inputEnd } of this.#stages.slice(1)) {
      this.#shorts.fill(0, input / SHORT, inputEnd / SHORT)
    }
  }
}

/** Pixels of a layer's output along a side of the part looked at. */
function along(length: number, { spacing }: Stage): number {
  return spacing === 0 ? 1 : Math.ceil(length / spacing)
}

/** Places every layer's weights and input in memory, and room for the outputs of two layers. */
function layStages(window: number, layers: readonly NetLayer[]) {
  let end = 64 // the kernel's own memory holds nothing, but address 0 stays free
  const reserve = (bytes: number) => {
    const at = end
    end += Math.ceil(bytes / SLACK) * SLACK
    return at
  }
  let side = window
  let spacing = 1
  let channels = 1
  let realChannels = 1
  let mostOutputs = 0
  const weights: Int16Array[] = []
  const stages = layers.map((layer): Stage => {
    const dense = layer.kind === 'dense'
    const kernel = dense ? side : layer.kernel
    const apart = layer.dilation
    const border = dense ? 0 : (kernel >> 1) * apart
    const padded = side + 2 * border
    const outChannels = Math.ceil(layer.outputs / LANES) * LANES
    const runsInRow = apart === 1 ? 1 : kernel
    const arranged = arrange(layer, kernel, realChannels, channels, outChannels)
    const pixelRow = padded * channels * SHORT
    const input = reserve(padded * pixelRow + SLACK)
    const inputEnd = end
    const outSide = dense ? 1 : Math.ceil(side / layer.stride)
    spacing = dense ? 0 : spacing * layer.stride
    weights.push(arranged)
    const stage: Stage = {
      kept: layer.kept,
      runs: kernel * runsInRow,
      runsInRow,
      pairs: pairsOf(kernel / runsInRow, channels),
      spacing,
      outChannels,
      input,
      inputEnd,
      firstPixel: input + border * (pixelRow + channels * SHORT),
      pixelRow,
      inRow: apart * pixelRow,
      inRun: apart * channels * SHORT,
      inStep: layer.stride * channels * SHORT,
      inRowStep: layer.stride * pixelRow,
      weights: reserve(arranged.length * SHORT),
      steps: reserve(outChannels * FLOAT),
      bias: reserve(outChannels * FLOAT),
      largest: largestInput(layer),
    }
    mostOutputs = Math.max(mostOutputs, outSide * outSide * outChannels)
    side = outSide
    channels = outChannels
    realChannels = layer.outputs
    return stage
  })
  const outputs = [reserve(mostOutputs * FLOAT), reserve(mostOutputs * FLOAT)] as const
  return { stages, weights, outputs, end }
}

function pairsOf(places: number, channels: number): number {
  return Math.ceil((places * channels) / 2)
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

/**
 * From the file's order (output, channel, row, column) to the kernel's (sixteen outputs, run, pair, output, one of the
 * pair).
 */
function arrange(
  layer: NetLayer,
  kernel: number,
  realChannels: number,
  channels: number,
  outChannels: number,
): Int16Array {
  const taps = kernel * kernel
  const tapsInRun = layer.dilation === 1 ? kernel : 1
  const pairs = pairsOf(tapsInRun, channels)
  const runs = taps / tapsInRun
  const weights = new Int16Array(runs * pairs * 2 * outChannels)
  for (let o = 0; o < layer.outputs; o++) {
    const block = Math.floor(o / LANES) * runs * pairs
    for (let c = 0; c < realChannels; c++) {
      for (let t = 0; t < taps; t++) {
        const number = (t % tapsInRun) * channels + c
        const pair = block + Math.floor(t / tapsInRun) * pairs + (number >> 1)
        weights[(pair * LANES + (o % LANES)) * 2 + (number & 1)] =
          layer.weights[(o * realChannels + c) * taps + t]!
      }
    }
  }
  return weights
}
