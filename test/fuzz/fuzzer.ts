/**
 * What one case adds to the counts of its fuzzer, name by name: `{ steps: 12 }`. Names that begin with `worst` keep the
 * largest value met instead of a sum.
 */
export type Counts = Readonly<Record<string, number>>

/** One kind of random test that can go on for as long as there is time. */
export interface Fuzzer {
  /** In kebab case; `--only` takes it. */
  readonly name: string
  /**
   * Runs one case, which must depend on `random` alone (numbers in [0, 1)) and take well under a second.
   *
   * @returns what to add to the counts
   * @throws FuzzFault where the library is at fault; any other error counts as a fault too
   */
  runCase(random: () => number): Counts | Promise<Counts>
}

/** The library did what it must never do; the message says what, and on which input. */
export class FuzzFault extends Error {
  override readonly name = 'FuzzFault'
}
