import { crc32 } from '../nets/net-file.js'

/** A layer that multiplies: weights output by output, as numbers. */
interface Dense {
  readonly inputs: number
  readonly outputs: number
  readonly weights: Float32Array
  readonly bias: Float32Array
}

interface Norm {
  readonly gain: Float32Array
  readonly bias: Float32Array
}

interface Block {
  readonly norm1: Norm
  /** What each place asks, offers and tells, one after another. */
  readonly ask: Dense
  readonly answer: Dense
  readonly norm2: Norm
  readonly widen: Dense
  readonly narrow: Dense
}

interface Head {
  /** Numbers of a cell, part by part. */
  readonly cells: readonly number[]
  readonly kinds: readonly string[]
  readonly width: number
  readonly heads: number
  readonly depth: number
  readonly hidden: number
  readonly temperatures: { readonly kinds: number; readonly digits: number; readonly marks: number }
}

const MAGIC = 0x50445247 // "GRDP", little-endian
const VERSION = 1
const DIGITS = 9
/** As PyTorch's layer norm has it. */
const NORM_LEAST = 1e-5

/**
 * The page network: what each cell shows, from what cell networks make of it and of all other cells. It is a small
 * transformer (A. Vaswani and others, "Attention is all you need", 2017) with a place for each cell that does not know
 * where on the page it is. `fixtures/train/page_context.py` says how its file is laid out.
 */
export class PageContext {
  readonly head: Head
  /** Numbers that say what is known of a cell. */
  readonly features: number
  /** Numbers that come out for a cell: a logit for each kind, for each digit, and for a mark of each digit. */
  readonly outputs: number
  readonly #enter: Dense
  readonly #blocks: readonly Block[]
  readonly #norm: Norm
  readonly #leave: Dense

  /** @throws Error when the bytes are not a whole network file */
  constructor(file: Uint8Array) {
    const bytes = new Uint8Array(file) // a copy, aligned, so that float arrays may look into it
    const view = new DataView(bytes.buffer)
    if (bytes.length < 16 || view.getUint32(0, true) !== MAGIC) throw damaged('it does not begin as one')
    if (view.getUint32(4, true) !== VERSION) throw damaged(`its version is ${view.getUint32(4, true)}`)
    if (view.getUint32(bytes.length - 4, true) !== crc32(bytes.subarray(0, bytes.length - 4)))
      throw damaged('its checksum does not match')
    let at = 12 + view.getUint32(8, true)
    const head = JSON.parse(new TextDecoder().decode(bytes.subarray(12, at))) as Head
    const floats = (count: number) => {
      const part = new Float32Array(bytes.buffer, at, count)
      at += 4 * count
      return part
    }
    const dense = (inputs: number, outputs: number): Dense => {
      const whole = new Int8Array(bytes.buffer, at, inputs * outputs)
      at += whole.length + (-(at + whole.length) & 3)
      const steps = floats(outputs)
      const weights = Float32Array.from(whole, (value, k) => value * steps[Math.floor(k / inputs)]!)
      return { inputs, outputs, weights, bias: floats(outputs) }
    }
    const norm = (): Norm => ({ gain: floats(head.width), bias: floats(head.width) })
    const { width, hidden, depth } = head
    this.head = head
    this.features = head.cells.reduce((sum, count) => sum + count, 0)
    this.outputs = head.kinds.length + 2 * DIGITS
    this.#enter = dense(this.features, width)
    this.#blocks = Array.from({ length: depth }, () => ({
      norm1: norm(),
      ask: dense(width, 3 * width),
      answer: dense(width, width),
      norm2: norm(),
      widen: dense(width, hidden),
      narrow: dense(hidden, width),
    }))
    this.#norm = norm()
    this.#leave = dense(width, this.outputs)
    if (at !== bytes.length - 4) throw damaged('its length is off')
  }

  /**
   * @param features `features` numbers for each cell, cell by cell
   * @returns `outputs` numbers for each cell
   */
  run(features: Float32Array): Float32Array {
    const cells = features.length / this.features
    const x = multiply(this.#enter, features, cells)
    for (const { norm1, ask, answer, norm2, widen, narrow } of this.#blocks) {
      add(x, multiply(answer, this.#attend(multiply(ask, normed(norm1, x), cells), cells), cells))
      const wide = multiply(widen, normed(norm2, x), cells)
      for (let k = 0; k < wide.length; k++) wide[k] = Math.max(0, wide[k]!)
      add(x, multiply(narrow, wide, cells))
    }
    return multiply(this.#leave, normed(this.#norm, x), cells)
  }

  /** Each cell takes from every other as much as what it asks fits to what that one offers. */
  #attend(parts: Float32Array, cells: number): Float32Array {
    const { width, heads } = this.head
    const size = width / heads
    const taken = new Float32Array(cells * width)
    const shares = new Float32Array(cells)
    for (let first = 0; first < width; first += size) {
      for (let cell = 0; cell < cells; cell++) {
        const asks = cell * 3 * width + first
        let most = Number.NEGATIVE_INFINITY
        for (let other = 0; other < cells; other++) {
          const offers = other * 3 * width + width + first
          let fit = 0
          for (let k = 0; k < size; k++) fit += parts[asks + k]! * parts[offers + k]!
          shares[other] = fit / Math.sqrt(size)
          most = Math.max(most, shares[other]!)
        }
        let sum = 0
        for (let other = 0; other < cells; other++) {
          shares[other] = Math.exp(shares[other]! - most)
          sum += shares[other]!
        }
        for (let other = 0; other < cells; other++) {
          const tells = other * 3 * width + 2 * width + first
          const share = shares[other]! / sum
          for (let k = 0; k < size; k++) taken[cell * width + first + k]! += share * parts[tells + k]!
        }
      }
    }
    return taken
  }
}

function multiply({ inputs, outputs, weights, bias }: Dense, x: Float32Array, rows: number): Float32Array {
  const out = new Float32Array(rows * outputs)
  for (let row = 0; row < rows; row++) {
    for (let o = 0, w = 0; o < outputs; o++) {
      let sum = bias[o]!
      for (let i = row * inputs, end = i + inputs; i < end; i++, w++) sum += x[i]! * weights[w]!
      out[row * outputs + o] = sum
    }
  }
  return out
}

function normed({ gain, bias }: Norm, x: Float32Array): Float32Array {
  const width = gain.length
  const out = new Float32Array(x.length)
  for (let from = 0; from < x.length; from += width) {
    let mean = 0
    for (let k = 0; k < width; k++) mean += x[from + k]! / width
    let spread = 0
    for (let k = 0; k < width; k++) spread += (x[from + k]! - mean) ** 2 / width
    const scale = 1 / Math.sqrt(spread + NORM_LEAST)
    for (let k = 0; k < width; k++) out[from + k] = (x[from + k]! - mean) * scale * gain[k]! + bias[k]!
  }
  return out
}

function add(x: Float32Array, more: Float32Array): void {
  for (let k = 0; k < x.length; k++) x[k] = x[k]! + more[k]!
}

function damaged(why: string): Error {
  return new Error(`A network's file cannot be used: ${why}. Reinstall gridreason.`)
}
