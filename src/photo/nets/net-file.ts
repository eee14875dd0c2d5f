import { GridreasonError } from '../../errors.js'

/** One layer as the file holds it. A weight stands for so many times its output's step. */
export interface NetLayer {
  readonly kind: 'conv' | 'dense'
  /** Side of the kernel and the step between its places; 0 in dense layers. */
  readonly kernel: number
  readonly stride: number
  /** How far apart the kernel's places stand: 1 for side by side. */
  readonly dilation: number
  /** Is what comes in added to what comes out? */
  readonly kept: boolean
  readonly outputs: number
  /** Output by output; within one channel by channel, row by row. */
  readonly weights: Int8Array
  /** For each output. */
  readonly steps: Float32Array
  readonly bias: Float32Array
}

export interface NetFile {
  /** Side of the square picture that goes in. */
  readonly window: number
  readonly temperature: number
  readonly layers: readonly NetLayer[]
}

const MAGIC = 0x4e445247 // "GRDN", little-endian
const VERSION = 1
const BYTE = 8

/**
 * Reads a network file as `fixtures/train` writes it: "GRDN", version, length of a JSON head, the head (its layers:
 * `conv`, kernel, stride, outputs and perhaps dilation and 1 for kept; `dense`, outputs; and perhaps how many bits a
 * weight has, else 8), then for each layer its weights (whole numbers of so many bits, one after another, lowest bit
 * first), padding to 4 bytes, a step an output and the biases (float32), and last the CRC-32 of all that.
 * Little-endian.
 *
 * @throws GridreasonError `weights-unreadable` when the bytes are not such a file, or were damaged
 */
export function readNetFile(file: Uint8Array): NetFile {
  const bytes = new Uint8Array(file) // a copy, aligned, so that float arrays may look into it
  const view = new DataView(bytes.buffer)
  if (bytes.length < 16 || view.getUint32(0, true) !== MAGIC) throw damaged('it does not begin as one')
  if (view.getUint32(4, true) !== VERSION) throw damaged(`its version is ${view.getUint32(4, true)}`)
  if (view.getUint32(bytes.length - 4, true) !== crc32(bytes.subarray(0, bytes.length - 4))) {
    throw damaged('its checksum does not match')
  }
  let at = 12 + view.getUint32(8, true)
  const head = JSON.parse(new TextDecoder().decode(bytes.subarray(12, at))) as {
    window: number
    temperature: number
    bits?: number
    layers: [kind: NetLayer['kind'], ...sizes: number[]][]
  }
  const { bits = BYTE } = head
  let channels = 1
  let side = head.window
  const layers = head.layers.map(([kind, ...sizes]): NetLayer => {
    const dense = kind === 'dense'
    const [kernel, stride, outputs] = dense
      ? ([0, 0, sizes[0]!] as const)
      : (sizes as [number, number, number])
    const [dilation, kept] = dense ? [1, false] : [sizes[3] ?? 1, sizes[4] === 1]
    const inputs = channels * (dense ? side * side : kernel * kernel)
    const weights = wholeNumbers(bytes.subarray(at), outputs * inputs, bits)
    at += Math.ceil((weights.length * bits) / BYTE)
    at += -at & 3
    const steps = new Float32Array(bytes.buffer, at, outputs)
    const bias = new Float32Array(bytes.buffer, at + 4 * outputs, outputs)
    at += 8 * outputs
    channels = outputs
    side = dense ? 1 : Math.ceil(side / stride)
    return { kind, kernel, stride, dilation, kept, outputs, weights, steps, bias }
  })
  if (at !== bytes.length - 4) throw damaged('its length is off')
  return { window: head.window, temperature: head.temperature, layers }
}

/** The first `count` whole numbers of so many bits each. */
function wholeNumbers(packed: Uint8Array, count: number, bits: number): Int8Array {
  const numbers = new Int8Array(count)
  for (let k = 0, at = 0; k < count; k++, at += bits) {
    const byte = at >> 3
    const both = packed[byte]! | ((packed[byte + 1] ?? 0) << BYTE)
    // to the top of 32 bits and back, which fills in the sign
    numbers[k] = (both << (32 - bits - (at & 7))) >> (32 - bits)
  }
  return numbers
}

function damaged(why: string): GridreasonError {
  return new GridreasonError(
    'weights-unreadable',
    `A network's file cannot be used: ${why}. Install gridreason anew, or copy the file again.`,
  )
}

/** CRC-32 as in ISO 3309 and ITU-T V.42 (Node's own came after the oldest Node that is supported). */
export function crc32(bytes: Uint8Array): number {
  let crc = -1
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0)
  }
  return ~crc >>> 0
}
