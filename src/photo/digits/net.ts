import { CELL_SIZE } from './digit-reader.js'
import { type NetLayer, readNetFile } from './net-file.js'

/** Logits of one cell: no printed digit, the digits 1 to 9, then handwriting. */
export const OUTPUTS = 11

/** A stage of the network, ready to run: activations lie row by row, the channels of a pixel side by side. */
interface Stage {
  readonly kind: NetLayer['kind']
  readonly kernel: number
  readonly stride: number
  /** Sides of the square of pixels that goes in (with its padding) and that comes out (without). */
  readonly inSide: number
  readonly outSide: number
  readonly inChannels: number
  readonly outChannels: number
  /** conv and dense: output by output, each in the order of the input; depth: tap by tap, channel by channel. */
  readonly weights: Float32Array
  readonly bias: Float32Array
  readonly input: Float32Array
  readonly last: boolean
}

/**
 * The small convolutional network that reads a cell, in plain arithmetic on typed arrays. All memory is set aside when
 * it is made; running it allocates nothing. One instance reads one cell at a time.
 */
export class DigitNet {
  /** What logits are divided by before they become probabilities, so that 90 % means nine out of ten. */
  readonly temperature: number
  readonly #window: number
  readonly #stages: readonly Stage[]

  /** @throws Error when the bytes are not a whole network file */
  constructor(file: Uint8Array) {
    const { window, temperature, layers } = readNetFile(file)
    this.temperature = temperature
    this.#window = window
    this.#stages = layStages(window, layers)
  }

  /** Fills `logits` (`OUTPUTS` numbers) from a cell picture of `CELL_SIZE²` bytes. */
  run(cell: Uint8Array, logits: Float32Array): void {
    const stages = this.#stages
    this.#load(cell, stages[0]!)
    for (let i = 0; i < stages.length; i++) {
      const stage = stages[i]!
      const next = stages[i + 1]
      const out = next ? next.input : logits
      const pad = next && next.kind !== 'dense' ? next.kernel >> 1 : 0
      const outSide = stage.outSide + 2 * pad
      if (stage.kind === 'depth') runDepth(stage, out, outSide, pad)
      else runConv(stage, out, outSide, pad)
    }
  }

  /** Ink as 0 to 1 in the window in the middle of the cell. */
  #load(cell: Uint8Array, first: Stage): void {
    const edge = (CELL_SIZE - this.#window) >> 1
    const pad = first.kernel >> 1
    for (let y = 0; y < this.#window; y++) {
      const from = (y + edge) * CELL_SIZE + edge
      const to = (y + pad) * first.inSide + pad
      for (let x = 0; x < this.#window; x++) first.input[to + x] = (255 - cell[from + x]!) / 255
    }
  }
}

function layStages(window: number, layers: readonly NetLayer[]): Stage[] {
  let side = window
  let channels = 1
  return layers.map((layer, i) => {
    const dense = layer.kind === 'dense'
    const kernel = dense ? side : layer.kernel
    const stride = dense ? 1 : layer.stride
    const pad = dense ? 0 : kernel >> 1
    const inSide = side + 2 * pad
    const inChannels = channels
    const outSide = dense ? 1 : Math.ceil(side / stride)
    side = outSide
    channels = layer.outputs
    return {
      kind: layer.kind,
      kernel,
      stride,
      inSide,
      outSide,
      inChannels,
      outChannels: layer.outputs,
      weights: rearrange(layer, kernel, inChannels),
      bias: layer.bias,
      input: new Float32Array(inSide * inSide * inChannels),
      last: i === layers.length - 1,
    }
  })
}

/** The file lists weights output by output, then channel by channel; pixels here have their channels side by side. */
function rearrange(layer: NetLayer, kernel: number, inChannels: number): Float32Array {
  const taps = kernel * kernel
  const weights = new Float32Array(layer.weights.length)
  if (layer.kind === 'depth') {
    for (let c = 0; c < layer.outputs; c++) {
      for (let t = 0; t < taps; t++) weights[t * layer.outputs + c] = layer.weights[c * taps + t]!
    }
    return weights
  }
  const row = taps * inChannels
  for (let o = 0; o < layer.outputs; o++) {
    for (let c = 0; c < inChannels; c++) {
      for (let t = 0; t < taps; t++)
        weights[o * row + t * inChannels + c] = layer.weights[o * row + c * taps + t]!
    }
  }
  return weights
}

/** Dense stages run here too: a dense layer is a kernel as large as its input. Four outputs at a time share each read. */
function runConv(stage: Stage, out: Float32Array, outRow: number, pad: number): void {
  const { kernel, stride, inSide, outSide, inChannels, outChannels, weights, bias, input, last } = stage
  const run = kernel * inChannels
  const size = kernel * run
  for (let y = 0; y < outSide; y++) {
    for (let x = 0; x < outSide; x++) {
      const to = ((y + pad) * outRow + x + pad) * outChannels
      const from = (y * stride * inSide + x * stride) * inChannels
      let o = 0
      for (; o + 4 <= outChannels; o += 4) {
        let a = bias[o]!
        let b = bias[o + 1]!
        let c = bias[o + 2]!
        let d = bias[o + 3]!
        let w = o * size
        for (let ky = 0; ky < kernel; ky++) {
          const start = from + ky * inSide * inChannels
          for (let i = start; i < start + run; i++, w++) {
            const value = input[i]!
            a += value * weights[w]!
            b += value * weights[w + size]!
            c += value * weights[w + 2 * size]!
            d += value * weights[w + 3 * size]!
          }
        }
        if (last) {
          out[to + o] = a
          out[to + o + 1] = b
          out[to + o + 2] = c
          out[to + o + 3] = d
        } else {
          out[to + o] = a > 0 ? a : 0
          out[to + o + 1] = b > 0 ? b : 0
          out[to + o + 2] = c > 0 ? c : 0
          out[to + o + 3] = d > 0 ? d : 0
        }
      }
      for (; o < outChannels; o++) {
        let a = bias[o]!
        let w = o * size
        for (let ky = 0; ky < kernel; ky++) {
          const start = from + ky * inSide * inChannels
          for (let i = start; i < start + run; i++, w++) a += input[i]! * weights[w]!
        }
        out[to + o] = last || a > 0 ? a : 0
      }
    }
  }
}

/** One filter a channel. */
function runDepth(stage: Stage, out: Float32Array, outRow: number, pad: number): void {
  const { kernel, stride, inSide, outSide, outChannels, weights, bias, input } = stage
  for (let y = 0; y < outSide; y++) {
    for (let x = 0; x < outSide; x++) {
      const to = ((y + pad) * outRow + x + pad) * outChannels
      const from = (y * stride * inSide + x * stride) * outChannels
      for (let c = 0; c < outChannels; c++) {
        let sum = bias[c]!
        for (let ky = 0; ky < kernel; ky++) {
          for (let kx = 0; kx < kernel; kx++) {
            sum +=
              input[from + (ky * inSide + kx) * outChannels + c]! *
              weights[(ky * kernel + kx) * outChannels + c]!
          }
        }
        out[to + c] = sum > 0 ? sum : 0
      }
    }
  }
}
