import type { DigitSet } from '../../grid/digits.js'
import { bytesOfHex } from '../../hex.js'
import type { SearchEvent, SolutionSearch } from '../search.js'
import { restrictWords } from './layout.js'
import { WASM_BYTES } from './wasm-bytes.js'

/** What kernel9.as exports. */
interface KernelExports {
  readonly memory: { readonly buffer: ArrayBuffer }
  /** Address of the 81 digits: givens in, solution out. */
  readonly cells: { readonly value: number }
  /** Address of the candidates: four words a digit, the fourth unused. */
  readonly words: { readonly value: number }
  /** Address of the number of nodes visited. */
  readonly nodes: { readonly value: number }
  prepare(): void
  start(): void
  next(nodes: number): number
  readSolution(): void
}

const EVENTS: readonly SearchEvent[] = ['exhausted', 'solution', 'out-of-nodes']
const MOST_NODES_A_CALL = 0x7fffffff

/**
 * The 9×9 search in WebAssembly with 128-bit lanes; the same search in TypeScript, `PlainKernel9` of the tests, says
 * how it works.
 */
export class WasmKernel9 implements SolutionSearch {
  private readonly kernel: KernelExports
  private readonly cells: Uint8Array
  private readonly words: Int32Array
  private readonly counter: Int32Array

  private constructor(kernel: KernelExports) {
    kernel.prepare()
    this.kernel = kernel
    this.cells = new Uint8Array(kernel.memory.buffer, kernel.cells.value, 81)
    this.words = new Int32Array(kernel.memory.buffer, kernel.words.value, 36)
    this.counter = new Int32Array(kernel.memory.buffer, kernel.nodes.value, 1)
  }

  /** A search of its own (64 KiB), or undefined where WebAssembly or its 128-bit lanes are missing or forbidden. */
  static create(): WasmKernel9 | undefined {
    const instance = instantiate()
    return instance && new WasmKernel9(instance)
  }

  get nodes(): number {
    return this.counter[0]!
  }

  start(givens: ArrayLike<number>, marks?: ArrayLike<DigitSet>): void {
    const { cells } = this
    for (let cell = 0; cell < 81; cell++) cells[cell] = givens[cell]!
    this.kernel.start()
    if (marks) restrictWords(this.words, 4, marks)
  }

  next(nodes: number): SearchEvent {
    return EVENTS[this.kernel.next(Math.min(nodes, MOST_NODES_A_CALL))]!
  }

  readSolution(out: { [cell: number]: number }): void {
    const { cells } = this
    this.kernel.readSolution()
    for (let cell = 0; cell < 81; cell++) out[cell] = cells[cell]!
  }
}

/**
 * The part of the WebAssembly interface used here; the platform's own types come with the DOM, which the core is
 * without.
 */
interface Platform {
  readonly Module: new (bytes: Uint8Array) => object
  readonly Instance: new (module: object) => { readonly exports: unknown }
}

let compiled: object | undefined

function instantiate(): KernelExports | undefined {
  const platform = (globalThis as { WebAssembly?: Platform }).WebAssembly
  if (!platform) return undefined
  try {
    compiled ??= new platform.Module(bytesOfHex(WASM_BYTES))
    return new platform.Instance(compiled).exports as KernelExports
  } catch {
    // an engine without 128-bit lanes, or a page whose policy forbids compiling
    return undefined
  }
}
