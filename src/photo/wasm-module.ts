import { bytesOfHex } from '../hex.js'

/** The part of the WebAssembly interface used here; the platform's own types come with the DOM. */
interface Platform {
  readonly Module: new (bytes: Uint8Array) => object
  readonly Instance: new (module: object) => { readonly exports: unknown }
}

export interface WasmMemory {
  readonly buffer: ArrayBuffer
  grow(pages: number): number
}

/** Bytes that memory grows by at a time. */
export const WASM_PAGE = 65536

/** What a module in hexadecimal digits exports, in a new instance with a memory of its own. */
export function instantiate<Exports>(hex: string): Exports {
  const { Module, Instance } = (globalThis as unknown as { WebAssembly: Platform }).WebAssembly
  return new Instance(new Module(bytesOfHex(hex))).exports as Exports
}
